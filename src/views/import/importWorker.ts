/** The thread on which a picked file is read and judged, so that the page can show how far it is and end it. */
import { messageOf } from '../../store/messageOf.ts';
import { setWriting } from '../parts/writing.ts';
import { openImportFile } from './importFile.ts';
import type { FromImportWorker, ToImportWorker } from './importThread.ts';

const tell = (message: FromImportWorker) => postMessage(message);
const opened = openImportFile((progress) => tell({ progress }));

async function answer(message: ToImportWorker): Promise<void> {
  try {
    if (message.ask === 'read') tell({ reading: await opened.read(message.file, message.delimiter) });
    else {
      // This thread has its own form of writing, and its sentences are read on the page.
      setWriting(message.writing);
      tell({ judged: opened.judge(message.plan, message.known) });
    }
  } catch (error) {
    tell({ problem: messageOf(error) });
  }
}

addEventListener('message', ({ data }: MessageEvent<ToImportWorker>) => void answer(data));
