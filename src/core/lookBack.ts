import { changePoint, driftStart, logLikelihoodStep } from './changePoint.ts';
import type { PointEvaluation, SeriesPoint } from './series.ts';

export interface LookBackInput {
  /** One series in time order, and its evaluations by `evaluateSeries`. */
  points: readonly SeriesPoint[];
  evaluations: readonly PointEvaluation[];
  /** The run that opened the failure. */
  failingRunId: string;
  /** When patient testing was stopped on the analyzer, in ms; without it the stretch is still open. */
  stoppedAt?: number | undefined;
}

export interface LookBackRun {
  id: string;
  at: number;
}

/** Which stretch of patient tests has to be looked at again. Times in ms. */
export interface LookBack {
  firstFailing: LookBackRun;
  /** The last accepted run before it in the epoch, or null when there is none. */
  lastGood: LookBackRun | null;
  /**
   * Where a step explains the runs best and where it may have begun at the earliest: each the last run still before it, or
   * null when that lies before the first run known. Undefined when the runs do not tell.
   */
  likelyOnsetAfter: LookBackRun | null | undefined;
  earliestOnsetAfter: LookBackRun | null | undefined;
  /**
   * The same for a steady drift, the last run before it. Undefined where there is none, and where a step explains the runs
   * 7.4 times as well.
   */
  driftOnsetAfter: LookBackRun | null | undefined;
  /** A run that was accepted may already have been made with the fault. */
  lastGoodIsInDoubt: boolean;
  /** The stretch: from the earlier of the last good run and the earliest onset. Null: from the beginning of what is known. */
  from: number | null;
  /** When testing stopped; null while it has not. */
  to: number | null;
}

/**
 * From the last good run to the failing one to the stop: the patients tested in between have to be looked at again. A slow
 * fault passes before it is noticed, so the stretch is carried back to the earliest start that the z of the runs leave plausible.
 * Runs before an earlier failure, of another epoch, excluded or not judged say nothing of the onset.
 * Method: derived, this project's own, on `changePoint`.
 * @throws {RangeError} if points and evaluations do not belong together, the run is not among them, or the stop is before it.
 */
export function lookBack(input: LookBackInput): LookBack {
  const { points, evaluations, failingRunId, stoppedAt } = input;
  const failingIndex = points.findIndex(({ id }) => id === failingRunId);
  const failing = points[failingIndex];
  if (points.length !== evaluations.length) {
    throw new RangeError(`lookBack: evaluations are ${evaluations.length} for ${points.length} points`);
  }
  if (failing === undefined)
    throw new RangeError(`lookBack: failingRunId is ${failingRunId}, which is none of the points`);
  if (stoppedAt !== undefined && !(stoppedAt >= failing.at && stoppedAt < Number.POSITIVE_INFINITY)) {
    throw new RangeError(
      `lookBack: stoppedAt is ${stoppedAt} ms, not at or after the failing run, ${failing.at} ms`,
    );
  }
  const history = sameStretch(points, evaluations, failingIndex);
  const lastGood = history.findLast(({ evaluation }) => evaluation.accepted)?.point;
  const judged = history.filter(({ evaluation }) => evaluation.z !== null);
  const z = judged.map(({ evaluation }) => evaluation.z ?? 0);
  const onset = changePoint(z);
  const drift = driftStart(z);
  const isDrift =
    drift !== null && drift.logLikelihoodGain >= (onset?.logLikelihoodGain ?? 0) - logLikelihoodStep;
  const runBefore = (index: number) => runOf(judged[index - 1]?.point);
  const likelyOnsetAfter = onset === null ? undefined : runBefore(onset.firstChangedIndex);
  const earliestOnsetAfter = onset === null ? undefined : runBefore(onset.earliestPlausibleIndex);
  const earliest = earliestOnsetAfter === undefined ? runOf(lastGood) : earliestOnsetAfter;
  const lastGoodAt = lastGood?.at ?? null;
  return {
    firstFailing: { id: failing.id, at: failing.at },
    lastGood: runOf(lastGood),
    likelyOnsetAfter,
    earliestOnsetAfter,
    driftOnsetAfter: isDrift ? runBefore(drift.firstChangedIndex) : undefined,
    lastGoodIsInDoubt: lastGoodAt !== null && (earliest === null || earliest.at < lastGoodAt),
    from: earliest === null || lastGoodAt === null ? null : Math.min(earliest.at, lastGoodAt),
    to: stoppedAt ?? null,
  };
}

/** The runs up to the failing one since its epoch began or the failure before it ended, excluded ones left out. */
function sameStretch(
  points: readonly SeriesPoint[],
  evaluations: readonly PointEvaluation[],
  failingIndex: number,
) {
  const epoch = points[failingIndex]?.epoch;
  const stretch: { point: SeriesPoint; evaluation: PointEvaluation }[] = [];
  for (let index = failingIndex; index >= 0; index -= 1) {
    const point = points[index];
    const evaluation = evaluations[index];
    if (point === undefined || evaluation?.id !== point.id) {
      throw new RangeError(`lookBack: evaluations[${index}] is of ${evaluation?.id}, not of ${point?.id}`);
    }
    if (point.excluded === true) continue;
    const isOfEarlierFailure = index < failingIndex && evaluation.failureOpen;
    if (point.epoch !== epoch || isOfEarlierFailure) break;
    stretch.push({ point, evaluation });
  }
  return stretch.reverse();
}

function runOf(point: SeriesPoint | undefined): LookBackRun | null {
  return point === undefined ? null : { id: point.id, at: point.at };
}
