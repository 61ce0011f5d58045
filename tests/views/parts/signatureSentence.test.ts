import { describe, expect, it } from 'vitest';
import type { SignatureVerdict } from '../../../src/journal/signature.ts';
import { signatureSentence } from '../../../src/views/parts/signatureSentence.ts';
import { closure, draft, ids, opened, run, technologistDraft, week } from '../laboratory.ts';

const key = draft('key-registered', {
  keyId: 'key-number-one',
  technologistId: ids.technologist,
  algorithm: 'ECDSA-P256-SHA256',
  publicKey: 'AAAA',
  reason: '',
});

async function sentence(verdict: SignatureVerdict) {
  const { logbook } = await opened([technologistDraft(), run(0, 3.37), key, closure(0, week(1))]);
  const [entry] = logbook.closures;
  const [registered = null] = logbook.keys.values();
  if (!entry) throw new Error('nothing is closed');
  return signatureSentence({ entry, verdict, key: registered }, logbook);
}

describe('signatureSentence', () => {
  it.each<[SignatureVerdict, RegExp]>([
    ['unsigned', /^Not signed\.$/],
    // The laboratory's entries are a minute apart from 1 January 2026, 00:00 UTC, which is 01:00 in Oslo.
    ['valid', /^Signed by IM, verified, with the key of .*1 Jan.* 2026.*01:0\d\.$/],
    ['not-valid', /^The signature is not one of IM for these words/],
    ['unknown-key', /not in this journal: it cannot be verified\.$/],
    ['another-person', /^Signed with the key of OF, not of IM\.$/],
    ['key-later', /that IM registered only afterwards\.$/],
    ['key-replaced', /which IM had replaced by then\.$/],
  ])('%s', async (verdict, words) => {
    expect(await sentence(verdict)).toMatch(words);
  });
});
