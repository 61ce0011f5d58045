import { isWithinTolerance } from './fixedLimits.ts';
import { impossible, requirePositive } from './impossible.ts';
import { mean } from './statistics.ts';

/** A dilution of known content and what was read of it, in one unit. */
export interface LinearityPoint {
  expected: number;
  read: number;
}

/** `read = intercept + slope · expected`, intercept and residual SD in the unit of the points. */
export interface StraightLine {
  slope: number;
  intercept: number;
  /** How far the points scatter about the line (divisor n − 2); null with two points, which are always on it. */
  residualSd: number | null;
}

export interface JudgedLinearityPoint extends LinearityPoint {
  /** Read less expected, in the unit of the points and as a fraction of full scale. */
  deviation: number;
  deviationFraction: number;
  /** Read less what the line gives, as a fraction of full scale; null without a line. */
  fromLineFraction: number | null;
  within: boolean;
}

export interface Linearity {
  /** In the order given. */
  points: readonly JudgedLinearityPoint[];
  /** Null where no two points are expected apart. */
  line: StraightLine | null;
  /** The deviation from what is expected that is farthest from 0, as a fraction of full scale; the first of equals. */
  worstFraction: number;
  /** The same of the deviation from the line; null without a line. */
  worstFromLineFraction: number | null;
  /** Every point reads what is expected, to the limit. */
  within: boolean;
  /** Every point is on the line, to the limit. Where it is so and `within` is not, gain or zero is off and the analyzer is straight; null for fewer than three points. */
  isStraight: boolean | null;
}

/**
 * A gas analyzer against known dilutions: each reading against what is expected and against the least-squares line through
 * all. The verdict, `within`, is by what is expected, since an uptake is computed from what is read. Ends are in.
 * Method: ordinary least squares about the means, which keeps the digits that sums of products lose.
 * Source of the usual limit: see `publishedCheckLimits.linearity`.
 * @throws {RangeError} if there are fewer than two points, a content or reading is impossible, or full scale or limit is not positive.
 * @example linearityCheck({ points: [{ expected: 0, read: 0.001 }, { expected: 0.15, read: 0.152 }, { expected: 0.3, read: 0.3 }],
 *   fullScale: 0.3, limitFraction: 0.005 }).worstFraction // 0.00667, not within
 */
export function linearityCheck(input: {
  points: readonly LinearityPoint[];
  fullScale: number;
  limitFraction: number;
}): Linearity {
  const { points, fullScale, limitFraction } = input;
  checkInput(input);
  const line = lineThrough(points);
  const isFit = (fraction: number) => isWithinTolerance(fraction, 0, limitFraction);
  const judged = points.map(({ expected, read }): JudgedLinearityPoint => {
    const deviation = read - expected;
    const deviationFraction = deviation / fullScale;
    const fromLineFraction =
      line === null ? null : (read - (line.intercept + line.slope * expected)) / fullScale;
    return {
      expected,
      read,
      deviation,
      deviationFraction,
      fromLineFraction,
      within: isFit(deviationFraction),
    };
  });
  const worstFromLineFraction =
    line === null ? null : farthest(judged.map(({ fromLineFraction }) => fromLineFraction ?? 0));
  return {
    points: judged,
    line,
    worstFraction: farthest(judged.map(({ deviationFraction }) => deviationFraction)),
    worstFromLineFraction,
    within: judged.every(({ within }) => within),
    isStraight: points.length < 3 || worstFromLineFraction === null ? null : isFit(worstFromLineFraction),
  };
}

function lineThrough(points: readonly LinearityPoint[]): StraightLine | null {
  const meanExpected = mean(points.map(({ expected }) => expected)) ?? 0;
  const meanRead = mean(points.map(({ read }) => read)) ?? 0;
  let squares = 0;
  let products = 0;
  for (const { expected, read } of points) {
    squares += (expected - meanExpected) ** 2;
    products += (expected - meanExpected) * (read - meanRead);
  }
  if (squares === 0) return null;
  const slope = products / squares;
  let residuals = 0;
  for (const { expected, read } of points) {
    residuals += (read - meanRead - slope * (expected - meanExpected)) ** 2;
  }
  const freedom = points.length - 2;
  return {
    slope,
    intercept: meanRead - slope * meanExpected,
    residualSd: freedom === 0 ? null : Math.sqrt(residuals / freedom),
  };
}

function farthest(fractions: readonly number[]): number {
  return fractions.reduce((worst, one) => (Math.abs(one) > Math.abs(worst) ? one : worst), 0);
}

function checkInput({ points, fullScale, limitFraction }: Parameters<typeof linearityCheck>[0]): void {
  if (points.length < 2)
    throw new RangeError(`linearityCheck: there are ${points.length} points, not 2 or more`);
  for (const [index, { expected, read }] of points.entries()) {
    if (!(expected >= 0 && expected < Number.POSITIVE_INFINITY))
      throw impossible('linearityCheck', `points[${index}].expected`, expected, '');
    if (!Number.isFinite(read)) throw impossible('linearityCheck', `points[${index}].read`, read, '');
  }
  requirePositive('linearityCheck', 'fullScale', fullScale, '');
  requirePositive('linearityCheck', 'limitFraction', limitFraction, 'of full scale');
}
