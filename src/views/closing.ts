/** What has been done about a failure on its way to being closed, and what is still missing. Pure. */
import type { Assessments } from '../core/index.ts';
import type { EntryBody, EntryOf } from '../journal/entries.ts';
import type { Logbook, LoggedRun } from '../journal/logbook.ts';
import { type ClosingRules, closingRulesOf } from '../journal/standing.ts';
import { type Failure, opensFailure } from './failures.ts';
import { movementOf } from './investigationShift.ts';

export interface Proof {
  /** Passing runs of the series after the last failing one and after the last action, oldest first. */
  runs: readonly LoggedRun[];
  needed: number;
  /** What they have to come after: the last run that failed, or the last action where that is later. */
  after: 'failing-run' | 'action';
}

export type RequiredStep = 'action' | 'proof' | 'look-back';

export interface Closing {
  rules: ClosingRules;
  /** By when they were done, oldest first. */
  actions: readonly EntryOf<'action-taken'>[];
  proof: Proof;
  lookBacks: readonly EntryOf<'look-back-reviewed'>[];
  /** The steps that this laboratory asks for. No run can prove the repair of an analyzer that is retired. */
  required: readonly RequiredStep[];
  missing: readonly RequiredStep[];
}

export function closingOf(
  failure: Failure,
  { logbook, assessments }: { logbook: Logbook; assessments: Assessments },
): Closing {
  const rules = closingRulesOf(logbook);
  const actions = logbook.actions
    .filter(({ body }) => isAbout(failure, body, body.doneAt))
    .toSorted((one, other) => Date.parse(one.body.doneAt) - Date.parse(other.body.doneAt));
  const lookBacks = logbook.lookBacks.filter(({ body, at }) => isAbout(failure, body, at));
  const proof = proofOf(failure, { assessments, lastAction: actions.at(-1), needed: rules.proofRuns });
  const isRetired = (logbook.analyzers.get(failure.analyzerId)?.retired ?? null) !== null;
  const isDone: Record<RequiredStep, boolean> = {
    action: actions.length > 0,
    proof: proof.runs.length >= proof.needed,
    'look-back': lookBacks.length > 0,
  };
  const isRequired: Record<RequiredStep, boolean> = {
    action: rules.needsAction,
    proof: !isRetired,
    'look-back': rules.needsLookBack,
  };
  const required = steps.filter((step) => isRequired[step]);
  return {
    rules,
    actions,
    proof,
    lookBacks,
    required,
    missing: required.filter((step) => !isDone[step]),
  };
}

const steps: readonly RequiredStep[] = ['action', 'proof', 'look-back'];

/** When a failure ended; null while it is open. */
export function endedAt({ ended }: Failure): string | null {
  if (ended === null) return null;
  return ended.by === 'closure' ? ended.closure.body.closedAt : ended.from;
}

/**
 * Whether an action or a look-back is about a failure: it names one of its runs. Where the run that it names opens
 * nothing any more, as after a void, the series and the time tell: a series has one open failure at most.
 */
function isAbout(
  failure: Failure,
  { analyzerId, failures }: Pick<EntryBody<'action-taken'>, 'analyzerId' | 'failures'>,
  at: string,
): boolean {
  if (analyzerId !== failure.analyzerId) return false;
  const { method, route, quantity } = failure.series;
  const until = endedAt(failure);
  const isDuring = at >= failure.openedBy.body.madeAt && (until === null || at <= until);
  return failures.some(
    (named) =>
      named.method === method &&
      named.route === route &&
      named.quantity === quantity &&
      (isDuring || failure.runs.some(({ id }) => id === named.openedByRunId)),
  );
}

function proofOf(
  { runs, series: { quantity } }: Failure,
  {
    assessments,
    lastAction,
    needed,
  }: { assessments: Assessments; lastAction: EntryOf<'action-taken'> | undefined; needed: number },
): Proof {
  const standing = runs.filter(({ setAside }) => setAside === null);
  const failsAt = (run: LoggedRun) =>
    assessments
      .get(run.id)
      ?.verdict.findings.some((finding) => opensFailure(finding) && finding.quantity === quantity) ?? false;
  const passes = (run: LoggedRun) => {
    const assessment = assessments.get(run.id);
    return assessment !== undefined && movementOf(assessment, quantity) === 'good';
  };
  const sinceFailing = standing.slice(standing.findLastIndex(failsAt) + 1);
  const actedAt = lastAction === undefined ? Number.NEGATIVE_INFINITY : Date.parse(lastAction.body.doneAt);
  return {
    runs: sinceFailing.filter((run) => run.simulation.at > actedAt && passes(run)),
    needed,
    after:
      actedAt > (runs.findLast(failsAt)?.simulation.at ?? Number.NEGATIVE_INFINITY)
        ? 'action'
        : 'failing-run',
  };
}

/**
 * The failure that was closed and came again: the run that opened this one is the first of its series after that closure.
 * Null where it is another story.
 */
export function reopens(failure: Failure, failures: readonly Failure[], { runs }: Pick<Logbook, 'runs'>) {
  const { analyzerId, series, openedBy } = failure;
  const openedAt = openedBy.simulation.at;
  const former = failures.findLast(
    (other) =>
      other.analyzerId === analyzerId &&
      isSameSeries(other.series, series) &&
      other.ended?.by === 'closure' &&
      Date.parse(other.ended.closure.body.closedAt) < openedAt,
  );
  if (former?.ended?.by !== 'closure') return null;
  const { closure } = former.ended;
  const closedAt = Date.parse(closure.body.closedAt);
  const first = runs.find(
    ({ body, simulation, voided, setAside }) =>
      voided === null &&
      setAside === null &&
      body.analyzerId === analyzerId &&
      body.method === series.method &&
      body.route === series.route &&
      simulation.at > closedAt,
  );
  return first?.id === openedBy.id ? { former, closure } : null;
}

const isSameSeries = (one: Failure['series'], other: Failure['series']) =>
  one.method === other.method && one.route === other.route && one.quantity === other.quantity;

/** Failures as the entries about them name them. */
export const named = (failures: readonly Failure[]) =>
  failures.map(({ series, openedBy }) => ({ ...series, openedByRunId: openedBy.id }));
