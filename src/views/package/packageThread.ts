/** The page's end of the thread that makes a package. */
import type { OnWritten, WrittenPackage } from '../../exchange/package/writePackage.ts';
import type { PackageQuestion } from './makePackage.ts';

export type ToPackageWorker = { rows: readonly unknown[] } | { make: PackageQuestion };

export type FromPackageWorker =
  | { written: number; total: number }
  | { made: WrittenPackage }
  | { problem: string };

export interface PackageMaking {
  made: Promise<WrittenPackage>;
  /** Gives up what is under way: its promise stays open for ever. */
  end: () => void;
}

/** Handing rows over copies them: so many at a time take some milliseconds, which nobody who types notices. */
const rowsAtATime = 500;
const breathe = () => new Promise<void>((resolve) => setTimeout(resolve));

export function startPackage(
  rows: readonly unknown[],
  question: PackageQuestion,
  onWritten: OnWritten,
): PackageMaking {
  return typeof Worker === 'undefined'
    ? onThisThread(rows, question, onWritten)
    : onItsOwnThread(rows, question, onWritten);
}

/** Where the browser has no threads the page waits. */
function onThisThread(
  rows: readonly unknown[],
  question: PackageQuestion,
  onWritten: OnWritten,
): PackageMaking {
  const made = import('./makePackage.ts').then(({ makePackage }) => makePackage(rows, question, onWritten));
  return { made, end: () => {} };
}

function onItsOwnThread(
  rows: readonly unknown[],
  question: PackageQuestion,
  onWritten: OnWritten,
): PackageMaking {
  const worker = new Worker(new URL('./packageWorker.ts', import.meta.url), { type: 'module' });
  const tell = (message: ToPackageWorker) => worker.postMessage(message);
  let isEnded = false;
  const end = () => {
    isEnded = true;
    worker.terminate();
  };
  const answered = new Promise<WrittenPackage>((resolve, reject) => {
    worker.addEventListener('message', ({ data }: MessageEvent<FromPackageWorker>) => {
      if ('written' in data) onWritten(data.written, data.total);
      else if ('made' in data) resolve(data.made);
      else reject(new Error(data.problem));
    });
    worker.addEventListener('error', (event) =>
      reject(new Error(event.message || 'The thread that makes the package could not be started.')),
    );
  });
  const handOver = async () => {
    for (let from = 0; from < rows.length && !isEnded; from += rowsAtATime) {
      tell({ rows: rows.slice(from, from + rowsAtATime) });
      await breathe();
    }
    if (!isEnded) tell({ make: question });
    return answered;
  };
  return { made: handOver().finally(end), end };
}
