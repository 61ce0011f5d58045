/** The standing second copy and the last backup file, followed from when the logbook is open, seen on every screen. */
import { createContext, type ReactNode, useContext, useEffect, useState, useSyncExternalStore } from 'react';
import * as z from 'zod/mini';
import type { Backup } from '../exchange/backup.ts';
import type { LogbookHandle } from '../store/openLogbook.ts';
import { type CopyFormat, createSecondCopy, type SecondCopy } from '../store/secondCopy.ts';

const SecondCopyContext = createContext<SecondCopy | null>(null);

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

export function SecondCopyProvider({ handle, children }: { handle: LogbookHandle; children: ReactNode }) {
  const [copy] = useState(() => createSecondCopy(handle, formatOf(handle)));
  useEffect(() => copy.start(), [copy]);
  return <SecondCopyContext value={copy}>{children}</SecondCopyContext>;
}

export function useSecondCopy() {
  const copy = useContext(SecondCopyContext);
  if (copy === null) throw new Error('useSecondCopy: no logbook is open here');
  return { copy, state: useSyncExternalStore(copy.subscribe, copy.getSnapshot) };
}
