/**
 * When a failure is likely to have begun, and which stretch of patient tests has to be looked at again because of it. Pure:
 * the core's look-back on the runs of the series, and what the logbook says of the analyzer's service.
 */
import { type Assessments, type LookBackRun, lookBack } from '../core/index.ts';
import type { Logbook, LoggedRun } from '../journal/logbook.ts';
import { serviceAt } from '../journal/standing.ts';
import { endedAt } from './closing.ts';
import { evaluationOf, type Failure } from './failures.ts';
import { isOfSameSeries } from './investigationShift.ts';

/** Times in ms. */
export interface Stretch {
  from: number;
  to: number;
}

/** It began after the one run and not after the other; null: before the first run that was judged. */
export interface Onset {
  after: number | null;
  before: number;
}

export interface ClosingWindow {
  firstFailing: number;
  /** The last run before it that was accepted; null where there is none. */
  lastGood: number | null;
  /** A run that was accepted may already have been made with the fault. */
  lastGoodIsInDoubt: boolean;
  /** Where a step explains the runs best; null where the runs do not tell. */
  likely: Onset | null;
  /** Where a steady drift explains them about as well; null where none does. */
  drift: Onset | null;
  /** The last run before which the runs speak against an onset; undefined where they do not tell, null where none does. */
  earliest: number | null | undefined;
  /** From when on tests are in doubt; null: from the beginning of what is known. */
  from: number | null;
  /** While it was in service with the failure open. Empty where it was out of service from the failing run on. */
  inService: readonly Stretch[];
  /** When testing stopped first; null while it has not, and where only the end of the failure stopped it. */
  stopped: number | null;
  /** Where the window ends: the last moment in service with the failure open. */
  to: number;
}

/** `now` in ms: where the window of a failure ends that nothing has stopped. */
export function closingWindow(
  failure: Failure,
  { logbook, assessments, now }: { logbook: Logbook; assessments: Assessments; now: number },
): ClosingWindow {
  const { openedBy, series } = failure;
  const ofSeries = logbook.runs.flatMap((run) => {
    const assessment = isOfSameSeries(run, openedBy) ? assessments.get(run.id) : undefined;
    return assessment === undefined ? [] : [{ run, evaluation: evaluationOf(assessment, series.quantity) }];
  });
  const back = lookBack({
    points: ofSeries.map(({ run: { id, simulation } }) => ({
      id,
      at: simulation.at,
      // lookBack reads the evaluations: the value itself plays no part.
      value: 0,
      epoch: simulation.epoch,
      excluded: simulation.excluded,
    })),
    evaluations: ofSeries.map(({ evaluation }) => evaluation),
    failingRunId: openedBy.id,
  });
  const firstFailing = openedBy.simulation.at;
  const ended = endedAt(failure);
  const until = Math.max(firstFailing, ended === null ? now : Date.parse(ended));
  const inService = stretchesInService(failure, logbook, until);
  const last = inService.at(-1);
  const to = last?.to ?? firstFailing;
  // Before the first run that was judged: then after the last one of the baseline, which the others are measured by.
  const inBaseline = ofSeries.findLast(
    ({ run: { simulation }, evaluation: { accepted, z } }) =>
      accepted &&
      z === null &&
      simulation.epoch === openedBy.simulation.epoch &&
      simulation.at < firstFailing,
  );
  const after = (found: LookBackRun | null) => found?.at ?? inBaseline?.run.simulation.at ?? null;
  const { likelyOnsetAfter: likely, earliestOnsetAfter, driftOnsetAfter } = back;
  const onset = (found: LookBackRun | null | undefined): Onset | null =>
    found === undefined ? null : { after: after(found), before: judgedAfter(found?.id, openedBy, ofSeries) };
  const lastGood = back.lastGood?.at ?? null;
  // Of a step and of a drift: a fault that grows begins before what looks like one that came at once.
  const earliest = earlier(
    earliestOnsetAfter === undefined ? undefined : after(earliestOnsetAfter),
    driftOnsetAfter === undefined ? undefined : after(driftOnsetAfter),
  );
  return {
    firstFailing,
    lastGood,
    lastGoodIsInDoubt:
      lastGood !== null && earliest !== undefined && (earliest === null || earliest < lastGood),
    likely: onset(likely),
    drift: onset(driftOnsetAfter),
    earliest,
    from: lastGood === null || earliest === null ? null : Math.min(lastGood, earliest ?? lastGood),
    inService,
    stopped: inService[0] === undefined ? firstFailing : inService[0].to < until ? inService[0].to : null,
    to,
  };
}

/** Undefined is nothing known, null before everything known. */
function earlier(one: number | null | undefined, other: number | null | undefined) {
  if (one === undefined || other === undefined) return one === undefined ? other : one;
  return one === null || other === null ? null : Math.min(one, other);
}

/** The first run after that one, of its stretch, that was judged by own limits. */
function judgedAfter(
  runId: string | undefined,
  { simulation }: LoggedRun,
  ofSeries: readonly { run: LoggedRun; evaluation: { z: number | null } }[],
): number {
  const after = runId === undefined ? -1 : ofSeries.findIndex(({ run }) => run.id === runId);
  const next = ofSeries
    .slice(after + 1)
    .find(
      ({ run, evaluation }) =>
        evaluation.z !== null && !run.simulation.excluded && run.simulation.epoch === simulation.epoch,
    );
  return next?.run.simulation.at ?? simulation.at;
}

/** What the analyzer's service entries leave of the time from the failing run to the end. */
function stretchesInService(
  { analyzerId, openedBy }: Failure,
  logbook: Pick<Logbook, 'services'>,
  until: number,
): readonly Stretch[] {
  const openedAt = openedBy.simulation.at;
  const changes = logbook.services
    .filter(({ body }) => body.analyzerId === analyzerId)
    .map(({ body: { from, inService } }) => ({ at: Date.parse(from), inService }))
    .filter(({ at }) => at > openedAt && at <= until)
    // A stable sort: of two from the same instant the one written later holds.
    .sort((one, other) => one.at - other.at);
  const stretches: Stretch[] = [];
  let since =
    serviceAt(logbook, analyzerId, openedBy.body.madeAt)?.body.inService === false ? null : openedAt;
  for (const { at, inService } of changes) {
    if (inService) since ??= at;
    else if (since !== null) {
      stretches.push({ from: since, to: at });
      since = null;
    }
  }
  if (since !== null && since < until) stretches.push({ from: since, to: until });
  return stretches;
}

const dayMs = 86_400_000;

/** How many days of the window the tests are in doubt for certain, and how many they may be. */
export function shareOf({ firstFailing, from, inService }: ClosingWindow): {
  certainDays: number;
  /** Before the failing run; null where nobody knows from when on. */
  possibleDays: number | null;
} {
  const certain = inService.reduce((sum, stretch) => sum + stretch.to - stretch.from, 0);
  return {
    certainDays: certain / dayMs,
    possibleDays: from === null ? null : (firstFailing - from) / dayMs,
  };
}
