/** The page's end of the thread that reads and judges a file. One question at a time; ended, it answers no more. */
import type { KnownLogbook } from '../../exchange/importKnown.ts';
import type { ImportPlan } from '../../exchange/importPlan.ts';
import type { Delimiter } from '../../exchange/importTable.ts';
import { type Writing, writingInForce } from '../parts/writing.ts';
import {
  type FileReading,
  type JudgedFile,
  type OnProgress,
  openImportFile,
  type Progress,
} from './importFile.ts';

export type ToImportWorker =
  | { ask: 'read'; file: File; delimiter: Delimiter | null }
  | { ask: 'judge'; plan: ImportPlan; known: KnownLogbook; writing: Writing };

export type FromImportWorker =
  | { progress: Progress }
  | { reading: FileReading }
  | { judged: JudgedFile }
  | { problem: string };

export interface ImportThread {
  read(file: File, delimiter: Delimiter | null): Promise<FileReading>;
  judge(plan: ImportPlan, known: KnownLogbook): Promise<JudgedFile>;
  /** Whatever is under way is given up: its promise stays open for ever. */
  end(): void;
}

export function startImportThread(onProgress: OnProgress): ImportThread {
  return typeof Worker === 'undefined' ? onThisThread(onProgress) : onItsOwnThread(onProgress);
}

/** Where the browser has no threads the page waits. */
function onThisThread(onProgress: OnProgress): ImportThread {
  const opened = openImportFile(onProgress);
  return {
    read: (file, delimiter) => opened.read(file, delimiter),
    judge: async (plan, known) => opened.judge(plan, known),
    end: () => {},
  };
}

function onItsOwnThread(onProgress: OnProgress): ImportThread {
  const worker = new Worker(new URL('./importWorker.ts', import.meta.url), { type: 'module' });
  const ask = <T>(question: ToImportWorker, take: (answer: FromImportWorker) => T | null): Promise<T> =>
    new Promise((resolve, reject) => {
      const controller = new AbortController();
      const { signal } = controller;
      const settle = (settled: () => void) => {
        controller.abort();
        settled();
      };
      worker.addEventListener(
        'message',
        ({ data }: MessageEvent<FromImportWorker>) => {
          if ('progress' in data) return onProgress(data.progress);
          const taken = take(data);
          if (taken !== null) settle(() => resolve(taken));
          else
            settle(() =>
              reject(new Error('problem' in data ? data.problem : 'An answer to another question.')),
            );
        },
        { signal },
      );
      worker.addEventListener(
        'error',
        (event) =>
          settle(() => reject(new Error(event.message || 'The thread for the file could not be started.'))),
        { signal },
      );
      worker.postMessage(question);
    });
  return {
    read: (file, delimiter) =>
      ask({ ask: 'read', file, delimiter }, (data) => ('reading' in data ? data.reading : null)),
    judge: (plan, known) =>
      ask({ ask: 'judge', plan, known, writing: writingInForce() }, (data) =>
        'judged' in data ? data.judged : null,
      ),
    end: () => worker.terminate(),
  };
}
