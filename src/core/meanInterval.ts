import { tQuantile } from './quantiles.ts';

/**
 * The interval in which the true mean lies with the given confidence, in the unit of `mean`, for `n` independent values of a
 * sample SD `sd`. Values that hang together, as in a drift, know their mean less well than it says.
 * Source: NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.2.
 * @throws {RangeError} if the mean is not finite, the SD negative or not finite, n below 2 or not whole, or the confidence not
 * strictly between 0 and 1.
 * @example meanConfidenceInterval(9.26146, 0.0227885, 195) // { lower: 9.25824, upper: 9.26468 }
 */
export function meanConfidenceInterval(
  mean: number,
  sd: number,
  n: number,
  confidence = 0.95,
): { lower: number; upper: number } {
  if (!Number.isFinite(mean)) throw new RangeError(`meanConfidenceInterval: mean is ${mean}`);
  if (!(sd >= 0 && sd < Number.POSITIVE_INFINITY)) {
    throw new RangeError(`meanConfidenceInterval: sd is ${sd}`);
  }
  if (!Number.isSafeInteger(n) || n < 2) {
    throw new RangeError(`meanConfidenceInterval: n is ${n} runs, not a whole number of 2 or more`);
  }
  if (!(confidence > 0 && confidence < 1)) {
    throw new RangeError(
      `meanConfidenceInterval: confidence is ${confidence}, not a probability strictly between 0 and 1`,
    );
  }
  const reach = (-tQuantile((1 - confidence) / 2, n - 1) * sd) / Math.sqrt(n);
  return { lower: mean - reach, upper: mean + reach };
}
