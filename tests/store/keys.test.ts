import { createDecipheriv, createPrivateKey, createPublicKey, pbkdf2Sync, verify } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import type * as z from 'zod/mini';
import type { EntryOf } from '../../src/journal/entries.ts';
import { foldJournal } from '../../src/journal/fold.ts';
import { type SignableDraft, signedBytes, verifySignatures } from '../../src/journal/signature.ts';
import { newestKeyHere, prepareKey, signDrafts } from '../../src/store/keys.ts';
import { ids, laboratoryDrafts, sealChain } from '../journal/fixtures.ts';

/** The settings of a workstation, as the store keeps them. */
function workstation() {
  const kept = new Map<string, unknown>();
  return {
    kept,
    readSetting: async <T>(key: string, schema: z.ZodMiniType<T>) => {
      const read = schema.safeParse(structuredClone(kept.get(key)));
      return read.success ? read.data : null;
    },
    writeSetting: async (key: string, value: unknown) => {
      kept.set(key, structuredClone(value));
    },
  };
}

const passphrase = 'four grey herons';
const closing: SignableDraft = {
  id: 'entry-of-the-closing',
  by: ids.supervisor,
  kind: 'failure-closed',
  body: {
    closureId: 'closure-one',
    analyzerId: ids.analyzer,
    failures: [{ method: 'syringe', route: 'patient-test', quantity: 'va', openedByRunId: ids.run(1) }],
    closedAt: '2026-03-05T10:00:00.000Z',
    reason: 'The run after the repair lies inside.',
    correctiveAction: '',
    signature: null,
  },
};

const register = (settings: ReturnType<typeof workstation>, typed = passphrase) =>
  prepareKey(settings, { technologistId: ids.supervisor, passphrase: typed, reason: '' });
const attempt = (settings: ReturnType<typeof workstation>, keyId: string, typed: string) =>
  signDrafts(settings, { keyId, passphrase: typed, drafts: [closing] });

describe('a key of this workstation', () => {
  it('signs so that node’s own library takes it', async () => {
    const settings = workstation();
    const { body } = await register(settings);
    const [signed] = (await attempt(settings, body.keyId, passphrase)) ?? [];
    const spki = Buffer.from(body.publicKey, 'base64');
    const key = createPublicKey({ key: spki, format: 'der', type: 'spki' });
    expect(key.asymmetricKeyDetails).toEqual({ namedCurve: 'prime256v1' });
    const value = Buffer.from(signed?.body.signature?.value ?? '', 'base64');
    expect(verify('sha256', signedBytes(closing), { key, dsaEncoding: 'ieee-p1363' }, value)).toBe(true);
    expect(signed).toEqual({
      ...closing,
      body: { ...closing.body, signature: { keyId: body.keyId, value: expect.any(String) } },
    });
  });

  it('does not sign with another passphrase, however near', async () => {
    const settings = workstation();
    const { body } = await register(settings);
    for (const typed of ['four grey heron', 'Four grey herons', 'four grey herons ', '']) {
      expect(await attempt(settings, body.keyId, typed), typed).toBeNull();
    }
  });

  // U+00E9 is one letter, U+0065 U+0301 the same letter in two: keyboards write either (Unicode Annex 15, NFKC).
  it('takes the same passphrase from another keyboard', async () => {
    const settings = workstation();
    const { body } = await register(settings, 'h\u00e9ron gris');
    expect(await attempt(settings, body.keyId, 'he\u0301ron gris')).toHaveLength(1);
  });

  it('lies wrapped as described, and nowhere else: opened here by node’s own library', async () => {
    const settings = workstation();
    const { body } = await register(settings);
    expect([...settings.kept.keys()]).toEqual([`signing-key ${body.keyId}`]);
    const [kept] = settings.kept.values();
    expect(JSON.stringify([...settings.kept, body])).not.toContain(passphrase);
    const text = kept as { salt: string; iterations: number; iv: string; privateKey: string };
    const bytes = (value: string) => Buffer.from(value, 'base64');
    expect(text.iterations).toBeGreaterThanOrEqual(600_000);
    expect(bytes(text.salt).length).toBeGreaterThanOrEqual(16);
    const wrapper = pbkdf2Sync(passphrase, bytes(text.salt), text.iterations, 32, 'sha256');
    const sealed = bytes(text.privateKey);
    const opening = createDecipheriv('aes-256-gcm', wrapper, bytes(text.iv));
    opening.setAAD(Buffer.from(body.keyId));
    opening.setAuthTag(sealed.subarray(-16));
    const pkcs8 = Buffer.concat([opening.update(sealed.subarray(0, -16)), opening.final()]);
    const privateKey = createPrivateKey({ key: pkcs8, format: 'der', type: 'pkcs8' });
    const publicKey = createPublicKey(privateKey).export({ type: 'spki', format: 'der' });
    expect(publicKey.toString('base64')).toBe(body.publicKey);
  });

  it('has a salt and a start value of its own, for the same passphrase too', async () => {
    const settings = workstation();
    await register(settings);
    await register(settings);
    const all = [...settings.kept.values()] as { salt: string; iv: string; privateKey: string }[];
    for (const field of ['salt', 'iv', 'privateKey'] as const) {
      expect(new Set(all.map((one) => one[field])).size, field).toBe(2);
    }
  });

  it('does not open under the name of another key', async () => {
    const settings = workstation();
    const mine = await register(settings);
    const others = await register(settings, 'another passphrase');
    const wrapped = settings.kept.get(`signing-key ${mine.body.keyId}`);
    const { keyId } = others.body;
    settings.kept.set(`signing-key ${keyId}`, { ...(wrapped as object), keyId });
    expect(await attempt(settings, keyId, passphrase)).toBeNull();
  });
});

describe('newestKeyHere', () => {
  async function registered(drafts: Parameters<typeof sealChain>[0]): Promise<EntryOf<'key-registered'>[]> {
    const { keys } = foldJournal(await sealChain([...laboratoryDrafts(), ...drafts]));
    return [...keys.values()];
  }

  it('is none before one is registered, and none for a key of another workstation', async () => {
    const elsewhere = await register(workstation());
    expect(await newestKeyHere(workstation(), [])).toBeNull();
    expect(await newestKeyHere(workstation(), await registered([elsewhere]))).toBeNull();
  });

  it('is none for a key whose registration never reached the journal', async () => {
    const settings = workstation();
    await register(settings);
    expect(await newestKeyHere(settings, [])).toBeNull();
  });

  it('is the newest one, and the private half of the one before is gone', async () => {
    const settings = workstation();
    const old = await register(settings);
    const next = await register(settings, 'five white swans');
    const keys = await registered([old, next]);
    expect((await newestKeyHere(settings, keys))?.body.keyId).toBe(next.body.keyId);
    expect(settings.kept.get(`signing-key ${old.body.keyId}`)).toBeNull();
    await expect(attempt(settings, old.body.keyId, passphrase)).rejects.toThrow(RangeError);
    expect(await attempt(settings, next.body.keyId, 'five white swans')).toHaveLength(1);
  });

  it('what a replaced key signed is still proven', async () => {
    const settings = workstation();
    const old = await register(settings);
    const signed = (await attempt(settings, old.body.keyId, passphrase)) ?? [];
    const next = await register(settings, 'five white swans');
    const entries = await sealChain([...laboratoryDrafts(), old, ...signed, next]);
    const [check] = await verifySignatures(entries, foldJournal(entries).keys);
    expect(check?.verdict).toBe('valid');
  });
});
