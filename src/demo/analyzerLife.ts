/**
 * Eighteen months of one invented analyzer. The laboratory in here knows only what a real one would: it judges each run
 * by the runs before it, stops when a failure opens, looks for the cause, and proves the repair with a run.
 */
import {
  assessRuns,
  publishedLimits2017,
  type Quantity,
  type Route,
  type RunAssessment,
  type SeriesClosure,
  type SimulationRun,
} from '../core/index.ts';
import type { AnalyzerDescription, EntryBody, EntryKind, RunBody, RunReason } from '../journal/entries.ts';
import { simulationOf } from '../journal/fold.ts';
import { judgementOf } from '../journal/judgement.ts';
import type { Calendar } from './calendar.ts';
import { type Deviates, deviateSource, type Room } from './chance.ts';
import { displayOf, rounded } from './display.ts';
import { type AnalyzerPlan, type RouteTruth, syringes, weeks } from './scenario.ts';

/** Something written down, before it has its id and its place in the chain. */
export type Action = {
  [K in EntryKind]: { at: number; by: string; kind: K; body: EntryBody<K> };
}[EntryKind];

export interface Surroundings {
  calendar: Calendar;
  endAt: number;
  /** One for each day of the calendar. */
  rooms: readonly Room[];
  analyzerId: string;
  syringeId: string;
  supervisorId: string;
  /** Those who take turns at the bench. */
  benchIds: readonly string[];
  newId: () => string;
  uniform: () => number;
}

const minute = 60_000;
/** From the end of a run to its entry in the logbook. */
const writingTime = 2 * minute;
/** Minutes after seven at which service comes, two days after a failure. */
const [repairAfterDays, repairMinute] = [2, 390];
const mostProofs = 4;
const quantities: readonly Quantity[] = ['va', 'dlco'];

const iso = (at: number) => new Date(at).toISOString();

export function analyzerLife(plan: AnalyzerPlan, surroundings: Surroundings): Action[] {
  const { calendar, endAt, rooms, analyzerId, syringeId, supervisorId, benchIds, newId, uniform } =
    surroundings;
  const actions: Action[] = [];
  const runs: SimulationRun[] = [];
  const closures: SeriesClosure[] = [];
  const open = new Map<string, { route: Route; quantity: Quantity; openedByRunId: string }>();
  const weekly = plan.truths.map((truth) => ({ truth, drawn: deviateSource(weeks, uniform) }));
  const furtherRun = deviateSource(64, uniform);
  let furtherRuns = 0;
  let description: AnalyzerDescription = { ...plan.description, syringeId };
  let epoch = 0;
  let fault = plan.fault;
  let offsetSinceRepair: number | null = null;

  /** What is to be read of a run in a week; `day` differs from the week's run day on a repair visit. */
  function read(week: number, day: number, truth: RouteTruth, deviates: Deviates) {
    const room = rooms[day];
    if (room === undefined) throw new RangeError(`analyzerLife: day ${day} has no room`);
    const weeksOfFault = fault === null ? 0 : Math.max(0, week - fault.fromWeek + 1);
    const leak = fault === null ? 0 : fault.leakPerWeek * weeksOfFault;
    const addedDlcoOffset = fault === null || weeksOfFault === 0 ? 0 : fault.dlcoOffset;
    const present = { ...truth, dlcoOffset: offsetSinceRepair ?? truth.dlcoOffset };
    const { reports } = plan;
    return displayOf({ description, reports }, { room, truth: present, leak, addedDlcoOffset, deviates });
  }

  function record(
    at: number,
    seen: ReturnType<typeof read>,
    { route, reason, by, comment = '' }: { route: Route; reason: RunReason; by: string; comment?: string },
  ): RunAssessment {
    const { volumeInsideL, analyzerDeadSpaceL, conversion } = description;
    const [{ volumeL, deadSpaceL }] = syringes;
    const body: Omit<RunBody, 'judged'> = {
      runId: newId(),
      origin: { kind: 'bench' },
      madeAt: iso(at),
      analyzerId,
      syringeId,
      technologistId: by,
      method: 'syringe',
      route,
      reason,
      ...seen,
      conversion,
      syringe: { strokeL: volumeL - volumeInsideL, volumeInsideL, deadSpaceL },
      analyzerDeadSpaceL,
      limits: publishedLimits2017,
      comment,
    };
    const simulation = simulationOf(body, { epoch, excluded: false });
    // Anew for every run: a year and a half of them is soon gone through, and a closure or a struck run needs no thought.
    const assessment = assessRuns(runs, { closures }).oneMore(simulation);
    runs.push(simulation);
    actions.push({
      at: at + writingTime,
      by,
      kind: 'run-recorded',
      body: { ...body, judged: judgementOf(assessment) },
    });
    for (const quantity of quantities) {
      const key = `${route} ${quantity}`;
      if (!assessment[quantity].failureOpen || open.has(key)) continue;
      open.set(key, { route, quantity, openedByRunId: body.runId });
    }
    return assessment;
  }

  /** The last run had a slip of the keyboard in it: it is struck out, as if it had never been judged. */
  function strikeOut(at: number, by: string, reason: string): void {
    const last = runs.pop();
    if (last === undefined) throw new RangeError('analyzerLife: there is no run to strike out');
    runs.push({ ...last, excluded: true });
    for (const [key, { openedByRunId }] of open) if (openedByRunId === last.id) open.delete(key);
    actions.push({ at, by, kind: 'run-voided', body: { runId: last.id, reason } });
  }

  function note(at: number, by: string, type: EntryBody<'event-recorded'>['type'], what: string): void {
    const body = { eventId: newId(), analyzerId, happenedAt: iso(at), type, description: what };
    actions.push({ at: at + writingTime, by, kind: 'event-recorded', body });
  }

  function startBaseline(at: number, reason: string): void {
    epoch += 1;
    const body = { baselineId: newId(), analyzerId, from: iso(at), reason };
    actions.push({ at, by: supervisorId, kind: 'baseline-started', body });
  }

  const failingTruths = () =>
    plan.truths.filter(({ route }) => [...open.values()].some((failure) => failure.route === route));

  function weeklyVisit(week: number): void {
    const day = calendar.runDay(week);
    const by = benchIds[week % benchIds.length] ?? supervisorId;
    let at = calendar.at(day, plan.minuteOfVisit);
    for (const { truth, drawn } of weekly) {
      const { route } = truth;
      const seen = read(week, day, truth, { ...drawn(week), ...plan.deviates.get(week) });
      if (plan.slip?.week === week) {
        const vaL = rounded(seen.reading.vaL + plan.slip.vaL, 2);
        record(at, { ...seen, reading: { ...seen.reading, vaL } }, { route, reason: 'weekly', by });
        strikeOut(
          at + 4 * minute,
          by,
          `VA typed as ${vaL.toFixed(2)}, the report says ${seen.reading.vaL.toFixed(2)}.`,
        );
        at += 5 * minute;
      }
      record(at, seen, { route, reason: 'weekly', by });
      at += 9 * minute;
    }
    for (const truth of failingTruths()) {
      const comment = fault?.comment ?? 'Repeated at once.';
      const seen = read(week, day, truth, furtherRun(furtherRuns++));
      record(at, seen, { route: truth.route, reason: 'suspected-fault', by, comment });
      at += 9 * minute;
    }
  }

  /** Two days after a failure: the cause is looked for, and runs prove that it is gone before anyone closes it. */
  function repairVisit(week: number): void {
    const day = calendar.runDay(week) + repairAfterDays;
    let at = calendar.at(day, repairMinute);
    if (at + 90 * minute > endAt) return;
    const by = benchIds[week % benchIds.length] ?? supervisorId;
    const repair = fault !== null && week >= fault.fromWeek ? fault.repair : null;
    if (repair) {
      note(at - 20 * minute, by, repair.type, repair.description);
      fault = null;
      offsetSinceRepair = repair.newDlcoOffset;
    }
    for (const truth of failingTruths()) {
      let isProven = false;
      for (let proof = 0; proof < mostProofs && !isProven; proof++) {
        const seen = read(week, day, truth, furtherRun(furtherRuns++));
        const reason = repair && proof === 0 ? 'after-service' : 'repeat';
        isProven = isProof(record(at, seen, { route: truth.route, reason, by }));
        at += 9 * minute;
      }
      if (!isProven) return;
    }
    const failures = [...open.values()].map((failure) => ({ method: 'syringe' as const, ...failure }));
    open.clear();
    for (const { method, route, quantity } of failures)
      closures.push({ analyzerId, method, route, quantity, at });
    const body = {
      closureId: newId(),
      analyzerId,
      failures,
      closedAt: iso(at),
      reason: repair
        ? 'The run after the repair is inside 2 SD and the published limits.'
        : 'No fault found; the repeated run is inside 2 SD and the published limits.',
      correctiveAction: repair?.correctiveAction ?? 'Coupling and filter checked.',
      signature: null,
    };
    actions.push({ at, by: supervisorId, kind: 'failure-closed', body });
    if (offsetSinceRepair !== null && repair)
      startBaseline(at + 4 * minute, 'New CO cell: its zero is its own.');
  }

  for (let week = 0; week < weeks; week++) {
    const morning = calendar.at(calendar.runDay(week), plan.minuteOfVisit) - 25 * minute;
    for (const event of plan.events) {
      if (event.week === week)
        note(morning, benchIds[week % benchIds.length] ?? supervisorId, event.type, event.description);
    }
    if (plan.change?.week === week) {
      const { reason } = plan.change;
      description = { ...plan.change.description, syringeId };
      const body = { analyzerId, ...description, reason };
      actions.push({ at: morning + 5 * minute, by: supervisorId, kind: 'analyzer-changed', body });
      startBaseline(morning + 6 * minute, reason);
    }
    if (plan.missedWeeks.includes(week)) continue;
    weeklyVisit(week);
    if (open.size > 0) repairVisit(week);
  }
  return actions;
}

/** A run that proves a repair: inside the published limits, and inside 2 SD where there are own limits. */
function isProof({ numbers, va, dlco }: RunAssessment): boolean {
  const isNear = (z: number | null) => z === null || Math.abs(z) <= 2;
  return numbers.vaWithinPublished && numbers.dlcoWithinPublished && isNear(va.z) && isNear(dlco.z);
}
