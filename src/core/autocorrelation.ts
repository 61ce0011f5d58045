import { normalQuantile } from './quantiles.ts';

/**
 * How alike neighbours are, from −1 to 1, dimensionless: the correlation of each value with the one before it, in the order
 * given. Undefined for fewer than three values and where all are equal. Above 0 runs in a row lie on one side, and a mean of n of
 * them is known less well than √n says; below 0 they swing.
 * Source: NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.12, with k = 1.
 * @throws {RangeError} if a value is not finite.
 * @example lagOneAutocorrelation([10_000_001, 10_000_003, 10_000_002]) // −0.5 (NIST StRD NumAcc1)
 */
export function lagOneAutocorrelation(values: readonly number[]): number | undefined {
  const [anchor = 0] = values;
  let sum = 0;
  for (const [index, value] of values.entries()) {
    if (!Number.isFinite(value)) throw new RangeError(`lagOneAutocorrelation: values[${index}] is ${value}`);
    sum += value - anchor;
  }
  if (values.length < 3) return undefined;
  // About the first value: of values near 1e7 the spread would be lost otherwise.
  const middle = sum / values.length;
  let products = 0;
  let squares = 0;
  let before: number | undefined;
  for (const value of values) {
    const deviation = value - anchor - middle;
    squares += deviation * deviation;
    if (before !== undefined) products += before * deviation;
    before = deviation;
  }
  return squares === 0 ? undefined : products / squares;
}

/**
 * How far from 0 the correlation of neighbours comes by chance in `n` independent values, in nineteen of twenty samples: an
 * approximation, a little wide for few values. Dimensionless.
 * Source: NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.3.1, the band of an autocorrelation plot.
 * @throws {RangeError} if n is not a whole number of at least 3.
 * @example autocorrelationByChance(20) // 0.438
 */
export function autocorrelationByChance(n: number): number {
  if (!Number.isSafeInteger(n) || n < 3) {
    throw new RangeError(`autocorrelationByChance: n is ${n} values, not a whole number of 3 or more`);
  }
  return normalQuantile(0.975) / Math.sqrt(n);
}
