/** The page's end of the thread that works out run lengths, so that a second of simulation holds up no key. One question at a time. */
import { answerTo, type RunLengthQuestion } from './questions.ts';

export type FromRunLengthWorker = { runs: number } | { problem: string };

export function answerOnThread(): (question: RunLengthQuestion) => Promise<number> {
  return typeof Worker === 'undefined' ? onThisThread : onItsOwnThread();
}

/** Where the browser has no threads: between two questions whoever else waits has the time. */
async function onThisThread(question: RunLengthQuestion): Promise<number> {
  await new Promise<void>((resolve) => setTimeout(resolve));
  return answerTo(question);
}

function onItsOwnThread(): (question: RunLengthQuestion) => Promise<number> {
  let worker: Worker | null = null;
  return (question) =>
    new Promise((resolve, reject) => {
      const asked =
        worker ?? new Worker(new URL('./runLengthWorker.ts', import.meta.url), { type: 'module' });
      worker = asked;
      const over = new AbortController();
      const { signal } = over;
      asked.addEventListener(
        'message',
        ({ data }: MessageEvent<FromRunLengthWorker>) => {
          over.abort();
          if ('runs' in data) resolve(data.runs);
          else reject(new Error(data.problem));
        },
        { signal },
      );
      asked.addEventListener(
        'error',
        (event) => {
          over.abort();
          // The next question starts another.
          asked.terminate();
          worker = null;
          reject(new Error(event.message || 'The thread for the computation could not be started.'));
        },
        { signal },
      );
      asked.postMessage(question);
    });
}
