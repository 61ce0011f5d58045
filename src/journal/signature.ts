/**
 * Signatures: which person's key stands behind a statement.
 *
 * Signed is the RFC 8785 canonical JSON of `{ by, kind, body }`, the body without its signature: a signature moved to
 * another statement, or to the same one by somebody else, no longer fits. It does not cover when the entry was written
 * and where it stands in its chain; the entry's hash does. A statement copied with its signature into a second entry
 * therefore still fits, and the fold tells that its id is taken.
 *
 * ECDSA on P-256 with SHA-256 (FIPS 186-5); the signature is r and s side by side, 32 bytes each, as WebCrypto writes it.
 */
import canonicalize from 'canonicalize';

import { fromBase64 } from './base64.ts';
import type { Entry, EntryBody, EntryDraft, EntryKind, EntryOf, Signature } from './entries.ts';
import { inFoldOrder } from './foldOrder.ts';

/** The kinds of entry that a person can sign: those whose body has a place for it. */
export type SignableKind = {
  [K in EntryKind]: 'signature' extends keyof EntryBody<K> ? K : never;
}[EntryKind];
export type SignableDraft = Extract<EntryDraft, { kind: SignableKind }>;
type SignableEntry = EntryOf<SignableKind>;
type KeyEntry = EntryOf<'key-registered'>;

export const keyAlgorithm = { name: 'ECDSA', namedCurve: 'P-256' } as const;
export const signatureAlgorithm = { name: 'ECDSA', hash: 'SHA-256' } as const;

export type SignatureVerdict =
  | 'unsigned'
  | 'valid'
  /** The signature does not fit what the entry says. */
  | 'not-valid'
  /** No key of that id is in the journal. */
  | 'unknown-key'
  /** It fits, but the key belongs to somebody other than the entry's author. */
  | 'another-person'
  /** It fits, but the key was registered only after the entry. */
  | 'key-later'
  /** It fits, but on the key's workstation its owner had registered a newer one before the entry. */
  | 'key-replaced';

export interface SignatureCheck {
  entry: SignableEntry;
  verdict: SignatureVerdict;
  /** The registration of the key it was signed with; null where there is none. */
  key: KeyEntry | null;
}

/** The bytes that a signature is made of and checked against. */
export function signedBytes({
  by,
  kind,
  body,
}: Pick<SignableDraft, 'by' | 'kind' | 'body'>): Uint8Array<ArrayBuffer> {
  const { signature: _, ...statement } = body;
  const text = canonicalize({ by, kind, body: statement });
  if (text === undefined) throw new TypeError('signedBytes: the statement has no JSON form');
  return new TextEncoder().encode(text);
}

/**
 * Whether a signature in base64 fits the bytes and the public key (SubjectPublicKeyInfo, base64). False, too, for a key
 * or a signature that is none.
 */
export async function signatureFits(
  bytes: Uint8Array<ArrayBuffer>,
  signature: string,
  publicKey: string,
): Promise<boolean> {
  try {
    const key = await crypto.subtle.importKey('spki', fromBase64(publicKey), keyAlgorithm, false, ['verify']);
    return await crypto.subtle.verify(signatureAlgorithm, key, fromBase64(signature), bytes);
  } catch {
    return false;
  }
}

const isSignable = (entry: Entry): entry is SignableEntry => 'signature' in entry.body;

/**
 * Every entry that could be signed, in the order given, with what its signature is worth. `keys` are the logbook's.
 *
 * Before and after are told as the fold tells them: within a workstation by number, between workstations by their clocks.
 */
export async function verifySignatures(
  entries: readonly Entry[],
  keys: ReadonlyMap<string, KeyEntry>,
): Promise<readonly SignatureCheck[]> {
  const rank = new Map<string, number>();
  for (const [index, { hash }] of inFoldOrder([...entries, ...keys.values()]).entries()) {
    if (!rank.has(hash)) rank.set(hash, index);
  }
  const isBefore = (one: Entry, other: Entry) => (rank.get(one.hash) ?? 0) < (rank.get(other.hash) ?? 0);
  const isReplaced = (key: KeyEntry, entry: Entry) =>
    [...keys.values()].some(
      (newer) =>
        newer.workstation === key.workstation &&
        newer.body.technologistId === key.body.technologistId &&
        isBefore(key, newer) &&
        isBefore(newer, entry),
    );

  const verdictOf = async (
    entry: SignableEntry,
    signature: Signature | null,
    key: KeyEntry | null,
  ): Promise<SignatureVerdict> => {
    if (signature === null) return 'unsigned';
    if (key === null) return 'unknown-key';
    if (!(await fits(entry, signature, key))) return 'not-valid';
    if (key.body.technologistId !== entry.by) return 'another-person';
    if (!isBefore(key, entry)) return 'key-later';
    return isReplaced(key, entry) ? 'key-replaced' : 'valid';
  };

  return Promise.all(
    entries.filter(isSignable).map(async (entry) => {
      const { signature } = entry.body;
      const key = signature === null ? null : (keys.get(signature.keyId) ?? null);
      return { entry, key, verdict: await verdictOf(entry, signature, key) };
    }),
  );
}

async function fits(entry: SignableEntry, { value }: Signature, { body }: KeyEntry): Promise<boolean> {
  let bytes: Uint8Array<ArrayBuffer>;
  try {
    bytes = signedBytes(entry);
  } catch {
    return false; // what has no canonical JSON was never signed
  }
  return signatureFits(bytes, value, body.publicKey);
}
