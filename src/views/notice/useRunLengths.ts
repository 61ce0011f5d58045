import { useCallback, useEffect, useSyncExternalStore } from 'react';
import type { KnownRunLengths, RunLengthQuestion } from './questions.ts';
import { RunLengthDesk } from './runLengthDesk.ts';
import { answerOnThread } from './runLengthThread.ts';

/** One for the session: what was worked out for one analyzer serves the others, and every later visit. */
let desk: RunLengthDesk | undefined;

function theDesk(): RunLengthDesk {
  desk ??= new RunLengthDesk(answerOnThread());
  return desk;
}

/** What is known so far; the rest of the questions is being worked out. `questions` must be the same array while they are the same. */
export function useRunLengths(questions: readonly RunLengthQuestion[]): {
  known: KnownRunLengths;
  problem: string | null;
  askAgain: () => void;
} {
  const { subscribe, getState } = theDesk();
  const askAgain = useCallback(() => theDesk().ask(questions), [questions]);
  useEffect(() => {
    askAgain();
    // Whoever leaves the page waits for nothing more: the bench has the processor to itself.
    return () => theDesk().ask([]);
  }, [askAgain]);
  return { ...useSyncExternalStore(subscribe, getState), askAgain };
}
