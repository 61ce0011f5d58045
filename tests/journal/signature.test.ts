import { createPublicKey, generateKeyPairSync, type KeyObject, sign, verify } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import type { Entry, EntryBody, EntryDraft } from '../../src/journal/entries.ts';
import { foldJournal } from '../../src/journal/fold.ts';
import {
  type SignableDraft,
  type SignatureVerdict,
  signatureFits,
  signedBytes,
  verifySignatures,
} from '../../src/journal/signature.ts';
import { draft, ids, laboratoryDrafts, sealChain, technologistAdded } from './fixtures.ts';

const utf8 = (text: string) => new TextEncoder().encode(text);
const base64 = (bytes: Uint8Array) => Buffer.from(bytes).toString('base64');
const raw = { dsaEncoding: 'ieee-p1363' } as const;

const statement: EntryBody<'failure-closed'> = {
  closureId: 'closure-one',
  analyzerId: ids.analyzer,
  failures: [{ method: 'syringe', route: 'patient-test', quantity: 'va', openedByRunId: ids.run(1) }],
  closedAt: '2026-03-05T10:00:00.000Z',
  reason: 'The run after the repair lies inside.',
  correctiveAction: 'Valve replaced',
  signature: null,
};
type Closing = Extract<SignableDraft, { kind: 'failure-closed' }>;

const closing = (changes: Partial<EntryBody<'failure-closed'>> = {}, by = ids.supervisor): Closing => ({
  id: 'entry-of-the-closing',
  by,
  kind: 'failure-closed',
  body: { ...statement, ...changes },
});

describe('signatureFits', () => {
  /**
   * RFC 6979, appendix A.2.5, ECDSA on P-256 with SHA-256 (from memory; a slip in any digit would not verify).
   * The key is wrapped as SubjectPublicKeyInfo by RFC 5480: id-ecPublicKey, prime256v1, an uncompressed point.
   */
  const point =
    '60fed4ba255a9d31c961eb74c6356d68c049b8923b61fa6ce669622e60f29fb6' +
    '7903fe1008b8bc99a41ae9e95628bc64f2f1b20c2d7e9f5177a3c294d4462299';
  const publicKey = base64(
    Buffer.from(`3059301306072a8648ce3d020106082a8648ce3d03010703420004${point}`, 'hex'),
  );
  const published = [
    {
      message: 'sample',
      r: 'efd48b2aacb6a8fd1140dd9cd45e81d69d2c877b56aaf991c34d0ea84eaf3716',
      s: 'f7cb1c942d657c41d436c7a1b6e29f65f3e900dbb9aff4064dc4ab2f843acda8',
    },
    {
      message: 'test',
      r: 'f1abb023518351cd71d881567b1ea663ed3efcf6c5132b354f28d3b0b7d38367',
      s: '019f4113742a2b14bd25926b49c649155f267e60d3814b4c0cc84250e46f0083',
    },
  ];

  it.each(published)('takes the published signature of "$message"', async ({ message, r, s }) => {
    expect(await signatureFits(utf8(message), base64(Buffer.from(r + s, 'hex')), publicKey)).toBe(true);
  });

  it('takes it for no other message', async () => {
    const [{ r, s } = { r: '', s: '' }] = published;
    expect(await signatureFits(utf8('Sample'), base64(Buffer.from(r + s, 'hex')), publicKey)).toBe(false);
  });

  it.each([
    ['no base64', '!', publicKey],
    ['an empty signature', '', publicKey],
    ['a signature that is too short', base64(new Uint8Array(63)), publicKey],
    ['a key that is none', base64(new Uint8Array(64)), 'AAAA'],
    ['a key on another curve', base64(new Uint8Array(64)), spkiOf('secp384r1')],
  ])('is false, not an error, for %s', async (_, signature, key) => {
    expect(await signatureFits(utf8('sample'), signature, key)).toBe(false);
  });
});

function spkiOf(namedCurve: string): string {
  const { publicKey } = generateKeyPairSync('ec', { namedCurve });
  return base64(publicKey.export({ type: 'spki', format: 'der' }));
}

describe('signedBytes', () => {
  // The canonical JSON written by hand, by RFC 8785: no spaces, names in order at every level, the signature left out.
  it('is the canonical JSON of author, kind and what is said, without the signature', () => {
    const signed = closing({ signature: { keyId: 'key-number-one', value: 'AAAA' } });
    expect(new TextDecoder().decode(signedBytes(signed))).toBe(
      '{"body":{"analyzerId":"analyzer-room-2","closedAt":"2026-03-05T10:00:00.000Z","closureId":"closure-one",' +
        '"correctiveAction":"Valve replaced","failures":[{"method":"syringe","openedByRunId":"run-number-1",' +
        '"quantity":"va","route":"patient-test"}],"reason":"The run after the repair lies inside."},' +
        '"by":"technologist-supervisor","kind":"failure-closed"}',
    );
  });
});

interface Key {
  keyId: string;
  privateKey: KeyObject;
  registered: EntryDraft;
}

function newKey(keyId: string, technologistId: string = ids.supervisor): Key {
  const { publicKey, privateKey } = generateKeyPairSync('ec', { namedCurve: 'prime256v1' });
  const body: EntryBody<'key-registered'> = {
    keyId,
    technologistId,
    algorithm: 'ECDSA-P256-SHA256',
    publicKey: base64(publicKey.export({ type: 'spki', format: 'der' })),
    reason: '',
  };
  return {
    keyId,
    privateKey,
    registered: { ...draft('key-registered', body), by: technologistId },
  };
}

/** Signed by node's own library, not by ours. */
function signedWith({ keyId, privateKey }: Key, unsigned: Closing): Closing {
  const value = base64(sign('sha256', signedBytes(unsigned), { key: privateKey, ...raw }));
  return { ...unsigned, body: { ...unsigned.body, signature: { keyId, value } } };
}

const colleague = draft('technologist-added', {
  ...technologistAdded,
  technologistId: 'technologist-second',
  initials: 'SE',
});
const people = () => [...laboratoryDrafts(), colleague];

async function verdictsOf(entries: readonly Entry[]): Promise<SignatureVerdict[]> {
  const checks = await verifySignatures(entries, foldJournal(entries).keys);
  return checks.map(({ verdict }) => verdict);
}
const judged = async (drafts: readonly EntryDraft[]) => verdictsOf(await sealChain([...people(), ...drafts]));

describe('verifySignatures', () => {
  const key = newKey('key-number-one');
  const other = newKey('key-of-the-second', 'technologist-second');

  it('passes over what cannot be signed', async () => {
    expect(await judged([key.registered])).toEqual([]);
  });

  it('says unsigned where there is no signature', async () => {
    expect(await judged([key.registered, closing()])).toEqual(['unsigned']);
  });

  it('takes what node signed, and names the key', async () => {
    const entries = await sealChain([...people(), key.registered, signedWith(key, closing())]);
    const [check] = await verifySignatures(entries, foldJournal(entries).keys);
    expect(check).toMatchObject({
      verdict: 'valid',
      entry: { id: 'entry-of-the-closing' },
      key: { body: { keyId: key.keyId } },
    });
  });

  it.each<[string, Partial<EntryBody<'failure-closed'>>]>([
    ['the reason', { reason: 'The run after the repair lies inside!' }],
    ['the corrective action', { correctiveAction: '' }],
    ['the time', { closedAt: '2026-03-05T10:00:00.001Z' }],
    [
      'the failures',
      {
        failures: [{ method: 'syringe', route: 'patient-test', quantity: 'dlco', openedByRunId: ids.run(1) }],
      },
    ],
    ['the id of the statement', { closureId: 'closure-two' }],
  ])('does not take a signature moved to a statement with another value of %s', async (_, changes) => {
    const { body } = signedWith(key, closing());
    expect(await judged([key.registered, closing({ ...changes, signature: body.signature })])).toEqual([
      'not-valid',
    ]);
  });

  it('does not take a signature moved to another author', async () => {
    const { body } = signedWith(key, closing());
    expect(
      await judged([key.registered, closing({ signature: body.signature }, 'technologist-second')]),
    ).toEqual(['not-valid']);
  });

  it('finds every changed byte of a signature', async () => {
    const signed = signedWith(key, closing());
    const bytes = Buffer.from(signed.body.signature?.value ?? '', 'base64');
    expect(bytes).toHaveLength(64);
    const changed = [...bytes.keys()].map((index) => {
      const copy = Buffer.from(bytes);
      copy.writeUInt8((copy.readUInt8(index) + 1) % 256, index);
      const signature = { keyId: key.keyId, value: base64(copy) };
      return { ...closing({ signature }), id: `entry-changed-at-${index}` };
    });
    expect(new Set(await judged([key.registered, ...changed]))).toEqual(new Set(['not-valid']));
  });

  it('says so where the key is not in the journal', async () => {
    expect(await judged([signedWith(key, closing())])).toEqual(['unknown-key']);
  });

  it('says so where somebody signs in their own name with another’s key', async () => {
    expect(await judged([other.registered, signedWith(other, closing())])).toEqual(['another-person']);
  });

  it('says so where the key was registered only afterwards', async () => {
    expect(await judged([signedWith(key, closing()), key.registered])).toEqual(['key-later']);
  });

  it('goes by the order of the chain, not by a clock that was set back', async () => {
    const drafts = [...people(), key.registered, signedWith(key, closing())];
    const at = drafts.map((_, index) => new Date(Date.UTC(2026, 2, 9 - index)).toISOString());
    expect(await verdictsOf(await sealChain(drafts, { at }))).toEqual(['valid']);
  });

  it('keeps what a replaced key signed before, and no longer takes what it signs after', async () => {
    const next = newKey('key-number-two');
    const before = { ...signedWith(key, closing()), id: 'entry-before' };
    const after = { ...signedWith(key, closing({ closureId: 'closure-after' })), id: 'entry-after' };
    const withNext = { ...signedWith(next, closing({ closureId: 'closure-next' })), id: 'entry-next' };
    expect(await judged([key.registered, before, next.registered, after, withNext])).toEqual([
      'valid',
      'key-replaced',
      'valid',
    ]);
  });

  it('lets a person have a key on each of two workstations', async () => {
    const there = newKey('key-on-the-other-one');
    const elsewhere = await sealChain([there.registered], {
      workstation: 'workstation-b',
      from: '2026-03-03T08:00:00.000Z',
    });
    // Registered there after the key here, and before what is signed here.
    const at = [1, 1, 1, 1, 2, 5].map((day) => new Date(Date.UTC(2026, 2, day, 8)).toISOString());
    const here = await sealChain([...people(), key.registered, signedWith(key, closing())], { at });
    expect(await verdictsOf([...here, ...elsewhere])).toEqual(['valid']);
  });

  it('gives each entry the same verdict in whatever order a copy holds them', async () => {
    const entries = await sealChain([...people(), key.registered, signedWith(key, closing())]);
    expect(await verdictsOf(entries.toReversed())).toEqual(['valid']);
  });

  it('is checked the same by another program that knows only the journal', async () => {
    const entries = await sealChain([...people(), key.registered, signedWith(key, closing())]);
    const stored: { by: string; kind: string; body: Record<string, unknown> } = JSON.parse(
      JSON.stringify(entries.at(-1)),
    );
    const registered = entries.at(-2);
    if (registered?.kind !== 'key-registered') throw new Error('the key is missing');
    const { signature, ...said } = stored.body;
    // Canonical JSON anew: names sorted at every level; the values here are all texts and lists.
    const sorted = (value: unknown): unknown =>
      Array.isArray(value)
        ? value.map(sorted)
        : typeof value === 'object' && value !== null
          ? Object.fromEntries(
              Object.entries(value)
                .sort(([a], [b]) => (a < b ? -1 : 1))
                .map(([name, inner]) => [name, sorted(inner)]),
            )
          : value;
    const text = JSON.stringify(sorted({ by: stored.by, kind: stored.kind, body: said }));
    const spki = Buffer.from(registered.body.publicKey, 'base64');
    const publicKey = createPublicKey({ key: spki, format: 'der', type: 'spki' });
    const { value } = signature as { value: string };
    expect(
      verify('sha256', Buffer.from(text), { key: publicKey, ...raw }, Buffer.from(value, 'base64')),
    ).toBe(true);
  });
});

describe('who may', () => {
  const changed = (role: 'technologist' | 'supervisor') =>
    draft('technologist-changed', { ...technologistAdded, role, reason: 'new post' });
  const problemsOf = async (drafts: readonly EntryDraft[]) =>
    foldJournal(await sealChain([...people(), ...drafts]))
      .problems.filter(({ sentence }) => !sentence.startsWith('Refers to run'))
      .map(({ entryId, sentence }) => `${entryId}: ${sentence}`);

  it('a closing by a technologist is told and still counts', async () => {
    const entries = await sealChain([...people(), changed('technologist'), closing()]);
    const { closures } = foldJournal(entries);
    expect(closures).toHaveLength(1);
    expect(await problemsOf([changed('technologist'), closing()])).toEqual([
      'entry-of-the-closing: Closes a failure, which only a supervisor may; its author was none at that time.',
    ]);
  });

  it('goes by the role at that time', async () => {
    expect(await problemsOf([closing(), changed('technologist')])).toEqual([]);
    expect(await problemsOf([changed('technologist'), changed('supervisor'), closing()])).toEqual([]);
  });

  it('a key registered in somebody else’s name is told', async () => {
    const { registered } = newKey('key-of-the-second', 'technologist-second');
    expect(await problemsOf([registered])).toEqual([]);
    expect(await problemsOf([{ ...registered, by: ids.supervisor }])).toEqual([
      expect.stringContaining('Registers a key in the name of somebody else'),
    ]);
  });
});
