/**
 * The failures of a laboratory, as its series tell them: each opens by itself at an action signal or a breached limit
 * and stays open until a supervisor closes it. Pure; shared by the bench, the charts and the review.
 */
import type { PointEvaluation, Quantity, RunAssessment } from '../core/index.ts';
import type { EntryOf, SeriesName } from '../journal/entries.ts';
import type { Logbook, LoggedRun } from '../journal/logbook.ts';

export interface Failure {
  analyzerId: string;
  series: SeriesName;
  openedBy: LoggedRun;
  /** Runs of the series made while it was open, the one that opened it first. */
  runs: readonly LoggedRun[];
  /** `null` while nobody has closed it and no new baseline has put it aside. */
  ended: { by: 'closure'; closure: EntryOf<'failure-closed'> } | { by: 'new-baseline' } | null;
}

export const quantities: readonly Quantity[] = ['va', 'dlco'];

export function evaluationOf(assessment: RunAssessment, quantity: Quantity): PointEvaluation {
  return quantity === 'va' ? assessment.va : assessment.dlco;
}

/** One string per series, to group by. */
export const seriesKey = (analyzerId: string, { method, route, quantity }: SeriesName) =>
  `${analyzerId} ${method} ${route} ${quantity}`;

/** Every failure there was, in the order in which they opened. */
export function listFailures(
  logbook: Logbook,
  assessments: ReadonlyMap<string, RunAssessment>,
): readonly Failure[] {
  const bySeries = new Map<string, { analyzerId: string; series: SeriesName; runs: LoggedRun[] }>();
  for (const run of logbook.runs) {
    if (run.voided !== null) continue;
    const { analyzerId, method, route } = run.body;
    for (const quantity of quantities) {
      const series = { method, route, quantity };
      const key = seriesKey(analyzerId, series);
      const known = bySeries.get(key);
      if (known) known.runs.push(run);
      else bySeries.set(key, { analyzerId, series, runs: [run] });
    }
  }
  const failures = [...bySeries.values()].flatMap(({ analyzerId, series, runs }) => {
    const closures = logbook.closures
      .filter(({ body }) => body.analyzerId === analyzerId && closes(body.failures, series))
      .sort((one, other) => Date.parse(one.body.closedAt) - Date.parse(other.body.closedAt));
    return failuresOfSeries({ analyzerId, series, runs, closures, assessments });
  });
  return failures.sort((one, other) => one.openedBy.simulation.at - other.openedBy.simulation.at);
}

export const openFailures = (failures: readonly Failure[]) => failures.filter(({ ended }) => ended === null);

function closes(closed: readonly SeriesName[], { method, route, quantity }: SeriesName): boolean {
  return closed.some((one) => one.method === method && one.route === route && one.quantity === quantity);
}

function failuresOfSeries({
  analyzerId,
  series,
  runs,
  closures,
  assessments,
}: {
  analyzerId: string;
  series: SeriesName;
  runs: readonly LoggedRun[];
  closures: readonly EntryOf<'failure-closed'>[];
  assessments: ReadonlyMap<string, RunAssessment>;
}): Failure[] {
  const failures: Failure[] = [];
  let current: {
    openedBy: LoggedRun;
    runs: LoggedRun[];
    closure: EntryOf<'failure-closed'> | undefined;
  } | null = null;
  const end = (ended: Failure['ended']) => {
    if (current) failures.push({ analyzerId, series, openedBy: current.openedBy, runs: current.runs, ended });
    current = null;
  };
  for (const run of runs) {
    const { at, epoch } = run.simulation;
    if (current) {
      const { closure, openedBy }: { closure: EntryOf<'failure-closed'> | undefined; openedBy: LoggedRun } =
        current;
      if (epoch !== openedBy.simulation.epoch) end({ by: 'new-baseline' });
      else if (closure && at > Date.parse(closure.body.closedAt)) end({ by: 'closure', closure });
    }
    const assessment = assessments.get(run.id);
    if (!assessment || !evaluationOf(assessment, series.quantity).failureOpen) continue;
    current ??= {
      openedBy: run,
      runs: [],
      closure: closures.find(({ body }) => Date.parse(body.closedAt) >= at),
    };
    current.runs.push(run);
  }
  if (current) {
    const { closure }: { closure: EntryOf<'failure-closed'> | undefined } = current;
    end(closure ? { by: 'closure', closure } : null);
  }
  return failures;
}
