/**
 * Quantiles of the normal and of Student's t distribution.
 * The small libraries on the registry were either good to eight digits or drew in a hundred packages, and the
 * bench form waits for this file: hence published algorithms, with their error bounds.
 */

/**
 * Normal quantile: the z with P(Z ≤ z) = p. Dimensionless.
 * Relative error about 1e-16 in z. Near p = 1 the digits of `1 − p` are lost before the call: ask for the lower
 * tail and change the sign.
 * Source: Wichura, algorithm AS 241 (PPND16), Applied Statistics 37 (1988), 477–484.
 * @throws {RangeError} if p is not strictly between 0 and 1.
 * @example normalQuantile(0.975) // 1.959963984540054
 */
export function normalQuantile(p: number): number {
  if (!(p > 0 && p < 1))
    throw new RangeError(`normalQuantile: p is ${p}, not a probability strictly between 0 and 1`);
  const q = p - 0.5;
  if (Math.abs(q) <= 0.425) {
    const r = 0.180625 - q * q;
    return (q * polynomial(centreTop, r)) / polynomial(centreBottom, r);
  }
  const r = Math.sqrt(-Math.log(q < 0 ? p : 1 - p));
  const z =
    r <= 5
      ? polynomial(middleTop, r - 1.6) / polynomial(middleBottom, r - 1.6)
      : polynomial(tailTop, r - 5) / polynomial(tailBottom, r - 5);
  return q < 0 ? -z : z;
}

/**
 * Student's t quantile: the t with P(T ≤ t) = p at `degreesOfFreedom`, which need not be whole. Dimensionless.
 * Relative error below 1e-11 for 1 to 1e6 degrees of freedom and p from 1e-12 to 0.499, seen against 40-digit
 * arithmetic (below 1e-13 up to 1000 degrees). Above 0.5 the digits of `1 − p` limit it: ask for the lower tail and change the sign.
 * Method: Newton steps in log t on the log of the tail (or, near the middle, of the central half): both are concave
 * in log t, so that the steps cannot wander.
 * Source: incomplete beta function by its continued fraction, DLMF 8.17.22; t as a beta, Abramowitz & Stegun 26.5.27;
 * starting value, Abramowitz & Stegun 26.7.5.
 * @throws {RangeError} if p is not strictly between 0 and 1 or the degrees of freedom are not positive and finite.
 * @example tQuantile(0.975, 9) // 2.2621571627982
 */
export function tQuantile(p: number, degreesOfFreedom: number): number {
  if (!(p > 0 && p < 1))
    throw new RangeError(`tQuantile: p is ${p}, not a probability strictly between 0 and 1`);
  if (!(degreesOfFreedom > 0 && degreesOfFreedom < Number.POSITIVE_INFINITY)) {
    throw new RangeError(`tQuantile: degreesOfFreedom is ${degreesOfFreedom}`);
  }
  if (p === 0.5) return 0;
  return p < 0.5 ? -upperTQuantile(p, degreesOfFreedom) : upperTQuantile(1 - p, degreesOfFreedom);
}

/** The positive t with P(T > t) = tail, for a tail below one half. */
function upperTQuantile(tail: number, degrees: number): number {
  const beta = betaWithHalf(degrees / 2);
  const densityAtZero = 1 / (Math.sqrt(degrees) * beta);
  const isNearMiddle = tail > 0.25;
  const target = isNearMiddle ? 0.5 - tail : tail;
  let t = startingT(tail, degrees, beta);
  for (let step = 0; step < 200; step += 1) {
    const density = densityAtZero * Math.exp(-0.5 * (degrees + 1) * Math.log1p((t * t) / degrees));
    const mass = isNearMiddle ? halfWithin(t, degrees, beta) : tailBeyond(t, degrees, beta);
    const slope = ((isNearMiddle ? 1 : -1) * t * density) / mass;
    const change = Math.log(target / mass) / slope;
    t *= Math.exp(change);
    if (Math.abs(change) < 1e-14) break;
  }
  return t;
}

/** P(T > t), from whichever of the two beta functions converges. */
function tailBeyond(t: number, degrees: number, beta: number): number {
  return isTail(t, degrees) ? tailBeta(t, degrees, beta) : 0.5 - centreBeta(t, degrees, beta);
}

/** P(0 < T < t), likewise. */
function halfWithin(t: number, degrees: number, beta: number): number {
  return isTail(t, degrees) ? 0.5 - tailBeta(t, degrees, beta) : centreBeta(t, degrees, beta);
}

function isTail(t: number, degrees: number): boolean {
  return (t * t) / (degrees + t * t) > 1.5 / (degrees / 2 + 2.5);
}

function tailBeta(t: number, degrees: number, beta: number): number {
  const sum = degrees + t * t;
  return 0.5 * incompleteBeta(degrees / sum, (t * t) / sum, degrees / 2, 0.5, beta);
}

function centreBeta(t: number, degrees: number, beta: number): number {
  const sum = degrees + t * t;
  return 0.5 * incompleteBeta((t * t) / sum, degrees / sum, 0.5, degrees / 2, beta);
}

/**
 * I_x(a, b) for x below (a + 1)/(a + b + 2), where its continued fraction converges fast. `y` is 1 − x, given apart
 * because the caller knows it to more digits; `betaAB` is B(a, b). Source: DLMF 8.17.22, evaluated by Lentz's method.
 */
export function incompleteBeta(x: number, y: number, a: number, b: number, betaAB: number): number {
  let fraction = 1;
  let c = 1;
  let d = 0;
  for (let j = 1; j < 40_000; j += 1) {
    const m = j >> 1;
    const top = j % 2 === 0 ? m * (b - m) * x : -(a + m) * (a + b + m) * x;
    const term = top / ((a + j - 1) * (a + j));
    d = 1 / (1 + term * d);
    c = 1 + term / c;
    fraction *= c * d;
    if (Math.abs(c * d - 1) < 1e-16) break;
  }
  // The logarithm of the larger one is taken from the smaller, which has more digits of it.
  const logX = x < 0.5 ? Math.log(x) : Math.log1p(-y);
  const logY = x < 0.5 ? Math.log1p(-x) : Math.log(y);
  return Math.exp(a * logX + b * logY) / (a * betaAB * fraction);
}

/** B(a, ½), relative error below 1e-15: Γ(a + ½)/Γ(a) by its asymptotic series at a ≥ 32, and recurrence below. */
function betaWithHalf(a: number): number {
  let shift = 1;
  let x = a;
  for (; x < 32; x += 1) shift *= x / (x + 0.5);
  return Math.sqrt(Math.PI) / (shift * Math.sqrt(x) * polynomial(gammaRatio, 1 / x));
}

/** Coefficients of Γ(x + ½) / (Γ(x)·√x) in powers of 1/x. Source: DLMF 5.11.13; checked by 120-digit fit. */
const gammaRatio = [
  1,
  -1 / 8,
  1 / 128,
  5 / 1024,
  -21 / 32768,
  -399 / 262144,
  869 / 4194304,
  39325 / 33554432,
];

function startingT(tail: number, degrees: number, beta: number): number {
  // Heavy tails: the leading term of the tail itself. Otherwise the normal quantile, corrected.
  if (degrees < 3) return Math.sqrt(degrees) * (tail * degrees * beta) ** (-1 / degrees);
  const z = -normalQuantile(tail);
  const square = z * z;
  const first = (z * (square + 1)) / 4;
  const second = (z * ((5 * square + 16) * square + 3)) / 96;
  return z + (first + second / degrees) / degrees;
}

function polynomial(coefficients: readonly number[], x: number): number {
  let sum = 0;
  for (let power = coefficients.length - 1; power >= 0; power -= 1)
    sum = sum * x + (coefficients[power] ?? 0);
  return sum;
}

/** AS 241, PPND16: the three pairs of polynomials, lowest power first, to the digits a double can hold. */
const centreTop = [
  3.3871328727963665, 133.14166789178438, 1971.5909503065513, 13731.69376550946, 45921.95393154987,
  67265.7709270087, 33430.57558358813, 2509.0809287301227,
];
const centreBottom = [
  1, 42.31333070160091, 687.1870074920579, 5394.196021424751, 21213.794301586597, 39307.89580009271,
  28729.085735721943, 5226.495278852854,
];
const middleTop = [
  1.4234371107496837, 4.630337846156546, 5.769497221460691, 3.6478483247632045, 1.2704582524523684,
  0.2417807251774506, 0.022723844989269184, 0.0007745450142783414,
];
const middleBottom = [
  1, 2.053191626637759, 1.6763848301838038, 0.6897673349851, 0.14810397642748008, 0.015198666563616457,
  0.0005475938084995344, 1.0507500716444169e-9,
];
const tailTop = [
  6.657904643501104, 5.463784911164114, 1.7848265399172913, 0.29656057182850487, 0.026532189526576124,
  0.0012426609473880784, 2.7115555687434876e-5, 2.0103343992922881e-7,
];
const tailBottom = [
  1, 0.599832206555888, 0.1369298809227358, 0.014875361290850615, 0.0007868691311456133,
  1.8463183175100548e-5, 1.421511758316446e-7, 2.0442631033899397e-15,
];
