/** When a step began, and how sharply the runs tell it. Indices are those of the z given. */
export interface ChangePoint {
  /** The first run after the step: where a step explains the runs best. */
  firstChangedIndex: number;
  /** Mean z from there on: the size of the step in SD. */
  shiftSd: number;
  /** The earliest and latest first runs that the data speak against by no more than a factor of e² (7.4) in likelihood. */
  earliestPlausibleIndex: number;
  latestPlausibleIndex: number;
  /** How many times as likely, as a natural logarithm, the step makes the runs as no step would. */
  logLikelihoodGain: number;
}

/** Below this gain (a factor of 7.4) no step is claimed, and start points this much worse than the best are still plausible. */
export const logLikelihoodStep = 2;

/**
 * The step that explains a stretch of z best: before it the mean is 0, as z is made, from it on any other. Null where
 * no step explains the runs 7.4 times as well as none, so also for no runs.
 * After a signal it says when the fault is likely to have begun, which is earlier than when it was noticed.
 * Method: maximum likelihood for a step in a normal mean, SD 1 on both sides: the start at which (number of runs from there
 * on) · (their mean z)² is greatest. Of equal ones the latest, which claims least.
 * Source: Samuel, Pignatiello & Calvin, Identifying the time of a step change with X̄ control charts, Quality Engineering
 * 10 (1998), 521–527; likelihood support of 2, Edwards, Likelihood (1972).
 * @throws {RangeError} if a z is not finite.
 * @example changePoint([0.2, -0.4, 0.1, 2.9, 3.2])?.firstChangedIndex // 3
 */
export function changePoint(z: readonly number[]): ChangePoint | null {
  const gains = gainsByStart(z);
  let best = -1;
  let bestGain = logLikelihoodStep;
  for (let start = z.length - 1; start >= 0; start -= 1) {
    const gain = gains[start] ?? 0;
    if (gain > bestGain) {
      best = start;
      bestGain = gain;
    }
  }
  if (best < 0) return null;
  const isPlausible = (gain: number) => bestGain - gain <= logLikelihoodStep;
  return {
    firstChangedIndex: best,
    shiftSd: tailMean(z, best),
    earliestPlausibleIndex: gains.findIndex(isPlausible),
    latestPlausibleIndex: gains.findLastIndex(isPlausible),
    logLikelihoodGain: bestGain,
  };
}

/** By how much, in ln likelihood, a step at each index is better than none. */
function gainsByStart(z: readonly number[]): Float64Array {
  const gains = new Float64Array(z.length);
  let sum = 0;
  for (let start = z.length - 1; start >= 0; start -= 1) {
    const value = z[start] ?? Number.NaN;
    if (!Number.isFinite(value)) throw new RangeError(`changePoint: z[${start}] is ${value} SD`);
    sum += value;
    gains[start] = (sum * sum) / (2 * (z.length - start));
  }
  return gains;
}

function tailMean(z: readonly number[], start: number): number {
  let sum = 0;
  for (let index = start; index < z.length; index += 1) sum += z[index] ?? 0;
  return sum / (z.length - start);
}

/** When a steady drift began. */
export interface DriftStart {
  /** The first run of the drift: its z is one slope from 0, the next two, and so on. */
  firstChangedIndex: number;
  /** By how many SD a run the mean moves. */
  slopeSd: number;
  /** How many times as likely, as a natural logarithm, the drift makes the runs as no change would. */
  logLikelihoodGain: number;
}

/**
 * The steady drift that explains a stretch of z best: before it the mean is 0, from it on each run adds the same. Null where no
 * drift explains the runs 7.4 times as well as none. A fault that grows, such as a leak that opens, is dated too late by
 * `changePoint`, which takes it for a step at about the middle of its way.
 * Method: maximum likelihood for a line from 0 in a normal mean, SD 1 throughout: the start at which
 * (Σ k · z)² / Σ k² is greatest, k = 1, 2, … from there on. Of equal ones the latest, which claims least.
 * Source: Perry & Pignatiello, Estimation of the change point of a normal process mean with a linear trend disturbance,
 * Quality Technology & Quantitative Management 3 (2006), 325–334 (recalled).
 * @throws {RangeError} if a z is not finite.
 * @example driftStart([0, 0, 0, 1, 2, 3]) // { firstChangedIndex: 3, slopeSd: 1, logLikelihoodGain: 7 }
 */
export function driftStart(z: readonly number[]): DriftStart | null {
  let best: DriftStart | null = null;
  // From start to start both sums are those of the one after it, each run's k raised by one.
  let sum = 0;
  let weighted = 0;
  for (let start = z.length - 1; start >= 0; start -= 1) {
    const value = z[start] ?? Number.NaN;
    if (!Number.isFinite(value)) throw new RangeError(`driftStart: z[${start}] is ${value} SD`);
    sum += value;
    weighted += sum;
    const runs = z.length - start;
    const squares = (runs * (runs + 1) * (2 * runs + 1)) / 6;
    const logLikelihoodGain = (weighted * weighted) / (2 * squares);
    if (logLikelihoodGain > (best?.logLikelihoodGain ?? logLikelihoodStep)) {
      best = { firstChangedIndex: start, slopeSd: weighted / squares, logLikelihoodGain };
    }
  }
  return best;
}
