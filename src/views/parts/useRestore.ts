import { useEffect, useRef, useState } from 'react';
import * as z from 'zod/mini';
import type { ReadBackup } from '../../exchange/readBackup.ts';
import { createRowSet, type RowUnion, unionOf } from '../../journal/union.ts';
import { messageOf } from '../../store/messageOf.ts';
import { type LogbookHandle, StorageProblem } from '../../store/openLogbook.ts';
import { type ReadBackupFile, readBackupFile } from './readBackupFile.ts';

export interface JudgedBackup {
  fileName: string;
  reading: ReadBackup;
  union: RowUnion;
  ownWorkstation: string | null;
}

export type Restoring =
  | { state: 'idle' }
  | { state: 'reading'; fileName: string; done: number; total: number }
  | { state: 'refused'; fileName: string; sentence: string }
  | { state: 'judged'; backup: JudgedBackup; problem: StorageProblem | null }
  | { state: 'adding'; backup: JudgedBackup }
  | { state: 'done'; fileName: string; added: number; alreadyThere: number };

/** From a picked file to its entries in the logbook: read, judged, and only then added, all or none. */
export function useRestore(handle: LogbookHandle, read: ReadBackupFile = readBackupFile) {
  const [restoring, setRestoring] = useState<Restoring>({ state: 'idle' });
  const reader = useRef<AbortController | null>(null);
  useEffect(() => () => reader.current?.abort(), []);

  const pick = async (file: File) => {
    reader.current?.abort();
    const mine = new AbortController();
    reader.current = mine;
    const show = (next: Restoring) => {
      // A file picked later, or none any more: what this one says is over.
      if (!mine.signal.aborted) setRestoring(next);
    };
    const fileName = file.name;
    show({ state: 'reading', fileName, done: 0, total: 0 });
    try {
      const reading = await read(file, {
        signal: mine.signal,
        onProgress: (done, total) => show({ state: 'reading', fileName, done, total }),
      });
      if (reading.state === 'refused') {
        show({ state: 'refused', fileName, sentence: reading.sentence });
        return;
      }
      const ownWorkstation = await handle.readSetting('workstation', z.string());
      const union = unionOf(createRowSet(storedRows(handle)), reading.rows);
      show({ state: 'judged', backup: { fileName, reading, union, ownWorkstation }, problem: null });
    } catch (error) {
      const what = messageOf(error);
      show({ state: 'refused', fileName, sentence: `The browser could not read the file: ${what}` });
    }
  };

  const leave = () => {
    reader.current?.abort();
    setRestoring({ state: 'idle' });
  };

  const add = async (backup: JudgedBackup) => {
    setRestoring({ state: 'adding', backup });
    try {
      const outcome = await handle.adoptEntries(backup.reading.rows);
      setRestoring({ state: 'done', fileName: backup.fileName, ...outcome });
    } catch (error) {
      setRestoring({ state: 'judged', backup, problem: StorageProblem.from(error) });
    }
  };
  return { restoring, pick, leave, add };
}

function storedRows(handle: LogbookHandle): readonly unknown[] {
  const snapshot = handle.getSnapshot();
  return snapshot.state === 'ready' ? snapshot.rawRows : [];
}
