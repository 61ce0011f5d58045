/** The page's end of the thread that counts and makes packages. */
import type { PackageScope } from '../../exchange/package/source.ts';
import type { OnWritten, WrittenPackage } from '../../exchange/package/writePackage.ts';
import type { PackageContents, PackageDesk, PackageQuestion } from './packageDesk.ts';

/** Each question has a number of its own, which its answers carry. */
export type ToPackageWorker =
  | { ask: 'take'; rows: readonly unknown[] }
  | { ask: 'count'; number: number; scope: PackageScope }
  | { ask: 'make'; number: number; question: PackageQuestion };

export type PackageAnswer =
  | { counted: PackageContents }
  | { written: number; total: number }
  | { made: WrittenPackage }
  | { problem: string };
export type FromPackageWorker = PackageAnswer & { number: number };

export interface PackageThread extends PackageDesk {
  /** Whatever is under way is given up: its promise stays open for ever. */
  end: () => void;
}

export const startPackageThread = (rows: readonly unknown[]): PackageThread =>
  typeof Worker === 'undefined' ? onThisThread(rows) : onItsOwnThread(rows);

/** Where the browser has no threads the page waits. */
function onThisThread(rows: readonly unknown[]): PackageThread {
  const desk = import('./packageDesk.ts').then(({ openPackageDesk }) => openPackageDesk(rows));
  return {
    count: async (scope) => (await desk).count(scope),
    make: async (question, onWritten) => (await desk).make(question, onWritten),
    end: () => {},
  };
}

/** Handing rows over copies them: so many at a time take some milliseconds, which nobody who types notices. */
const rowsAtATime = 500;
const breathe = () => new Promise<void>((resolve) => setTimeout(resolve));

function onItsOwnThread(rows: readonly unknown[]): PackageThread {
  const worker = new Worker(new URL('./packageWorker.ts', import.meta.url), { type: 'module' });
  const tell = (message: ToPackageWorker) => worker.postMessage(message);
  let isEnded = false;
  let asked = 0;
  const handedOver = handOver();

  async function handOver(): Promise<void> {
    for (let from = 0; from < rows.length && !isEnded; from += rowsAtATime) {
      tell({ ask: 'take', rows: rows.slice(from, from + rowsAtATime) });
      await breathe();
    }
  }

  async function ask<T>(
    question: (number: number) => ToPackageWorker,
    take: (answer: PackageAnswer) => T | null,
    onWritten: OnWritten = () => {},
  ): Promise<T> {
    const number = ++asked;
    const listening = new AbortController();
    const { signal } = listening;
    const answered = new Promise<T>((resolve, reject) => {
      worker.addEventListener(
        'message',
        ({ data }: MessageEvent<FromPackageWorker>) => {
          if (data.number !== number) return;
          if ('written' in data) return onWritten(data.written, data.total);
          const taken = take(data);
          if (taken !== null) resolve(taken);
          else reject(new Error('problem' in data ? data.problem : 'An answer to another question.'));
        },
        { signal },
      );
      worker.addEventListener(
        'error',
        (event) => reject(new Error(event.message || 'The thread that makes packages could not be started.')),
        { signal },
      );
    });
    try {
      await handedOver;
      if (!isEnded) tell(question(number));
      return await answered;
    } finally {
      listening.abort();
    }
  }

  return {
    count: (scope) =>
      ask(
        (number) => ({ ask: 'count', number, scope }),
        (answer) => ('counted' in answer ? answer.counted : null),
      ),
    make: (question, onWritten) =>
      ask(
        (number) => ({ ask: 'make', number, question }),
        (answer) => ('made' in answer ? answer.made : null),
        onWritten,
      ),
    end: () => {
      isEnded = true;
      worker.terminate();
    },
  };
}
