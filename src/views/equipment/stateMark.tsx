import { VerdictMark } from '../parts/verdictMark.tsx';
import type { StateInWords } from './equipmentStates.ts';

/** A state beside a name: a mark and its words, so that it is not told by colour alone. */
export function StateMark({ words, tone }: StateInWords) {
  return (
    <span className="state" data-shape={tone}>
      <VerdictMark shape={tone} size={12} /> {words}
    </span>
  );
}
