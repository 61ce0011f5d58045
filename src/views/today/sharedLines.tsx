import type { CheckLine } from './buildToday.ts';
import { CheckAction } from './checkAction.tsx';
import '../parts/checkList.css';
import { StateMark } from './stateMark.tsx';

/** What is wanted beside the analyzers' runs, one line each. */
export function SharedLines({ lines }: { lines: readonly CheckLine[] }) {
  if (lines.length === 0) return null;
  return (
    <ul className="check-list check-list--plain">
      {lines.map(({ due, name, state, sentence }) => (
        <li key={`${due.check} ${due.about.id}`}>
          <StateMark state={state} />
          <span>
            {due.about.kind === 'analyzer' || due.about.kind === 'laboratory' ? null : `${name}: `}
            {sentence}
          </span>
          <CheckAction due={due} name={name} />
        </li>
      ))}
    </ul>
  );
}
