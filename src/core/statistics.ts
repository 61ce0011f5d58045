import { tQuantile } from './quantiles.ts';

/**
 * Arithmetic mean in the unit of `values`; undefined for no values.
 * Running form about the first value: a plain sum loses the spread when the mean is large against it.
 * @throws {RangeError} if a value is not finite.
 * @example mean([49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1]) // 50.81 (NIST handbook 6.3.2.2)
 */
export function mean(values: readonly number[]): number | undefined {
  const moments = momentsOf('mean', values);
  return moments.count === 0 ? undefined : moments.mean;
}

/**
 * Sample standard deviation (divisor n − 1) in the unit of `values`; undefined for fewer than two values.
 * Source: Welford, Technometrics 4(3), 1962, 419–420, on deviations from the first value, which are exact for
 * values that lie close together.
 * @throws {RangeError} if a value is not finite.
 * @example sampleSd([1, 2, 3, 4, 5]) // 1.5811388300841898
 */
export function sampleSd(values: readonly number[]): number | undefined {
  const moments = momentsOf('sampleSd', values);
  return moments.count < 2 ? undefined : moments.sd;
}

/** Mean and sample SD of a growing set, in constant time and space for each value. */
export class RunningMoments {
  count = 0;
  /** The first value. */
  anchor = 0;
  /** Mean less the anchor. */
  meanDeviation = 0;
  #squares = 0;

  /** The caller sees to it that `value` is finite. */
  add(value: number): void {
    if (this.count === 0) this.anchor = value;
    this.count += 1;
    const deviation = value - this.anchor;
    const delta = deviation - this.meanDeviation;
    this.meanDeviation += delta / this.count;
    this.#squares += delta * (deviation - this.meanDeviation);
  }

  copy(): RunningMoments {
    const copy = new RunningMoments();
    copy.count = this.count;
    copy.anchor = this.anchor;
    copy.meanDeviation = this.meanDeviation;
    copy.#squares = this.#squares;
    return copy;
  }

  /** Meaningless while `count` is 0. */
  get mean(): number {
    return this.anchor + this.meanDeviation;
  }

  /** Divisor n − 1; meaningless while `count` is below 2. */
  get sd(): number {
    return Math.sqrt(this.#squares / (this.count - 1));
  }
}

function momentsOf(caller: string, values: readonly number[]): RunningMoments {
  const moments = new RunningMoments();
  for (const [index, value] of values.entries()) {
    if (!Number.isFinite(value)) throw new RangeError(`${caller}: values[${index}] is ${value}`);
    moments.add(value);
  }
  return moments;
}

/** One-sided normal tails beyond 2 and 3 SD: 1 − Φ(2), 1 − Φ(3). Source: any normal table; digits from 40-digit arithmetic. */
const normalTail = { 2: 0.02275013194817921, 3: 0.0013498980316300946 } as const;

/**
 * How many sample SDs from the mean of `n` earlier runs a limit must stand, so that a good next run falls outside as
 * seldom as it would outside 2 or 3 SD of a mean and SD known for certain: `t(n − 1; 1 − α/2) · √(1 + 1/n)`.
 * Tends to `sigmas` as n grows. Source: prediction interval for one future observation, Hahn & Meeker, Statistical
 * Intervals (1991), section 4.7.
 * @throws {RangeError} if n is not a whole number of at least 2, or sigmas neither 2 nor 3.
 * @example predictionFactor(10, 3) // 4.294; predictionFactor(20, 3) // 3.532
 */
export function predictionFactor(n: number, sigmas: 2 | 3): number {
  if (!Number.isSafeInteger(n) || n < 2)
    throw new RangeError(`predictionFactor: n is ${n} runs, not a whole number of 2 or more`);
  if (sigmas !== 2 && sigmas !== 3)
    throw new RangeError(`predictionFactor: sigmas is ${String(sigmas)} SD, not 2 or 3`);
  const place = 2 * n + sigmas - 2;
  factors[place] ??= -tQuantile(normalTail[sigmas], n - 1) * Math.sqrt(1 + 1 / n);
  return factors[place];
}

/** A quantile costs more than all else that judging a run does, and the same few are asked for again and again. */
const factors: number[] = [];

/** d2 of two observations, 2/√π, as control-chart tables print it. Source: NIST/SEMATECH e-Handbook, 6.3.2.2. */
const movingRangeD2 = 1.128;

/**
 * SD estimated from the mean difference of neighbours, in the unit of `values`: mean moving range / 1.128. Undefined
 * for fewer than two values. A drift or step inflates it far less than the sample SD, so that the two together tell
 * scatter from movement.
 * Source: NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2.
 * @throws {RangeError} if a value is not finite.
 * @example movingRangeSigma([49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1]) // 1.8778 / 1.128 = 1.6647
 */
export function movingRangeSigma(values: readonly number[]): number | undefined {
  let sum = 0;
  let previous: number | undefined;
  for (const [index, value] of values.entries()) {
    if (!Number.isFinite(value)) throw new RangeError(`movingRangeSigma: values[${index}] is ${value}`);
    if (previous !== undefined) sum += Math.abs(value - previous);
    previous = value;
  }
  return values.length < 2 ? undefined : sum / (values.length - 1) / movingRangeD2;
}
