import { chiSquareQuantile } from './probabilities.ts';

/**
 * The interval in which the true SD lies with the given confidence, in the unit of `sd`, for a normal sample of `n`. Wide
 * for a baseline: of 20 runs the true SD may be three quarters or one and a half times what was found.
 * Source: NIST/SEMATECH e-Handbook of Statistical Methods, 7.2.3.1, chi-square interval.
 * @throws {RangeError} if sd is negative or not finite, n below 2 or not whole, or the confidence not strictly between 0 and 1.
 * @example sdConfidenceInterval(0.036, 20) // { lower: 0.0274, upper: 0.0526 }
 */
export function sdConfidenceInterval(
  sd: number,
  n: number,
  confidence = 0.95,
): { lower: number; upper: number } {
  if (!(sd >= 0 && sd < Number.POSITIVE_INFINITY)) throw new RangeError(`sdConfidenceInterval: sd is ${sd}`);
  if (!Number.isSafeInteger(n) || n < 2) {
    throw new RangeError(`sdConfidenceInterval: n is ${n} runs, not a whole number of 2 or more`);
  }
  if (!(confidence > 0 && confidence < 1)) {
    throw new RangeError(
      `sdConfidenceInterval: confidence is ${confidence}, not a probability strictly between 0 and 1`,
    );
  }
  const half = (1 - confidence) / 2;
  return {
    lower: sd * Math.sqrt((n - 1) / chiSquareQuantile(1 - half, n - 1)),
    upper: sd * Math.sqrt((n - 1) / chiSquareQuantile(half, n - 1)),
  };
}
