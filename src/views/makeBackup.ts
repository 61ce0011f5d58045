/** A backup of the rows, as a file and as the standing second copy. Its writing is fetched when it is first needed. */
import * as z from 'zod/mini';
import type { Backup } from '../exchange/backup.ts';
import type { LogbookHandle } from '../store/openLogbook.ts';
import { type CopyFormat, createSecondCopy } from '../store/secondCopy.ts';

const breathe = () => new Promise<void>((resolve) => setTimeout(resolve));

/** The backup of rows as this workstation writes it now. */
export async function makeBackup(handle: LogbookHandle, rows: readonly unknown[]): Promise<Backup> {
  const { writeBackup } = await import('../exchange/backup.ts');
  const place = {
    writtenAt: new Date(Date.now()).toISOString(),
    zone: Intl.DateTimeFormat().resolvedOptions().timeZone,
    writtenBy: (await handle.readSetting('workstation', z.string())) ?? '',
  };
  return writeBackup(rows, place, breathe);
}

const formatOf = (handle: LogbookHandle): CopyFormat => ({
  write: async (rows) => (await makeBackup(handle, rows)).bytes,
  countOnlyIn: async (firstLine, rows) => {
    const { chainsOnlyInBackup } = await import('../exchange/backup.ts');
    return (await chainsOnlyInBackup(firstLine, rows)).length;
  },
});

/** The copy whose file is a backup. */
export const secondCopyOf = (handle: LogbookHandle) => createSecondCopy(handle, formatOf(handle));
