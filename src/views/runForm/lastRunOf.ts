import type { Logbook, LoggedRun } from '../../journal/logbook.ts';

/** The newest standing run of an analyzer. `except`: the run that is amended, which is not to be compared with itself. */
export function lastRunOf(
  { runs }: Pick<Logbook, 'runs'>,
  analyzerId: string,
  except?: string,
): LoggedRun | undefined {
  const known = newest.get(runs) ?? new Map<string, LoggedRun | undefined>();
  newest.set(runs, known);
  if (!known.has(analyzerId)) known.set(analyzerId, find(runs, analyzerId));
  const last = known.get(analyzerId);
  return last !== undefined && last.id === except ? find(runs, analyzerId, except) : last;
}

/** Asked for at every key pressed: an analyzer that has not been used for years would be looked for through all of them. */
const newest = new WeakMap<Logbook['runs'], Map<string, LoggedRun | undefined>>();

const find = (runs: Logbook['runs'], analyzerId: string, except?: string) =>
  runs.findLast((run) => run.body.analyzerId === analyzerId && run.voided === null && run.id !== except);
