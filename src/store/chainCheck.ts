/** The check of a whole stored journal, beside whatever else the page is doing. */
import { type ChainReport, checkChains } from '../journal/chain.ts';

export type FromChainCheck =
  | { checked: number; total: number }
  | { report: ChainReport }
  | { problem: string };

export type OnChecked = (checked: number, total: number) => void;

function checkInWorker(databaseName: string, onChecked: OnChecked): Promise<ChainReport> {
  return new Promise((resolve, reject) => {
    const worker = new Worker(new URL('./chainCheckWorker.ts', import.meta.url), { type: 'module' });
    const end = () => worker.terminate();
    worker.addEventListener('message', ({ data }: MessageEvent<FromChainCheck>) => {
      if ('checked' in data) {
        onChecked(data.checked, data.total);
        return;
      }
      end();
      if ('report' in data) resolve(data.report);
      else reject(new Error(data.problem));
    });
    worker.addEventListener('error', (event) => {
      end();
      reject(new Error(event.message || 'The thread for the check could not be started.'));
    });
    worker.postMessage(databaseName);
  });
}

/** Hands the time to whoever else waits for it: a key that was pressed, a frame to be drawn. */
export const giveWay = () => new Promise<void>((resolve) => setTimeout(resolve));

/**
 * Checks every chain of a stored journal on a thread of its own. Where the browser has none, `rows`, what the page holds
 * of the journal, is checked here in slices between which the page goes on.
 */
export async function checkStoredChains(
  databaseName: string,
  rows: readonly unknown[],
  onChecked: OnChecked,
): Promise<ChainReport> {
  if (typeof Worker !== 'undefined') return checkInWorker(databaseName, onChecked);
  return checkChains(rows, (checked) => {
    onChecked(checked, rows.length);
    return giveWay();
  });
}
