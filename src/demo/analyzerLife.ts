/**
 * The life of one invented analyzer, up to eighteen months. The laboratory in here knows only what a real one would: it stops
 * when a failure opens, looks for the cause, and proves the repair with a run.
 */
import { publishedLimits2017, type Route, type RunAssessment } from '../core/index.ts';
import { withoutBinaryNoise } from '../journal/binaryNoise.ts';
import type {
  AnalyzerDescription,
  EntryBody,
  Investigation,
  RunContent,
  RunReason,
} from '../journal/entries.ts';
import { type Action, atTheBench, iso, minute, writingTime } from './actions.ts';
import { type Deviates, deviateSource, type Room } from './chance.ts';
import { type AnalyzerState, type ControlSurroundings, controlLife } from './controlLife.ts';
import { displayOf, rounded } from './display.ts';
import { type AnalyzerPlan, lastWeek, type RouteTruth, type VisitDeviates, weeks } from './plan.ts';
import { type RunLog, runLog } from './runLog.ts';
import { syringes } from './scenario.ts';
import { fittingsOf, servicePeriodOf, volumeCheckFor } from './upkeep.ts';

export interface Surroundings extends ControlSurroundings {
  endAt: number;
  /** One for each day of the calendar. */
  rooms: readonly Room[];
  /** The run of the last week that is looked into by others. */
  lookedIntoId: string;
  uniform: () => number;
}

/** Minutes after seven at which service comes, two days after a failure. */
const [repairAfterDays, repairMinute] = [2, 390];
/** At which an analyzer stands beside another that is looked into. */
const besideMinute = 185;
const lateByDays = 2;
const mostProofs = 4;
/** While a failure may have been there. */
const patientsTested = 11;
/** From one run to the next. */
const runTime = 9 * minute;

interface Made {
  route: Route;
  reason: RunReason;
  by: string;
  comment?: string;
  investigates?: Investigation;
}

export function analyzerLife(plan: AnalyzerPlan, surroundings: Surroundings): Action[] {
  const { calendar, endAt, rooms, analyzerId, syringeId, supervisorId, lookedIntoId, newId, uniform } =
    surroundings;
  const log: RunLog = runLog(analyzerId, newId);
  const controls = controlLife(plan, surroundings, log);
  const weekly = plan.truths.map((truth) => ({ truth, drawn: deviateSource(weeks, uniform) }));
  const furtherRun = deviateSource(64, uniform);
  // Drawn last: the other streams are as they were before routes shared anything.
  const sharedOf = plan.sharedGainSd === 0 ? null : deviateSource(weeks, uniform);
  let furtherRuns = 0;
  let description: AnalyzerDescription = { ...plan.description, syringeId };
  let fault = plan.fault;
  let offsetSinceRepair: number | null = null;

  /** What chance adds to a run of a week: as planned, or as drawn. */
  const chanceOf = (week: number, drawn: Deviates): Deviates & VisitDeviates => ({
    shared: sharedOf?.(week).va ?? 0,
    ...drawn,
  });

  /** What is truly wrong with the analyzer in a week, but for chance. */
  function stateIn(week: number, truth: RouteTruth): AnalyzerState {
    const present = fault !== null && week >= fault.fromWeek ? fault : null;
    const added = truth.setting && week >= truth.setting.fromWeek ? truth.setting.gain : 0;
    return {
      gain: truth.gain + added,
      leak: present === null ? 0 : present.leakPerWeek * (week - present.fromWeek + 1),
      dlcoOffset: (offsetSinceRepair ?? truth.dlcoOffset) + (present?.dlcoOffset ?? 0),
      isFaulty: present !== null,
    };
  }

  /** What is to be read of a run in a week; `day` differs from the week's run day on a repair visit. */
  function read(week: number, day: number, truth: RouteTruth, deviates: Deviates & VisitDeviates) {
    const room = rooms[day];
    if (room === undefined) throw new RangeError(`analyzerLife: day ${day} has no room`);
    const { gain, leak, dlcoOffset } = stateIn(week, truth);
    const present = { ...truth, gain: gain + plan.sharedGainSd * deviates.shared, dlcoOffset };
    return displayOf({ ...plan, description }, syringeOf(description, plan), {
      room,
      truth: present,
      leak,
      deviates,
    });
  }

  function contentOf(at: number, seen: ReturnType<typeof read>, made: Made): RunContent {
    const { route, reason, by, comment = '', investigates } = made;
    const { analyzerDeadSpaceL, conversion } = description;
    const { attached } = plan;
    return {
      madeAt: iso(at),
      analyzerId,
      syringeId,
      technologistId: by,
      method: 'syringe',
      route,
      reason,
      ...seen,
      conversion,
      syringe: syringeOf(description, plan),
      analyzerDeadSpaceL,
      limits: publishedLimits2017,
      comment,
      ...(attached.length === 0 ? {} : { attached: [...attached] }),
      ...(investigates === undefined ? {} : { investigates }),
    };
  }

  function note(at: number, by: string, type: EntryBody<'event-recorded'>['type'], what: string): void {
    const body = { eventId: newId(), analyzerId, happenedAt: iso(at), type, description: what };
    log.actions.push({ at: at + writingTime, by, kind: 'event-recorded', body });
  }

  const isRunIn = (week: number, { fromWeek = 0, untilWeek = lastWeek }: RouteTruth) =>
    week >= fromWeek && week <= untilWeek;
  const failingTruths = () => plan.truths.filter(({ route }) => log.openedBy(route) !== undefined);

  function weeklyVisit(week: number): void {
    const day = calendar.runDay(week) + (plan.lateWeeks.includes(week) ? lateByDays : 0);
    const by = atTheBench(surroundings, week);
    let at = calendar.at(day, plan.minuteOfVisit);
    for (const { truth, drawn } of weekly) {
      if (!isRunIn(week, truth)) continue;
      const { route } = truth;
      const seen = read(week, day, truth, { ...chanceOf(week, drawn(week)), ...plan.deviates.get(week) });
      const made: Made = { route, reason: 'weekly', by };
      if (plan.slip?.week === week) {
        const vaL = rounded(seen.reading.vaL + plan.slip.vaL, 2);
        log.record(contentOf(at, { ...seen, reading: { ...seen.reading, vaL } }, made));
        const reason = `VA typed as ${vaL.toFixed(2)}, the report says ${seen.reading.vaL.toFixed(2)}.`;
        log.strikeOut(at + 4 * minute, by, reason);
        at += 5 * minute;
      }
      const isLookedInto = week === lastWeek && truth.setting !== undefined;
      const content = contentOf(at, seen, made);
      if (plan.amended?.week === week && truth === plan.truths[0]) {
        const { temperatureC } = seen.ambient;
        const typed = rounded(temperatureC + plan.amended.temperatureC, 1);
        log.record({ ...content, ambient: { ...seen.ambient, temperatureC: typed } });
        const reason = `Temperature typed as ${typed.toFixed(1)}, the thermometer says ${temperatureC.toFixed(1)}.`;
        log.amend(at + 5 * minute, content, reason);
      } else log.record(content, isLookedInto ? lookedIntoId : newId());
      at += runTime;
    }
    for (const truth of failingTruths()) {
      const runId = log.openedBy(truth.route) ?? lookedIntoId;
      const comment = fault?.comment ?? '';
      // The run again, and where there is another route, that one.
      for (const run of [truth, ...plan.truths.filter((other) => other !== truth)]) {
        const investigates: Investigation = { runId, check: run === truth ? 'repeat' : 'other-route' };
        const seen = read(week, day, run, chanceOf(week, furtherRun(furtherRuns++)));
        const reason = 'suspected-fault';
        log.record(contentOf(at, seen, { route: run.route, reason, by, comment, investigates }));
        at += runTime;
      }
      if (week === lastWeek) log.actions.push(volumeCheckFor(runId, at, by, surroundings));
    }
  }

  /** Two days after a failure: the cause is looked for, and runs prove that it is gone before anyone closes it. */
  function repairVisit(week: number): void {
    const day = calendar.runDay(week) + repairAfterDays;
    let at = calendar.at(day, repairMinute);
    if (at + 90 * minute > endAt) return;
    const by = atTheBench(surroundings, week);
    const repair = fault !== null && week >= fault.fromWeek ? fault.repair : null;
    if (repair) {
      note(at - 20 * minute, by, repair.type, `${repair.cause} ${repair.done}`);
      fault = null;
      offsetSinceRepair = repair.newDlcoOffset;
    }
    const correctiveAction = repair?.correctiveAction ?? 'Coupling and filter checked.';
    // A part is replaced by somebody who is not of the laboratory.
    const doer = { technologistId: repair ? null : by, part: repair?.part ?? '' };
    log.act(at - 10 * minute, by, correctiveAction, doer);
    const proofRunIds: string[] = [];
    for (const truth of failingTruths()) {
      let isProven = false;
      for (let proof = 0; proof < mostProofs && !isProven; proof++) {
        const seen = read(week, day, truth, chanceOf(week, furtherRun(furtherRuns++)));
        const reason = repair && proof === 0 ? 'after-service' : 'repeat';
        const runId = newId();
        isProven = isProof(log.record(contentOf(at, seen, { route: truth.route, reason, by }), runId));
        if (isProven) proofRunIds.push(runId);
        at += runTime;
      }
      if (!isProven) return;
    }
    const reason = repair
      ? 'The run after the repair is inside 2 SD and the published limits.'
      : 'No fault found; the repeated run is inside 2 SD and the published limits.';
    log.lookBackOn(at, supervisorId, patientsTested);
    at += 3 * minute;
    const cause = repair?.cause ?? 'None found.';
    log.close(at, supervisorId, { reason, correctiveAction, proofRunIds, cause });
    if (offsetSinceRepair === null || !repair) return;
    log.startBaseline(at + 4 * minute, supervisorId, 'New CO cell: its zero is its own.');
    controls.forget();
  }

  /** Before the first run of the day. */
  function morningOf(week: number): void {
    const morning = calendar.at(calendar.runDay(week), plan.minuteOfVisit) - 25 * minute;
    for (const event of plan.events) {
      if (event.week === week) note(morning, atTheBench(surroundings, week), event.type, event.description);
    }
    if (plan.change?.week === week) {
      const { reason } = plan.change;
      description = { ...plan.change.description, syringeId };
      const body = { analyzerId, ...description, reason };
      log.actions.push({ at: morning + 5 * minute, by: supervisorId, kind: 'analyzer-changed', body });
      log.startBaseline(morning + 6 * minute, supervisorId, reason);
    }
    if (plan.accepted?.week === week) log.acceptBaselines(morning, supervisorId, plan.accepted.reason);
    if (plan.strictTrend?.week === week) log.makeTrendStrict(morning, supervisorId, plan.strictTrend.reason);
  }

  /** Once more in the last week, as the sound analyzer beside one that is looked into. */
  function standBeside(): void {
    const [truth] = plan.truths;
    if (truth === undefined) return;
    const day = calendar.runDay(lastWeek);
    const deviates = { ...chanceOf(lastWeek, furtherRun(furtherRuns++)), ...plan.deviates.get(lastWeek) };
    log.record(
      contentOf(calendar.at(day, besideMinute), read(lastWeek, day, truth, deviates), {
        route: truth.route,
        reason: 'suspected-fault',
        by: atTheBench(surroundings, lastWeek),
        investigates: { runId: lookedIntoId, check: 'other-analyzer' },
      }),
    );
  }

  for (let week = plan.fromWeek; week < weeks; week++) {
    morningOf(week);
    if (plan.missedWeeks.includes(week)) continue;
    const [truth] = plan.truths;
    if (truth !== undefined) controls.test(week, stateIn(week, truth));
    weeklyVisit(week);
    if (truth !== undefined) controls.session(week, stateIn(week, truth));
    // A failure of the last week stays open: the demonstration ends with one.
    if (log.isFailureOpen() && week !== lastWeek) repairVisit(week);
  }
  if (plan.standsBeside) standBeside();
  return [
    ...log.actions,
    ...controls.actions,
    ...fittingsOf(plan, analyzerId, surroundings),
    ...servicePeriodOf(plan, analyzerId, surroundings),
  ];
}

/** The syringe in use as it is for a run, with what is left on it. */
function syringeOf(
  { volumeInsideL }: AnalyzerDescription,
  { attached }: AnalyzerPlan,
): RunContent['syringe'] {
  const [{ volumeL, deadSpaceL }] = syringes;
  const attachedL = attached.reduce((sum, one) => sum + one.volumeL, 0);
  return {
    strokeL: volumeL - volumeInsideL,
    volumeInsideL,
    deadSpaceL: withoutBinaryNoise(deadSpaceL + attachedL),
  };
}

/** A run that proves a repair: inside the published limits, and inside 2 SD where there are own limits. */
function isProof({ numbers, va, dlco }: RunAssessment): boolean {
  const isNear = (z: number | null) => z === null || Math.abs(z) <= 2;
  return numbers.vaWithinPublished && numbers.dlcoWithinPublished && isNear(va.z) && isNear(dlco.z);
}
