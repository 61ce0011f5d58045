/**
 * The failures of a laboratory, as its series tell them: each opens by itself at an action signal or a breached limit
 * and stays open until a supervisor closes it. Pure; shared by the bench, the charts and the review.
 */
import type { Assessments, Finding, PointEvaluation, Quantity, RunAssessment } from '../core/index.ts';
import type { EntryOf, SeriesName } from '../journal/entries.ts';
import type { Logbook, LoggedRun } from '../journal/logbook.ts';

export interface Failure {
  analyzerId: string;
  series: SeriesName;
  openedBy: LoggedRun;
  /** Runs of the series made while it was open, the one that opened it first. */
  runs: readonly LoggedRun[];
  /** `null` while nobody has closed it and no new baseline has put it aside. */
  ended: FailureEnd | null;
}

type FailureEnd =
  | { by: 'closure'; closure: EntryOf<'failure-closed'> }
  /** `from`: the instant the new baseline starts at. */
  | { by: 'new-baseline'; from: string };

export const quantities: readonly Quantity[] = ['va', 'dlco'];

export function evaluationOf(assessment: RunAssessment, quantity: Quantity): PointEvaluation {
  return quantity === 'va' ? assessment.va : assessment.dlco;
}

/** What fails a run: a published limit, or a rule that is an action. One that only warns opens nothing. */
export const opensFailure = (finding: Finding): finding is Extract<Finding, { quantity: Quantity }> =>
  finding.kind === 'published-limit' || (finding.kind === 'signal' && finding.severity === 'action');

/** One string per series, to group by. */
export const seriesKey = (analyzerId: string, { method, route, quantity }: SeriesName) =>
  `${analyzerId} ${method} ${route} ${quantity}`;

/** Every failure there was, in the order in which they opened. */
export function listFailures(logbook: Logbook, assessments: Assessments): readonly Failure[] {
  const bySeries = new Map<string, { analyzerId: string; series: SeriesName; runs: LoggedRun[] }>();
  for (const run of logbook.runs) {
    // Nearly all lie in no failure, and their assessments need not be made for that.
    if (run.voided !== null || assessments.outline(run.id)?.failureOpen !== true) continue;
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
    const closures = closuresOf(logbook, analyzerId, series);
    const { baselineStarts } = logbook;
    return failuresOfSeries({ analyzerId, series }, { runs, closures, baselineStarts, assessments });
  });
  return failures.sort((one, other) => one.openedBy.simulation.at - other.openedBy.simulation.at);
}

export const openFailures = (failures: readonly Failure[]) => failures.filter(({ ended }) => ended === null);

/** When a closure written now takes effect: not before what it closes, which a clock or a slip may have dated ahead. */
export const closedFrom = (closed: readonly Failure[], now: string): string =>
  [now, ...closed.map(({ openedBy }) => openedBy.body.madeAt)].sort().at(-1) ?? now;

/** What ended, or would end, a failure that a run made at that time opens in a series; null while nothing has. */
export function endAfter(
  logbook: Pick<Logbook, 'closures' | 'baselineStarts'>,
  { analyzerId, madeAt, series }: { analyzerId: string; madeAt: string; series: SeriesName },
): FailureEnd | null {
  return endOf({ analyzerId, madeAt }, closuresOf(logbook, analyzerId, series), logbook.baselineStarts);
}

/** Earliest first. */
function closuresOf({ closures }: Pick<Logbook, 'closures'>, analyzerId: string, series: SeriesName) {
  return closures
    .filter(({ body }) => body.analyzerId === analyzerId && closes(body.failures, series))
    .sort((one, other) => Date.parse(one.body.closedAt) - Date.parse(other.body.closedAt));
}

function closes(closed: readonly SeriesName[], { method, route, quantity }: SeriesName): boolean {
  return closed.some((one) => one.method === method && one.route === route && one.quantity === quantity);
}

function failuresOfSeries(
  named: Pick<Failure, 'analyzerId' | 'series'>,
  {
    runs,
    closures,
    baselineStarts,
    assessments,
  }: {
    runs: readonly LoggedRun[];
    closures: readonly EntryOf<'failure-closed'>[];
    baselineStarts: Logbook['baselineStarts'];
    assessments: ReadonlyMap<string, RunAssessment>;
  },
): Failure[] {
  const failures: Failure[] = [];
  let current: { openedBy: LoggedRun; runs: LoggedRun[]; ended: FailureEnd | null } | null = null;
  for (const run of runs) {
    const assessment = assessments.get(run.id);
    if (!assessment || !evaluationOf(assessment, named.series.quantity).failureOpen) continue;
    if (current === null || isOver(current.ended, run.simulation.at)) {
      current = { openedBy: run, runs: [], ended: endOf(run.body, closures, baselineStarts) };
      failures.push({ ...named, ...current });
    }
    current.runs.push(run);
  }
  return failures;
}

/** What ended the failure that a run opened: a closure or a new baseline, whichever came first. */
function endOf(
  { analyzerId, madeAt }: Pick<LoggedRun['body'], 'analyzerId' | 'madeAt'>,
  closures: readonly EntryOf<'failure-closed'>[],
  baselineStarts: Logbook['baselineStarts'],
): FailureEnd | null {
  const closure = closures.find(({ body }) => body.closedAt >= madeAt);
  const from = baselineStarts
    .filter(({ body }) => body.analyzerId === analyzerId && body.from > madeAt)
    .map(({ body }) => body.from)
    .sort()[0];
  if (closure && (from === undefined || closure.body.closedAt <= from)) return { by: 'closure', closure };
  return from === undefined ? null : { by: 'new-baseline', from };
}

/** Whether a run made at that time comes after the end: one at the closure's own instant is still in the failure. */
function isOver(ended: FailureEnd | null, at: number): boolean {
  if (ended === null) return false;
  return ended.by === 'closure' ? at > Date.parse(ended.closure.body.closedAt) : at >= Date.parse(ended.from);
}
