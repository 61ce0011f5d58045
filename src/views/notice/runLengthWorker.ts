/** The thread on which run lengths are worked out. */
import { messageOf } from '../../store/messageOf.ts';
import { answerTo, type RunLengthQuestion } from './questions.ts';
import type { FromRunLengthWorker } from './runLengthThread.ts';

const tell = (message: FromRunLengthWorker) => postMessage(message);

addEventListener('message', ({ data }: MessageEvent<RunLengthQuestion>) => {
  try {
    tell({ runs: answerTo(data) });
  } catch (error) {
    tell({ problem: messageOf(error) });
  }
});
