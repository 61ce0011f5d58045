/** The thread on which a package is made: years of runs are judged, written and packed without keeping the page waiting. */
import { messageOf } from '../../store/messageOf.ts';
import { makePackage, type PackageQuestion } from './makePackage.ts';
import type { FromPackageWorker, ToPackageWorker } from './packageThread.ts';

const tell = (message: FromPackageWorker, transferred: Transferable[] = []) =>
  postMessage(message, { transfer: transferred });
const rows: unknown[] = [];

async function answer(question: PackageQuestion): Promise<void> {
  try {
    const made = await makePackage(rows, question, (written, total) => tell({ written, total }));
    tell({ made }, [made.bytes.buffer]);
  } catch (error) {
    tell({ problem: messageOf(error) });
  }
}

addEventListener('message', ({ data }: MessageEvent<ToPackageWorker>) => {
  if ('rows' in data) rows.push(...data.rows);
  else void answer(data.make);
});
