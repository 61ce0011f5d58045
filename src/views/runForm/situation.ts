/** What surrounds a run that was judged: failures, service, other runs of its analyzer. Pure. */
import type { Quantity, Route, RunAssessment } from '../../core/index.ts';
import type { RunContent } from '../../journal/entries.ts';
import type { Logbook, LoggedRun } from '../../journal/logbook.ts';
import { isStillToCome } from '../../journal/plausible.ts';
import { outOfService } from '../../journal/standing.ts';
import { endAfter, evaluationOf, type Failure, opensFailure, quantities } from '../failures.ts';
import type { Situation } from './whatToDo.ts';

export interface JudgedRun {
  run: RunContent;
  /** Null while it is typed. */
  runId: string | null;
  assessment: RunAssessment;
  /** How many accepted runs the analyzer's own limits need. */
  minimumSize: number;
  /** In ms: what may be done is said for now, whenever the run was made. */
  now: number;
}

/** Simulations are made weekly (2017 ERS/ATS standard, equipment table); the day on which the next is due counts whole. */
const saysOfTodayMs = 8 * 86_400_000;

export function situationOf(
  { run, runId, assessment, minimumSize, now }: JudgedRun,
  logbook: Logbook,
  failures: readonly Failure[],
): Situation {
  const at = Date.parse(run.madeAt);
  const others = failures.filter(
    ({ analyzerId, ended, openedBy }) =>
      analyzerId === run.analyzerId && ended === null && openedBy.id !== runId,
  );
  const ofThisRoute = others.filter(
    ({ series }) => series.method === run.method && series.route === run.route,
  );
  const before = ofThisRoute.filter(({ openedBy }) => openedBy.simulation.at <= at);
  const recorded = runId === null ? undefined : logbook.runs.findLast(({ id }) => id === runId);
  return {
    verdict: assessment.verdict,
    ownLimits: ownLimitsOf(assessment, minimumSize),
    failedBefore: before.map(({ series }) => series.quantity),
    failsByThePast: failsByThePast(run, assessment, before, logbook),
    openFailure: ofThisRoute.length > 0 ? 'this-route' : others.length > 0 ? 'other-route' : null,
    isOver: isOver(run, assessment, logbook),
    otherRoute: before.length > 0 ? otherRouteNotRun(run, before, logbook) : null,
    inService: [run.madeAt, new Date(now).toISOString()].every(
      (moment) => outOfService(logbook, run.analyzerId, moment) === null,
    ),
    isImported: recorded?.body.origin.kind === 'import',
    ofAnotherWeek: isStillToCome(at, now) || at < now - saysOfTodayMs ? run.madeAt : null,
    newerRunAt: newerRunAt(run, runId, logbook),
  };
}

/** As closing.ts has it of a proof. */
const provenWithinSd = 2;

/** In every quantity by patterns alone that reach back before the last action about its failure: see `proofOf` in closing.ts. */
function failsByThePast(
  run: RunContent,
  assessment: RunAssessment,
  before: readonly Failure[],
  { actions, runs }: Logbook,
): boolean {
  const failing = assessment.verdict.findings.filter(opensFailure);
  return (
    failing.length > 0 &&
    failing.every((finding) => {
      const failure = before.find(({ series }) => series.quantity === finding.quantity);
      if (failure === undefined || finding.kind !== 'signal') return false;
      const [oldest, ...others] = finding.ids;
      const from = runs.find(({ id }) => id === oldest)?.body.madeAt ?? '';
      return (
        Math.abs(evaluationOf(assessment, finding.quantity).z ?? 0) <= provenWithinSd &&
        actions.some(
          ({ body: { analyzerId, failures, doneAt } }) =>
            analyzerId === run.analyzerId &&
            doneAt >= failure.openedBy.body.madeAt &&
            doneAt < run.madeAt &&
            // EWMA and CUSUM name the run alone and remember all before it.
            (others.length === 0 || from <= doneAt) &&
            failures.some(({ route, quantity }) => route === run.route && quantity === finding.quantity),
        )
      );
    })
  );
}

function ownLimitsOf({ va, dlco }: RunAssessment, minimumSize: number): Situation['ownLimits'] {
  const silent = [va, dlco].filter(({ z }) => z === null);
  if (silent.length === 0) return 'judge';
  return silent.some(({ n }) => n < minimumSize) ? 'too-few-runs' : 'no-spread';
}

/** Of the quantities that a run fails in. One that fails in none has nothing that could be over. */
function isOver(run: RunContent, assessment: RunAssessment, logbook: Logbook): boolean {
  const open = quantities.filter((quantity) => evaluationOf(assessment, quantity).failureOpen);
  const ends = (quantity: Quantity) => endAfter(logbook, { ...run, series: { ...run, quantity } }) !== null;
  return open.length > 0 && open.every(ends);
}

export const otherRouteOf = (route: Route): Route => (route === 'patient-test' ? 'built-in' : 'patient-test');

/** Asked for at every key pressed while a failure is open: a route that is not used would be looked for through all runs. */
const newestOfSeries = new WeakMap<Logbook['runs'], Map<string, LoggedRun | undefined>>();

function newestOf(
  runs: Logbook['runs'],
  { analyzerId, method, route }: Pick<RunContent, 'analyzerId' | 'method' | 'route'>,
): LoggedRun | undefined {
  const known = newestOfSeries.get(runs) ?? new Map<string, LoggedRun | undefined>();
  newestOfSeries.set(runs, known);
  const key = `${method} ${route} ${analyzerId}`;
  if (!known.has(key)) {
    const isOfSeries = ({ body, voided }: LoggedRun) =>
      voided === null && body.analyzerId === analyzerId && body.method === method && body.route === route;
    known.set(key, runs.findLast(isOfSeries));
  }
  return known.get(key);
}

function otherRouteNotRun(
  { analyzerId, method, route }: RunContent,
  before: readonly Failure[],
  { runs }: Logbook,
): Route | null {
  const other = otherRouteOf(route);
  const newest = newestOf(runs, { analyzerId, method, route: other });
  const openedAt = Math.min(...before.map(({ openedBy }) => openedBy.simulation.at));
  return newest === undefined || newest.simulation.at >= openedAt ? null : other;
}

function newerRunAt(
  { analyzerId, madeAt }: RunContent,
  runId: string | null,
  { runs }: Logbook,
): string | null {
  const newest = runs.findLast(
    ({ id, body, voided }) => voided === null && body.analyzerId === analyzerId && id !== runId,
  );
  return newest !== undefined && newest.body.madeAt > madeAt ? newest.body.madeAt : null;
}
