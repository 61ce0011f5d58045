/**
 * The runs of one analyzer as they are written down. Each is judged by those before it and by the policy of its day, as the
 * bench does; what it knows of failures is what a real laboratory would know.
 */
import {
  assessRuns,
  defaultControlPolicy,
  defaultSeverity,
  lookBack,
  mean,
  type PolicyStep,
  type Quantity,
  type Route,
  type RunAssessment,
  type SeriesClosure,
  type SimulationRun,
  sampleSd,
} from '../core/index.ts';
import type { EntryBody, RunContent } from '../journal/entries.ts';
import { simulationOf } from '../journal/fold.ts';
import { judgementOf } from '../journal/judgement.ts';
import { type Action, iso, writingTime } from './actions.ts';

const quantities: readonly Quantity[] = ['va', 'dlco'];
type Failures = EntryBody<'failure-closed'>['failures'];
type OpenFailure = { route: Route; quantity: Quantity; openedByRunId: string };
type Doer = Pick<EntryBody<'action-taken'>, 'technologistId' | 'part'>;
type ClosingWords = 'reason' | 'correctiveAction' | 'proofRunIds' | 'cause';

export function runLog(analyzerId: string, newId: () => string) {
  const actions: Action[] = [];
  const runs: SimulationRun[] = [];
  const closures: SeriesClosure[] = [];
  const policySteps: PolicyStep[] = [];
  const open = new Map<string, OpenFailure>();
  let epoch = 0;

  function judge(runId: string, content: RunContent): RunAssessment {
    const simulation = simulationOf({ ...content, runId }, { epoch, excluded: false });
    // Anew for every run: a year and a half of them is soon gone through, and a closure or a struck run needs no thought.
    const sameRoute = runs.filter(({ route }) => route === content.route);
    const options = { closures, policyStepsFor: () => policySteps };
    const assessment = assessRuns(sameRoute, options).oneMore(simulation);
    runs.push(simulation);
    for (const quantity of quantities) {
      const key = `${content.route} ${quantity}`;
      if (!assessment[quantity].failureOpen || open.has(key)) continue;
      open.set(key, { route: content.route, quantity, openedByRunId: runId });
    }
    return assessment;
  }

  function takeBack(): SimulationRun {
    const last = runs.pop();
    if (last === undefined) throw new RangeError('runLog: no run to take back');
    for (const [key, { openedByRunId }] of open) if (openedByRunId === last.id) open.delete(key);
    return last;
  }

  const named = (): Failures => [...open.values()].map((failure) => ({ method: 'syringe', ...failure }));

  /** Of the runs that are known by now, as the app proposes it; ms. */
  function inDoubtFrom({ route, quantity, openedByRunId }: OpenFailure): number {
    const ofRoute = runs.filter((run) => run.route === route);
    const assessments = assessRuns(ofRoute, { closures, policyStepsFor: () => policySteps });
    const judged = ofRoute.flatMap((run) => {
      const evaluation = assessments.get(run.id)?.[quantity];
      return evaluation === undefined ? [] : [{ point: { ...run, value: 0 }, evaluation }];
    });
    const { from } = lookBack({
      points: judged.map(({ point }) => point),
      evaluations: judged.map(({ evaluation }) => evaluation),
      failingRunId: openedByRunId,
    });
    return from ?? ofRoute[0]?.at ?? 0;
  }

  return {
    actions,
    policySteps,
    epoch: () => epoch,
    isFailureOpen: () => open.size > 0,
    /** The run that opened the failure of a route; undefined where none is open. */
    openedBy: (route: Route) => [...open.values()].find((failure) => failure.route === route)?.openedByRunId,

    record(content: RunContent, runId = newId()): RunAssessment {
      const assessment = judge(runId, content);
      const body = { runId, origin: { kind: 'bench' as const }, ...content, judged: judgementOf(assessment) };
      const at = Date.parse(content.madeAt) + writingTime;
      actions.push({ at, by: content.technologistId, kind: 'run-recorded', body });
      return assessment;
    },

    /** The last run was written down wrongly: `content` is what it should have said. */
    amend(at: number, content: RunContent, reason: string): void {
      const runId = takeBack().id;
      const judged = judgementOf(judge(runId, content));
      const body = { amendmentId: newId(), runId, run: content, judged, reason };
      actions.push({ at, by: content.technologistId, kind: 'run-amended', body });
    },

    /** The last run is struck out, as if it had never been judged. */
    strikeOut(at: number, by: string, reason: string): void {
      const last = takeBack();
      runs.push({ ...last, excluded: true });
      actions.push({ at, by, kind: 'run-voided', body: { runId: last.id, reason } });
    },

    /** What was done about all that is open. */
    act(at: number, by: string, what: string, { technologistId, part }: Doer): void {
      const body = { actionId: newId(), analyzerId, failures: named(), doneAt: iso(at), what };
      const entry = { ...body, technologistId, part, eventId: null };
      actions.push({ at: at + writingTime, by, kind: 'action-taken', body: entry });
    },

    /** Results from the earliest onset on were looked at by the supervisor. */
    lookBackOn(at: number, by: string, testedCount: number): void {
      const from = Math.min(...[...open.values()].map(inDoubtFrom));
      const body = { lookBackId: newId(), analyzerId, failures: named(), from: iso(from), to: iso(at) };
      const found = { outcome: 'none-affected' as const, testedCount, affectedCount: 0 };
      const note = 'Each looked at beside the one before it; none was read by this one alone.';
      const entry = { ...body, reviewerId: by, ...found, note };
      actions.push({ at: at + writingTime, by, kind: 'look-back-reviewed', body: entry });
    },

    close(at: number, by: string, said: Pick<EntryBody<'failure-closed'>, ClosingWords>): void {
      const failures = named();
      open.clear();
      for (const { method, route, quantity } of failures)
        closures.push({ analyzerId, method, route, quantity, at });
      const closureId = newId();
      const body = {
        closureId,
        analyzerId,
        failures,
        closedAt: iso(at),
        ...said,
        signature: null,
      };
      actions.push({ at, by, kind: 'failure-closed', body });
    },

    startBaseline(at: number, by: string, reason: string): void {
      epoch += 1;
      const body = { baselineId: newId(), analyzerId, from: iso(at), reason };
      actions.push({ at, by, kind: 'baseline-started', body });
    },

    /** Those of VA and DLCO of the route that is run most: its first accepted runs of the epoch, as the app takes them. */
    acceptBaselines(at: number, by: string, reason: string): void {
      const ofRoute = runs.filter((run) => run.route === 'patient-test' && run.epoch === epoch);
      const assessments = assessRuns(ofRoute, { closures, policyStepsFor: () => policySteps });
      for (const quantity of quantities) {
        const members = ofRoute
          .flatMap(({ id }) => assessments.get(id) ?? [])
          .filter((assessment) => assessment[quantity].accepted)
          .slice(0, defaultControlPolicy.baselineSize);
        const values = members.map(({ numbers }) =>
          quantity === 'va' ? numbers.simulatedVaL : numbers.dlcoMlMinMmHg,
        );
        const [middle, sd] = [mean(values), sampleSd(values)];
        if (middle === undefined || sd === undefined) throw new RangeError('runLog: no baseline to accept');
        const series = { method: 'syringe' as const, route: 'patient-test' as const, quantity };
        const body = { acceptanceId: newId(), analyzerId, series, runIds: members.map(({ id }) => id) };
        actions.push({ at, by, kind: 'baseline-accepted', body: { ...body, mean: middle, sd, reason } });
      }
    },

    /** From `at` on seven that rise or fall in a row are a failure. */
    makeTrendStrict(at: number, by: string, reason: string): void {
      const severity = { ...defaultSeverity, '7T': 'action' as const };
      const policy = { ...defaultControlPolicy, severity };
      policySteps.push({ from: at, policy });
      const body = { policyId: newId(), analyzerId, policy, from: iso(at), reason };
      actions.push({ at, by, kind: 'policy-set', body });
    },
  };
}

export type RunLog = ReturnType<typeof runLog>;
