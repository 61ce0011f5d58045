import { tQuantile } from './quantiles.ts';
import { RunningMoments } from './statistics.ts';

export interface MeanDifference {
  /** Mean of the first less mean of the second, in the unit of the values. */
  difference: number;
  standardError: number;
  /** By Welch's and Satterthwaite's formula; rarely whole. */
  degreesOfFreedom: number;
  /** The ends of the interval in which the true difference lies with the confidence asked for. */
  lower: number;
  upper: number;
}

/**
 * How far the means of two independent samples lie apart, with its interval by Student's t, in the unit of the values.
 * The two need not scatter alike, nor be equally many. Undefined where one has fewer than two values, or neither
 * scatters at all. It takes the values of each to be independent and about normal: a sample that drifted is neither.
 * Source: Welch, Biometrika 34, 1947, 28–35; degrees of freedom, Satterthwaite, Biometrics Bulletin 2, 1946, 110–114.
 * @throws {RangeError} if a value is not finite or the confidence not strictly between 0 and 1.
 * @example meanDifference([3.10, 3.12, 3.14], [3.07, 3.08, 3.09]) // 0.04, from −0.0016 to 0.0816
 */
export function meanDifference(
  first: readonly number[],
  second: readonly number[],
  confidence = 0.95,
): MeanDifference | undefined {
  if (!(confidence > 0 && confidence < 1)) {
    throw new RangeError(
      `meanDifference: confidence is ${confidence}, not a probability strictly between 0 and 1`,
    );
  }
  const one = momentsOf('first', first);
  const other = momentsOf('second', second);
  if (one.count < 2 || other.count < 2) return undefined;
  const [oneShare, otherShare] = [one.sd ** 2 / one.count, other.sd ** 2 / other.count];
  const variance = oneShare + otherShare;
  if (variance === 0) return undefined;
  // As fractions of the whole, so that no square of a small variance is lost below the smallest double.
  const [oneFraction, otherFraction] = [oneShare / variance, otherShare / variance];
  const degreesOfFreedom = 1 / (oneFraction ** 2 / (one.count - 1) + otherFraction ** 2 / (other.count - 1));
  const difference = one.mean - other.mean;
  const standardError = Math.sqrt(variance);
  const reach = -tQuantile((1 - confidence) / 2, degreesOfFreedom) * standardError;
  return {
    difference,
    standardError,
    degreesOfFreedom,
    lower: difference - reach,
    upper: difference + reach,
  };
}

/**
 * The confidence that each of several intervals must have by itself, for all of them together to hold with `joint`: the
 * chance of a miss is shared out evenly. It promises too much rather than too little when they hang together. Dimensionless.
 * Source: Bonferroni's inequality, as in the NIST/SEMATECH e-Handbook of Statistical Methods, 7.4.7.3.
 * @throws {RangeError} if the joint confidence is not strictly between 0 and 1, or the intervals not a whole number of at least 1.
 * @example confidenceOfEach(0.95, 3) // 0.98333
 */
export function confidenceOfEach(joint: number, intervals: number): number {
  if (!(joint > 0 && joint < 1)) {
    throw new RangeError(`confidenceOfEach: joint is ${joint}, not a probability strictly between 0 and 1`);
  }
  if (!Number.isSafeInteger(intervals) || intervals < 1) {
    throw new RangeError(`confidenceOfEach: intervals is ${intervals}, not a whole number of at least 1`);
  }
  return 1 - (1 - joint) / intervals;
}

function momentsOf(name: string, values: readonly number[]): RunningMoments {
  const moments = new RunningMoments();
  for (const [index, value] of values.entries()) {
    if (!Number.isFinite(value)) throw new RangeError(`meanDifference: ${name}[${index}] is ${value}`);
    moments.add(value);
  }
  return moments;
}
