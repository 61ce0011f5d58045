import { backupLimits } from '../../exchange/backupFormat.ts';
import { type BackupReading, tooLarge } from '../../exchange/readBackup.ts';

export type FromBackupReader =
  | { done: number; total: number }
  | { rows: readonly unknown[] }
  /** The last message; its rows have come before it. */
  | { reading: BackupReading }
  | { problem: string };

export type ReadBackupFile = (
  file: Blob,
  options: { onProgress: (done: number, total: number) => void; signal: AbortSignal },
) => Promise<BackupReading>;

/** Reads a backup file on a thread of its own. Rejects when it is cancelled, and when the browser cannot read the file. */
export const readBackupFile: ReadBackupFile = async (file, { onProgress, signal }) => {
  if (file.size > backupLimits.fileBytes) return tooLarge(file.size);
  return new Promise((resolve, reject) => {
    const worker = new Worker(new URL('./readBackupWorker.ts', import.meta.url), { type: 'module' });
    const rows: unknown[] = [];
    const fail = (error: Error) => {
      worker.terminate();
      reject(error);
    };
    signal.addEventListener('abort', () => fail(new Error('The reading was cancelled.')), { once: true });
    worker.addEventListener('message', ({ data }: MessageEvent<FromBackupReader>) => {
      if ('done' in data) onProgress(data.done, data.total);
      else if ('rows' in data) for (const row of data.rows) rows.push(row);
      else if ('problem' in data) fail(new Error(data.problem));
      else {
        worker.terminate();
        resolve(data.reading.state === 'read' ? { ...data.reading, rows } : data.reading);
      }
    });
    worker.addEventListener('error', (event) =>
      fail(new Error(event.message || 'The thread that reads the file could not be started.')),
    );
    worker.postMessage(file);
  });
};
