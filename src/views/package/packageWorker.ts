/** The thread on which packages are counted and made: years of runs are judged, written and packed, and the page waits for none of it. */
import { messageOf } from '../../store/messageOf.ts';
import { openPackageDesk } from './packageDesk.ts';
import type { FromPackageWorker, PackageAnswer, ToPackageWorker } from './packageThread.ts';

const tell = (message: FromPackageWorker, transferred: Transferable[] = []) =>
  postMessage(message, { transfer: transferred });
const rows: unknown[] = [];
const desk = openPackageDesk(rows);

async function answer(message: Exclude<ToPackageWorker, { ask: 'take' }>): Promise<void> {
  const { number } = message;
  const reply = (given: PackageAnswer, transferred?: Transferable[]) =>
    tell({ number, ...given }, transferred);
  try {
    if (message.ask === 'count') reply({ counted: await desk.count(message.scope) });
    else {
      const made = await desk.make(message.question, (written, total) => reply({ written, total }));
      reply({ made }, [made.bytes.buffer]);
    }
  } catch (error) {
    reply({ problem: messageOf(error) });
  }
}

addEventListener('message', ({ data }: MessageEvent<ToPackageWorker>) => {
  if (data.ask === 'take') rows.push(...data.rows);
  else void answer(data);
});
