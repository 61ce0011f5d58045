/** Writes the backup file, and tells whether a file written before holds anything that a new one would lack. */
import { type ChainSummary, chainSummaries, hashEntry } from '../journal/chain.ts';
import { marksOf } from '../journal/union.ts';
import {
  type BackupChain,
  type BackupHeader,
  backupFormat,
  backupVersion,
  readHeader,
  sha256OfBytes,
} from './backupFormat.ts';
import { joined } from './joined.ts';

export interface BackupPlace {
  /** ISO 8601 instant in UTC, to the millisecond. */
  writtenAt: string;
  /** IANA name of the zone. */
  zone: string;
  /** Id of the workstation that writes it. */
  writtenBy: string;
}

export interface Backup {
  header: BackupHeader;
  bytes: Uint8Array<ArrayBuffer>;
}

/** So many rows are written at a time: some milliseconds, which nobody at the bench notices. */
const rowsAtATime = 250;

/**
 * The backup of `rows`, which are raw rows in order of arrival. `breathe` is awaited now and then, to let others go on.
 * A number that is none (NaN) is written as null, as JSON has it; its row was damaged before, since it cannot be hashed.
 */
export async function writeBackup(
  rows: readonly unknown[],
  place: BackupPlace,
  breathe: () => Promise<void> = async () => {},
): Promise<Backup> {
  const encoder = new TextEncoder();
  const parts: Uint8Array[] = [];
  let written = 0;
  for (let from = 0; from < rows.length; from += rowsAtATime) {
    const lines = rows.slice(from, from + rowsAtATime).flatMap(lineOf);
    written += lines.length;
    parts.push(encoder.encode(lines.join('')));
    await breathe();
  }
  const content = joined(parts);
  const unsealed = {
    format: backupFormat,
    version: backupVersion,
    ...place,
    rows: written,
    unwritable: rows.length - written,
    chains: chainSummaries(rows)
      .filter(isWellFormed)
      .map((chain) => ({ ...chain })),
    contentHash: await sha256OfBytes(content),
  } as const;
  const header = { ...unsealed, hash: await hashEntry(unsealed) };
  return { header, bytes: joined([encoder.encode(`${JSON.stringify(header)}\n`), content]) };
}

/** A damaged row can hold half a character, which has no canonical JSON: its chain must not stop the backup. */
const isWellFormed = ({ workstation, headHash }: ChainSummary) =>
  !/\p{Surrogate}/u.test(workstation + headHash);

/** One row as a line; none for what has no JSON form, such as a loop of references. */
function lineOf(row: unknown): string[] {
  try {
    const text = JSON.stringify(row);
    return text === undefined ? [] : [`${text}\n`];
  } catch {
    return [];
  }
}

/**
 * The chains of which a backup, by its first line, holds something that `rows` do not: their last entry, or more
 * entries. Empty when nothing would be lost by writing `rows` over it, and when the line cannot be read.
 */
export async function chainsOnlyInBackup(
  firstLine: string,
  rows: readonly unknown[],
): Promise<readonly BackupChain[]> {
  const read = await readHeader(firstLine);
  if (read.state !== 'read') return [];
  const hashes = new Set(rows.map((row) => marksOf(row).hash));
  const counts = new Map(chainSummaries(rows).map(({ workstation, count }) => [workstation, count]));
  return read.header.chains.filter(
    ({ workstation, count, headHash }) =>
      (headHash !== '' && !hashes.has(headHash)) || count > (counts.get(workstation) ?? 0),
  );
}
