/**
 * The private keys of this workstation. A key belongs to one person on one workstation: on another one they register
 * another. Its private half never leaves these settings, and never lies in them but wrapped by a key that is derived from
 * the passphrase; no backup holds it, since whoever had a copy of the wrapped key could guess at the passphrase at leisure.
 *
 * A passphrase is used for one call and kept nowhere.
 */
import * as z from 'zod/mini';

import { fromBase64, toBase64 } from '../journal/base64.ts';
import type { EntryDraft, EntryOf } from '../journal/entries.ts';
import { keyAlgorithm, type SignableDraft, signatureAlgorithm, signedBytes } from '../journal/signature.ts';
import type { LogbookHandle } from './openLogbook.ts';

/** OWASP Password Storage Cheat Sheet, PBKDF2 with HMAC-SHA-256: 600,000 or more (from memory). */
const iterations = 600_000;
/** NIST SP 800-132, section 5.1: at least 128 bits, drawn at random (from memory). */
const saltBytes = 16;
/** NIST SP 800-38D, section 5.2.1.1: 96 bits (from memory). */
const ivBytes = 12;
const wrappingKeyBits = 256;

const base64 = z.string().check(z.regex(/^[A-Za-z0-9+/]+={0,2}$/));

/** A private key (PKCS #8), encrypted with AES-GCM, and all that opens it again but the passphrase. Bytes in base64. */
const wrappedKeySchema = z.strictObject({
  keyId: z.string(),
  salt: base64,
  /** Kept with the key: a later release may ask for more of new ones. */
  iterations: z.int().check(z.minimum(1)),
  iv: base64,
  privateKey: base64,
});
type WrappedKey = z.infer<typeof wrappedKeySchema>;

type Settings = Pick<LogbookHandle, 'readSetting' | 'writeSetting'>;
type KeyEntry = EntryOf<'key-registered'>;

const settingOf = (keyId: string) => `signing-key ${keyId}`;
const randomBytes = (count: number) => crypto.getRandomValues(new Uint8Array(count));

/**
 * One way to write each letter: the same passphrase typed on another keyboard must be the same bytes (NFKC, as
 * NIST SP 800-63B, section 5.1.1.2, advises; from memory).
 */
const passphraseBytes = (passphrase: string) => new TextEncoder().encode(passphrase.normalize('NFKC'));

async function wrappingKey(
  passphrase: string,
  { salt, iterations }: Pick<WrappedKey, 'salt' | 'iterations'>,
) {
  const typed = await crypto.subtle.importKey('raw', passphraseBytes(passphrase), 'PBKDF2', false, [
    'deriveKey',
  ]);
  return crypto.subtle.deriveKey(
    { name: 'PBKDF2', hash: 'SHA-256', salt: fromBase64(salt), iterations },
    typed,
    { name: 'AES-GCM', length: wrappingKeyBits },
    false,
    ['wrapKey', 'unwrapKey'],
  );
}

/** The key's id is sealed in with it: one kept under another's name does not open. */
const sealedIn = ({ keyId, iv }: Pick<WrappedKey, 'keyId' | 'iv'>) => ({
  name: 'AES-GCM',
  iv: fromBase64(iv),
  additionalData: new TextEncoder().encode(keyId),
});

async function wrap(privateKey: CryptoKey, keyId: string, passphrase: string): Promise<WrappedKey> {
  const opening = {
    keyId,
    salt: toBase64(randomBytes(saltBytes)),
    iterations,
    iv: toBase64(randomBytes(ivBytes)),
  };
  const wrapper = await wrappingKey(passphrase, opening);
  const wrapped = await crypto.subtle.wrapKey('pkcs8', privateKey, wrapper, sealedIn(opening));
  return { ...opening, privateKey: toBase64(new Uint8Array(wrapped)) };
}

/** Null where it is not the passphrase. */
async function unwrap(wrapped: WrappedKey, passphrase: string): Promise<CryptoKey | null> {
  const wrapper = await wrappingKey(passphrase, wrapped);
  try {
    return await crypto.subtle.unwrapKey(
      'pkcs8',
      fromBase64(wrapped.privateKey),
      wrapper,
      sealedIn(wrapped),
      keyAlgorithm,
      false,
      ['sign'],
    );
  } catch (error) {
    if (error instanceof Error && error.name === 'OperationError') return null;
    throw error;
  }
}

/**
 * Makes a person's key, keeps its private half wrapped, and gives the entry that registers the public one. Nothing
 * counts before that entry is written: a key that never gets there is never asked for.
 */
export async function prepareKey(
  settings: Settings,
  { technologistId, passphrase, reason }: { technologistId: string; passphrase: string; reason: string },
): Promise<Extract<EntryDraft, { kind: 'key-registered' }>> {
  const keyId = crypto.randomUUID();
  const pair = await crypto.subtle.generateKey(keyAlgorithm, true, ['sign', 'verify']);
  const publicKey = toBase64(new Uint8Array(await crypto.subtle.exportKey('spki', pair.publicKey)));
  await settings.writeSetting(settingOf(keyId), await wrap(pair.privateKey, keyId, passphrase));
  return {
    id: crypto.randomUUID(),
    by: technologistId,
    kind: 'key-registered',
    body: { keyId, technologistId, algorithm: 'ECDSA-P256-SHA256', publicKey, reason },
  };
}

/**
 * The newest of a person's keys that can sign here; null where none can. `keys` in the order of registration. The
 * private half of one that it replaced is removed.
 */
export async function newestKeyHere(settings: Settings, keys: readonly KeyEntry[]): Promise<KeyEntry | null> {
  let newest: KeyEntry | null = null;
  for (const key of keys.toReversed()) {
    const setting = settingOf(key.body.keyId);
    if ((await settings.readSetting(setting, wrappedKeySchema)) === null) continue;
    if (newest === null) newest = key;
    else await settings.writeSetting(setting, null);
  }
  return newest;
}

/** Signs each draft with one key of this workstation; null where the passphrase does not open it. */
export async function signDrafts<D extends SignableDraft>(
  settings: Settings,
  { keyId, passphrase, drafts }: { keyId: string; passphrase: string; drafts: readonly D[] },
): Promise<readonly D[] | null> {
  const wrapped = await settings.readSetting(settingOf(keyId), wrappedKeySchema);
  if (wrapped === null) throw new RangeError(`signDrafts: key ${keyId} is not on this workstation`);
  const key = await unwrap(wrapped, passphrase);
  if (key === null) return null;
  return Promise.all(
    drafts.map(async (draft) => {
      const value = await crypto.subtle.sign(signatureAlgorithm, key, signedBytes(draft));
      const signature = { keyId, value: toBase64(new Uint8Array(value)) };
      return { ...draft, body: { ...draft.body, signature } };
    }),
  );
}
