/**
 * The backup file: JSON Lines in UTF-8. The first line is the header; then one stored row a line, in order of arrival, as it
 * lay in storage, whether or not this version can read it.
 *
 * The header carries the SHA-256 of its own canonical JSON and of the lines below it, so that a changed or missing byte
 * anywhere shows. Harmless are only: a byte order mark in front, line ends of another system, empty lines at the end, and a
 * header that says the same in other JSON, such as with a space between two fields. It is a guard against accidents, not
 * against people: who knows this format can write a file that fits in itself. Against that stand the head hashes, where they
 * were noted elsewhere.
 */
import * as z from 'zod/mini';

import { hashEntry } from '../journal/chain.ts';
import { sha256 } from '../journal/vocabulary.ts';

export const backupFormat = 'diffusion-qc-logbook backup';

/**
 * Raise it when a reader of this version would misunderstand the file; new kinds of entry carry a version of their own, and
 * a header may have more fields. Older versions are read for ever, a newer one is refused.
 */
export const backupVersion = 1;

/** Beyond these a file is no backup that this logbook could have written: an entry is about 2 kB. */
export const backupLimits = {
  fileBytes: 256 * 1024 * 1024,
  lineBytes: 1024 * 1024,
  /** The header names every chain. */
  headerBytes: 16 * 1024 * 1024,
  /** Of objects and lists within each other. */
  depth: 64,
} as const;

const count = z.int().check(z.nonnegative());

const chainSchema = z.looseObject({
  workstation: z.string(),
  count,
  headSeq: count,
  /** Empty where the last row of the chain is damaged. */
  headHash: z.string(),
});

export const backupHeaderSchema = z.looseObject({
  format: z.literal(backupFormat),
  version: z.int().check(z.positive()),
  writtenAt: z.iso.datetime({ precision: 3 }),
  zone: z.string(),
  /** Id of the workstation that wrote the file. */
  writtenBy: z.string(),
  rows: count,
  /** Rows that have no JSON form and are therefore not in the file. */
  unwritable: count,
  chains: z.array(chainSchema),
  /** Of the lines below the header, each with a line feed. */
  contentHash: sha256,
  /** Of the canonical JSON of the rest of the header. */
  hash: sha256,
});

export type BackupHeader = z.infer<typeof backupHeaderSchema>;
export type BackupChain = z.infer<typeof chainSchema>;

export async function sha256OfBytes(bytes: Uint8Array<ArrayBuffer>): Promise<string> {
  const digest = await crypto.subtle.digest('SHA-256', bytes);
  return Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, '0')).join('');
}

export type ReadHeader =
  | { state: 'read'; header: BackupHeader }
  /** Of a later version of the format. */
  | { state: 'newer'; version: number }
  /** A header by its name, and not as it was written. */
  | { state: 'changed' }
  | { state: 'foreign' };

const nameSchema = z.looseObject({ format: z.literal(backupFormat), version: z.int() });

/** Reads the first line of a file. */
export async function readHeader(line: string): Promise<ReadHeader> {
  const looksOurs = line.includes(backupFormat);
  let value: unknown;
  try {
    value = JSON.parse(line);
  } catch {
    return { state: looksOurs ? 'changed' : 'foreign' };
  }
  const named = nameSchema.safeParse(value);
  // The version before the rest: a later one may hash differently.
  if (named.success && named.data.version > backupVersion) {
    return { state: 'newer', version: named.data.version };
  }
  const read = backupHeaderSchema.safeParse(value);
  if (!read.success) return { state: looksOurs ? 'changed' : 'foreign' };
  const { hash, ...content } = read.data;
  // A number too large for a double, or a lone surrogate, has no canonical form: it was never hashed.
  const isAsWritten = await hashEntry(content).then(
    (expected) => expected === hash,
    () => false,
  );
  return isAsWritten ? { state: 'read', header: read.data } : { state: 'changed' };
}
