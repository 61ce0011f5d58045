/** Probabilities of the normal and the chi-square distribution, and the chi-square quantile. */

import { normalQuantile } from './quantiles.ts';

/**
 * P(Z > z) of the standard normal distribution. Dimensionless.
 * Relative error below 1e-13 to z = 37, beyond which it is less than the smallest double.
 * Source: half the complement of the error function, by the incomplete gamma function Q(½, z²/2), DLMF 7.11.2.
 * @throws {RangeError} if z is NaN.
 * @example normalTail(3) // 0.0013498980316300946
 */
export function normalTail(z: number): number {
  if (Number.isNaN(z)) throw new RangeError('normalTail: z is NaN');
  if (z === Number.POSITIVE_INFINITY) return 0;
  if (z < 0) return 1 - normalTail(-z);
  return 0.5 * upperGamma(0.5, (z * z) / 2);
}

/**
 * Chi-square quantile: the x with P(X ≤ x) = p. Dimensionless.
 * Relative error below 1e-11 for p from 1e-6 to 1 − 1e-6 and 1 to 10,000 degrees of freedom; see tests.
 * Method: Newton steps on the incomplete gamma function, kept inside a bracket, from Wilson and Hilferty's start.
 * Source: start, Abramowitz & Stegun 26.4.17; incomplete gamma function, DLMF 8.11.4 (series) and 8.9.2 (fraction).
 * @throws {RangeError} if p is not strictly between 0 and 1 or the degrees of freedom are not positive and finite.
 * @example chiSquareQuantile(0.975, 19) // 32.8523
 */
export function chiSquareQuantile(p: number, degreesOfFreedom: number): number {
  if (!(p > 0 && p < 1))
    throw new RangeError(`chiSquareQuantile: p is ${p}, not a probability strictly between 0 and 1`);
  if (!(degreesOfFreedom > 0 && degreesOfFreedom < Number.POSITIVE_INFINITY)) {
    throw new RangeError(`chiSquareQuantile: degreesOfFreedom is ${degreesOfFreedom}`);
  }
  const half = degreesOfFreedom / 2;
  const isLower = p < 0.5;
  const target = isLower ? p : 1 - p;
  const ninth = 2 / (9 * degreesOfFreedom);
  let x = Math.max(1e-300, half * (1 - ninth + normalQuantile(p) * Math.sqrt(ninth)) ** 3);
  let low = 0;
  let high = Number.POSITIVE_INFINITY;
  for (let step = 0; step < 200; step += 1) {
    const mass = isLower ? lowerGamma(half, x) : upperGamma(half, x);
    if (mass > target === isLower) high = Math.min(high, x);
    else low = Math.max(low, x);
    const density = Math.exp((half - 1) * Math.log(x) - x - logGamma(half));
    const newton = x + ((isLower ? 1 : -1) * (target - mass)) / density;
    const isInside = newton > low && newton < high;
    const next = isInside ? newton : high < Number.POSITIVE_INFINITY ? (low + high) / 2 : 2 * x;
    const isDone = Math.abs(next - x) <= 1e-15 * x;
    x = next;
    if (isDone) break;
  }
  return 2 * x;
}

/** Regularized lower incomplete gamma function P(a, x). */
function lowerGamma(a: number, x: number): number {
  return x < a + 1 ? gammaSeries(a, x) : 1 - gammaFraction(a, x);
}

/** Regularized upper incomplete gamma function Q(a, x). */
function upperGamma(a: number, x: number): number {
  return x < a + 1 ? 1 - gammaSeries(a, x) : gammaFraction(a, x);
}

/** P(a, x) by its power series, for x below a + 1. Source: DLMF 8.11.4. */
function gammaSeries(a: number, x: number): number {
  if (x === 0) return 0;
  let term = 1 / a;
  let sum = term;
  for (let n = 1; n < 20_000 && term > sum * 1e-17; n += 1) {
    term *= x / (a + n);
    sum += term;
  }
  return sum * Math.exp(a * Math.log(x) - x - logGamma(a));
}

/** Q(a, x) by its continued fraction, for x of at least a + 1. Source: DLMF 8.9.2, evaluated by Lentz's method. */
function gammaFraction(a: number, x: number): number {
  let b = x + 1 - a;
  let c = Number.MAX_VALUE;
  let d = 1 / b;
  let fraction = d;
  for (let n = 1; n < 20_000; n += 1) {
    const top = n * (a - n);
    b += 2;
    d = 1 / (b + top * d);
    c = b + top / c;
    fraction *= c * d;
    if (Math.abs(c * d - 1) < 1e-16) break;
  }
  return fraction * Math.exp(a * Math.log(x) - x - logGamma(a));
}

/** ln Γ(a), relative error about 1e-15: Stirling's series at 20 and more, and recurrence below. Source: DLMF 5.11.1. */
export function logGamma(a: number): number {
  let shift = 1;
  let x = a;
  for (; x < 20; x += 1) shift *= x;
  const inverse = 1 / x;
  const square = inverse * inverse;
  const series =
    (1 / 12 - square * (1 / 360 - square * (1 / 1260 - square * (1 / 1680 - square / 1188)))) * inverse;
  return (x - 0.5) * Math.log(x) - x + 0.5 * Math.log(2 * Math.PI) + series - Math.log(shift);
}
