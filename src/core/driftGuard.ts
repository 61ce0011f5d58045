import { BaselineLimits } from './ownLimits.ts';
import type { PointEvaluation, SeriesPoint } from './series.ts';

/** How far a rolling mean has walked from where its epoch began. */
export interface DriftReading {
  id: string;
  /** Rolling mean less the mean of the epoch's first baseline, in SDs of that baseline; null while either is not known. */
  walkSd: number | null;
  /** The walk is beyond the limit. */
  warns: boolean;
}

/** SDs of the first baseline beyond which a walk is warned of: common practice, no source. */
export const driftLimitSd = 1;

/**
 * Watches over rolling limits, which follow a slow drift and never signal it: for each run, how far the mean it was judged
 * by has walked from the epoch's first baseline. Needed with rolling limits only; a frozen baseline does not walk.
 * `evaluations` are those of `points` by `evaluateSeries`; `baselineSize` accepted runs make the first baseline.
 * Method: derived, this project's own.
 * @throws {RangeError} if points and evaluations do not belong together or the size is not a whole number of at least 2.
 * @example a rolling mean of 3.157 L over a first baseline of 3.117 ± 0.036 L: walkSd 1.11, warns
 */
export function rollingDrift(
  points: readonly SeriesPoint[],
  evaluations: readonly PointEvaluation[],
  baselineSize: number,
): readonly DriftReading[] {
  if (!Number.isSafeInteger(baselineSize) || baselineSize < 2) {
    throw new RangeError(
      `rollingDrift: baselineSize is ${baselineSize} runs, not a whole number of 2 or more`,
    );
  }
  if (points.length !== evaluations.length) {
    throw new RangeError(`rollingDrift: evaluations are ${evaluations.length} for ${points.length} points`);
  }
  const first = new BaselineLimits(baselineSize, baselineSize);
  let epoch: number | undefined;
  return points.map((point, index) => {
    const evaluation = evaluations[index];
    if (evaluation?.id !== point.id) {
      throw new RangeError(`rollingDrift: evaluations[${index}] is of ${evaluation?.id}, not of ${point.id}`);
    }
    if (point.excluded !== true && point.epoch !== epoch) {
      epoch = point.epoch;
      first.restart();
    }
    const walk =
      evaluation.mean === null
        ? Number.NaN
        : (evaluation.mean - first.anchor - first.meanDeviation) / first.sd;
    if (evaluation.accepted) first.accept(point.value);
    const isKnown = !Number.isNaN(walk);
    return { id: point.id, walkSd: isKnown ? walk : null, warns: isKnown && Math.abs(walk) > driftLimitSd };
  });
}
