import { type LineState, stateWords } from '../lineStates.ts';
import { VerdictMark } from '../parts/verdictMark.tsx';

/** What is only due has shapes of its own, round ones: no verdict was given. */
const dueShapes: Record<'out-of-service' | 'today' | 'soon', string> = {
  'out-of-service': 'M2.5 2.5h11v11h-11zM2.5 13.5l11-11',
  today: 'M8 2a6 6 0 1 1 0 12a6 6 0 1 1 0-12zM8 4.5V8h3.5',
  soon: 'M8 2a6 6 0 1 1 0 12a6 6 0 1 1 0-12z',
};

const tones: Record<LineState, string> = {
  failing: 'fail',
  'out-of-service': 'establishing',
  overdue: 'warn',
  today: 'due',
  soon: 'establishing',
  later: 'establishing',
  never: 'establishing',
};

/** The state's word with its mark, so that neither shape nor colour tells it alone. */
export function StateMark({ state, size = 14 }: { state: LineState; size?: number }) {
  return (
    <span className="badge__word" data-shape={tones[state]}>
      <Mark size={size} state={state} />
      {stateWords[state]}
    </span>
  );
}

function Mark({ state, size }: { state: LineState; size: number }) {
  switch (state) {
    case 'failing':
      return <VerdictMark shape="fail" size={size} />;
    case 'overdue':
      return <VerdictMark shape="warn" size={size} />;
    case 'later':
      return <VerdictMark shape="pass" size={size} />;
    case 'never':
      return <VerdictMark shape="establishing" size={size} />;
    case 'out-of-service':
    case 'today':
    case 'soon':
      return (
        <svg aria-hidden="true" focusable="false" height={size} viewBox="0 0 16 16" width={size}>
          <path className="mark" d={dueShapes[state]} fill="none" strokeWidth="2" />
        </svg>
      );
  }
}
