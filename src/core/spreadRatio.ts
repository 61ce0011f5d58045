import { logGamma } from './probabilities.ts';
import { incompleteBeta } from './quantiles.ts';

export interface SdRatio {
  /** SD of the first over that of the second. */
  ratio: number;
  /** The ends of the interval in which the true ratio lies with the confidence asked for. */
  lower: number;
  upper: number;
  /** How often two samples of one spread are at least as unlike, either way round. */
  p: number;
}

/** A sample's SD and how many values it is of. */
interface Spread {
  sd: number;
  n: number;
}

/**
 * How many times as widely one normal sample scatters as another, with its interval by the F distribution. Dimensionless. It is
 * far more easily misled by values that are not normal than a comparison of means.
 * Source: NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.9, F-test for equality of two variances.
 * @throws {RangeError} if an SD is not positive and finite, an n not a whole number of at least 2, or the confidence not strictly
 * between 0 and 1.
 * @example sdRatio({ sd: 0.036, n: 20 }, { sd: 0.024, n: 20 }) // ratio 1.5, from 0.944 to 2.384, p 0.085
 */
export function sdRatio(first: Spread, second: Spread, confidence = 0.95): SdRatio {
  for (const [name, { sd, n }] of Object.entries({ first, second })) {
    if (!(sd > 0 && sd < Number.POSITIVE_INFINITY)) throw new RangeError(`sdRatio: ${name}.sd is ${sd}`);
    if (!Number.isSafeInteger(n) || n < 2) {
      throw new RangeError(`sdRatio: ${name}.n is ${n} values, not a whole number of 2 or more`);
    }
  }
  if (!(confidence > 0 && confidence < 1)) {
    throw new RangeError(`sdRatio: confidence is ${confidence}, not a probability strictly between 0 and 1`);
  }
  const degrees: [number, number] = [first.n - 1, second.n - 1];
  const ratio = first.sd / second.sd;
  const half = (1 - confidence) / 2;
  const tail = fTail(ratio ** 2, ...degrees);
  return {
    ratio,
    lower: ratio / Math.sqrt(fBeyond(half, ...degrees)),
    upper: ratio / Math.sqrt(fBeyond(1 - half, ...degrees)),
    p: Math.min(1, 2 * Math.min(tail, 1 - tail)),
  };
}

/** P(F > f). Source: Abramowitz & Stegun 26.6.2. */
function fTail(f: number, top: number, bottom: number): number {
  const sum = bottom + top * f;
  const [x, y] = [bottom / sum, (top * f) / sum];
  const [a, b] = [bottom / 2, top / 2];
  const beta = Math.exp(logGamma(a) + logGamma(b) - logGamma(a + b));
  // The continued fraction converges on one side of the middle only.
  return x < (a + 1) / (a + b + 2) ? incompleteBeta(x, y, a, b, beta) : 1 - incompleteBeta(y, x, b, a, beta);
}

/** The f with P(F > f) = tail, by halving the interval of its logarithm: slow, certain, and asked for twice a page. */
function fBeyond(tail: number, top: number, bottom: number): number {
  let low = -60;
  let high = 60;
  for (let step = 0; step < 80; step += 1) {
    const middle = (low + high) / 2;
    if (fTail(Math.exp(middle), top, bottom) > tail) low = middle;
    else high = middle;
  }
  return Math.exp((low + high) / 2);
}
