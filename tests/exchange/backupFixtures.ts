/** Backups of the small invented laboratory, as bytes and as text, for the tests of exchange, store and views. */
import { writeBackup } from '../../src/exchange/backup.ts';
import { type BackupReading, type ReadBackup, readBackup } from '../../src/exchange/readBackup.ts';
import type { Entry } from '../../src/journal/entries.ts';
import { draft, laboratoryDrafts, runRecorded, sealChain } from '../journal/fixtures.ts';

export const place = {
  writtenAt: '2026-03-09T08:00:00.000Z',
  zone: 'Europe/Oslo',
  writtenBy: 'workstation-a',
};

export const chainOf = (length: number, workstation = 'workstation-a'): Promise<Entry[]> =>
  sealChain(
    [
      ...laboratoryDrafts(),
      ...Array.from({ length: length - 3 }, (_, run) => draft('run-recorded', runRecorded(run))),
    ].slice(0, length),
    { workstation },
  );

export const backupBytes = async (rows: readonly unknown[]) => (await writeBackup(rows, place)).bytes;

export const bytesOf = (text: string) => new TextEncoder().encode(text);
export const textOf = (bytes: Uint8Array) => new TextDecoder('utf-8', { fatal: true }).decode(bytes);

export async function reading(bytes: Uint8Array<ArrayBuffer> | string): Promise<ReadBackup> {
  const read = await readBackup(typeof bytes === 'string' ? bytesOf(bytes) : bytes);
  if (read.state === 'refused') throw new Error(`refused: ${read.sentence}`);
  return read;
}

/** Whether a reading shows that the file is not as it was written. */
export const isSuspect = (read: BackupReading) => read.state === 'refused' || !read.isWhole;

/** How long a proof runs: the whole of it with ENDURANCE=1, a part otherwise. */
export const isEndurance = process.env.ENDURANCE === '1';
export const cases = (short: number, long: number) => (isEndurance ? long : short);
