import type { LoggedCheck } from '../../journal/logbook.ts';
import { VerdictMark } from '../parts/verdictMark.tsx';
import { markOfCheck } from './chartedChecks.ts';
import { outcomeWords } from './describeChecks.ts';

/** How a check was written down, with the mark of its word. */
export function CheckOutcome({ check }: { check: LoggedCheck }) {
  const mark = markOfCheck(check);
  const word = outcomeWords[check.entry.body.outcome];
  if (mark === null) return word;
  return (
    <span className="badge__word" data-shape={mark}>
      <VerdictMark shape={mark} size={14} />
      {word}
    </span>
  );
}
