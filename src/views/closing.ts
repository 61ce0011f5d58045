/** What has been done about a failure on its way to being closed, and what is still missing. Pure. */
import type { Assessments, Finding, RuleId } from '../core/index.ts';
import type { EntryBody, EntryOf } from '../journal/entries.ts';
import type { Logbook, LoggedRun } from '../journal/logbook.ts';
import { type ClosingRules, closingRulesOf } from '../journal/standing.ts';
import { evaluationOf, type Failure, opensFailure } from './failures.ts';

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
export function endedAt({
  ended,
}: {
  ended:
    | { by: 'closure'; closure: { body: { closedAt: string } } }
    | { by: 'new-baseline'; from: string }
    | null;
}): string | null {
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

/** Own limits of one run, in SD, that a proof has to keep whatever its policy's rules are. */
const provenWithinSd = 2;

/** Rules that weigh every run before: no run alone can be cleared of what they say. */
const remembering: readonly RuleId[] = ['EWMA', 'CUSUM'];

function proofOf(
  { runs, series: { quantity } }: Failure,
  {
    assessments,
    lastAction,
    needed,
  }: { assessments: Assessments; lastAction: EntryOf<'action-taken'> | undefined; needed: number },
): Proof {
  const actedAt = lastAction === undefined ? null : Date.parse(lastAction.body.doneAt);
  const since = runs.filter(
    ({ setAside, simulation }) => setAside === null && (actedAt === null || simulation.at > actedAt),
  );
  const madeSince = new Set(since.map(({ id }) => id));
  // A pattern that reaches back before the action tells of what was repaired, not of the repair.
  const counts = (finding: Finding) =>
    finding.kind !== 'signal' ||
    actedAt === null ||
    (!remembering.includes(finding.rule) && finding.ids.every((id) => madeSince.has(id)));
  const fails = ({ id }: LoggedRun) =>
    assessments
      .get(id)
      ?.verdict.findings.some(
        (finding) => opensFailure(finding) && finding.quantity === quantity && counts(finding),
      ) ?? false;
  const isNear = ({ id }: LoggedRun) => {
    const assessment = assessments.get(id);
    return assessment !== undefined && Math.abs(evaluationOf(assessment, quantity).z ?? 0) <= provenWithinSd;
  };
  const lastFailing = since.findLastIndex(fails);
  return {
    runs: since.slice(lastFailing + 1).filter(isNear),
    needed,
    after: actedAt === null || lastFailing >= 0 ? 'failing-run' : 'action',
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
