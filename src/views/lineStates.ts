/** How urgent what stands on a line is, in the order in which it wants somebody. */
import { type DueCheck, isNeverNoted } from './schedule.ts';

export const lineStates = [
  'failing',
  'out-of-service',
  'overdue',
  'today',
  'soon',
  'later',
  'never',
] as const;
export type LineState = (typeof lineStates)[number];

export const stateWords: Record<LineState, string> = {
  failing: 'Failing',
  'out-of-service': 'Out of service',
  overdue: 'Overdue',
  today: 'Due today',
  soon: 'Due soon',
  later: 'Not due',
  never: 'Never noted',
};

export function stateOf(check: DueCheck): LineState {
  const { due, failed, droppedAt } = check;
  if (isNeverNoted(check)) return 'never';
  if (failed !== null) return 'failing';
  if (droppedAt !== null) return 'overdue';
  switch (due.state) {
    case 'overdue':
    case 'today':
    case 'soon':
      return due.state;
    case 'paused':
      return 'out-of-service';
    case 'later':
    case 'not-applicable':
      return 'later';
  }
}

/** Whether somebody has to do something soon. */
export const wantsSomebody = ({ state }: { state: LineState }) =>
  state === 'failing' || state === 'overdue' || state === 'today' || state === 'soon';

export const rank = ({ state }: { state: LineState }) => lineStates.indexOf(state);
