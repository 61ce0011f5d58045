import { useEffect, useRef, useState } from 'react';
import type { KnownLogbook } from '../../exchange/importKnown.ts';
import { type ImportPlan, type ProposedPlan, proposePlan } from '../../exchange/importPlan.ts';
import type { Delimiter } from '../../exchange/importTable.ts';
import { messageOf } from '../../store/messageOf.ts';
import type { FileReading, JudgedFile, Progress, ReadFile } from './importFile.ts';
import { type ImportThread, startImportThread } from './importThread.ts';

export interface Mapping {
  file: ReadFile;
  proposed: ProposedPlan;
  plan: ImportPlan;
  isConfirmed: boolean;
}

export type Importing =
  | { step: 'pick'; trouble: { fileName: string; sentence: string } | null }
  | { step: 'reading'; fileName: string; progress: Progress | null }
  | { step: 'mapping'; mapping: Mapping; trouble: string | null }
  | { step: 'judging'; mapping: Mapping; progress: Progress | null }
  | { step: 'judged'; mapping: Mapping; judged: JudgedFile }
  | { step: 'done'; fileName: string; batchId: string; judged: JudgedFile };

const start: Importing = { step: 'pick', trouble: null };

/** From a picked file to judged rows. Nothing is written here, and until then everything can be left. */
export function useImport() {
  const [importing, setImporting] = useState<Importing>(start);
  const thread = useRef<ImportThread | null>(null);
  const picked = useRef<File | null>(null);
  useEffect(() => () => thread.current?.end(), []);

  const endThread = () => {
    thread.current?.end();
    thread.current = null;
  };
  const onProgress = (progress: Progress) =>
    setImporting((now) => (now.step === 'reading' || now.step === 'judging' ? { ...now, progress } : now));

  const read = async (file: File, delimiter: Delimiter | null) => {
    thread.current ??= startImportThread(onProgress);
    const mine = thread.current;
    setImporting({ step: 'reading', fileName: file.name, progress: null });
    let reading: FileReading;
    try {
      reading = await mine.read(file, delimiter);
    } catch (error) {
      reading = { state: 'refused', sentence: `The file could not be read: ${messageOf(error)}` };
    }
    if (thread.current !== mine) return;
    if (reading.state === 'refused') {
      endThread();
      setImporting({ step: 'pick', trouble: { fileName: file.name, sentence: reading.sentence } });
      return;
    }
    const proposed = proposePlan(reading.outline);
    const mapping = { file: reading, proposed, plan: proposed.plan, isConfirmed: false };
    setImporting({ step: 'mapping', mapping, trouble: null });
  };

  return {
    importing,
    pick(file: File) {
      endThread();
      picked.current = file;
      void read(file, null);
    },
    partBy(delimiter: Delimiter) {
      if (picked.current) void read(picked.current, delimiter);
    },
    map(mapping: Mapping) {
      setImporting({ step: 'mapping', mapping, trouble: null });
    },
    async judge(mapping: Mapping, known: KnownLogbook) {
      const mine = thread.current;
      if (mine === null) return;
      setImporting({ step: 'judging', mapping, progress: null });
      try {
        const judged = await mine.judge(mapping.plan, known);
        if (thread.current === mine) setImporting({ step: 'judged', mapping, judged });
      } catch (error) {
        if (thread.current === mine) setImporting({ step: 'mapping', mapping, trouble: messageOf(error) });
      }
    },
    /** Gives up what is under way: the rows being judged, else the file. */
    leave() {
      endThread();
      setImporting(start);
    },
    finish(done: Omit<Extract<Importing, { step: 'done' }>, 'step'>) {
      endThread();
      setImporting({ step: 'done', ...done });
    },
  };
}

export type ImportControls = ReturnType<typeof useImport>;
