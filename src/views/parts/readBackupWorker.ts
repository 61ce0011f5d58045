/** The thread of its own in which a backup file is read: a large one must not hold up the page. */

import { readBackup } from '../../exchange/readBackup.ts';
import { messageOf } from '../../store/messageOf.ts';
import type { FromBackupReader } from './readBackupFile.ts';

const tell = (message: FromBackupReader) => postMessage(message);

/** So many rows are handed over at a time: the page takes them in between other things. */
const rowsAtATime = 500;

async function read(file: Blob): Promise<void> {
  try {
    const bytes = new Uint8Array(await file.arrayBuffer());
    const reading = await readBackup(bytes, { onProgress: (done, total) => tell({ done, total }) });
    if (reading.state === 'refused') {
      tell({ reading });
      return;
    }
    const { rows } = reading;
    for (let from = 0; from < rows.length; from += rowsAtATime) {
      tell({ rows: rows.slice(from, from + rowsAtATime) });
    }
    tell({ reading: { ...reading, rows: [] } });
  } catch (error) {
    tell({ problem: messageOf(error) });
  }
}

addEventListener('message', ({ data }: MessageEvent<Blob>) => void read(data), { once: true });
