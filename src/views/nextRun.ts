/** How the next run of an analyzer by one route will be judged: the limits in force, which the last run itself may have moved. */
import type { Assessments, Method, Route, RunAssessment } from '../core/index.ts';
import { epochAt } from '../journal/fold.ts';
import type { Logbook, LoggedRun } from '../journal/logbook.ts';

export interface NextRun {
  /** The newest run that was made and not voided, whose numbers the next is given. */
  like: LoggedRun;
  assessment: RunAssessment;
}

/** Asks the core itself: a run that nobody made, dated `now`, is judged. Null where there is no run to take the numbers of. */
export function assessNextRun(
  logbook: Pick<Logbook, 'runs' | 'baselineStarts'>,
  assessments: Assessments,
  { analyzerId, method, route }: { analyzerId: string; method: Method; route: Route },
  now: number,
): NextRun | null {
  const isOfSeries = ({ id, body }: LoggedRun) =>
    body.analyzerId === analyzerId && body.method === method && body.route === route && assessments.has(id);
  const newest = logbook.runs.findLast(isOfSeries);
  const like = logbook.runs.findLast((run) => run.voided === null && isOfSeries(run));
  if (newest === undefined || like === undefined) return null;
  // Not before the newest, which may be dated ahead.
  const at = Math.max(now, newest.simulation.at);
  const epoch = epochAt(logbook.baselineStarts, analyzerId, new Date(at).toISOString());
  const next = { ...like.simulation, id: 'the-next-run', at, epoch, excluded: false };
  return { like, assessment: assessments.oneMore(next) };
}
