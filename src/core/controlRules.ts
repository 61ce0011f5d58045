/**
 * The control rules, as small machines that are fed the z of one judged run after another.
 * Names are the trade's own: Westgard, Barry & Hunt, Clin Chem 1981;27:493. R-4s is there within one run of two
 * controls, here across two consecutive runs of the one control.
 */

export type RuleId = '1-2s' | '1-3s' | '2-2s' | 'R-4s' | '4-1s' | '10x' | '7T' | 'EWMA' | 'CUSUM';

export type RuleSeverity = 'action' | 'warning' | 'off';

/** The rules in the order in which they are listed everywhere. */
export const ruleIds: readonly RuleId[] = [
  '1-2s',
  '1-3s',
  '2-2s',
  'R-4s',
  '4-1s',
  '10x',
  '7T',
  'EWMA',
  'CUSUM',
];

/** How many consecutive judged runs a rule's pattern takes in. EWMA and CUSUM name the run itself only; see `feedEwma`. */
export const ruleSpan: Readonly<Record<RuleId, number>> = {
  '1-2s': 1,
  '1-3s': 1,
  '2-2s': 2,
  'R-4s': 2,
  '4-1s': 4,
  '10x': 10,
  '7T': 7,
  EWMA: 1,
  CUSUM: 1,
};

/** A set of rules as the bits of one number, so that the common run, at which nothing fires, costs one comparison. */
export function ruleBits(rules: readonly RuleId[]): number {
  return rules.reduce((bits, rule) => bits | (1 << ruleIds.indexOf(rule)), 0);
}

const bit12s = ruleBits(['1-2s']);
const bit13s = ruleBits(['1-3s']);
const bit22s = ruleBits(['2-2s']);
const bitR4s = ruleBits(['R-4s']);
const bit41s = ruleBits(['4-1s']);
const bit10x = ruleBits(['10x']);
const bit7T = ruleBits(['7T']);
const bitEwma = ruleBits(['EWMA']);
const bitCusum = ruleBits(['CUSUM']);

/** Where the thresholds of the rules stand. */
export interface RuleSettings {
  ewma: { lambda: number; limit: number };
  cusum: { slack: number; decision: number };
}

/**
 * How far from 0 the EWMA of z may go, in SD: L standard deviations of the average in the long run, each √(λ/(2 − λ)) of
 * one run's.
 * Source: NIST/SEMATECH e-Handbook, 6.3.2.4.
 * @example ewmaLimit({ lambda: 0.3, limit: 3 }) // 1.2603: the handbook's 52.5884 is 50 + 1.2603 · 2.0539
 */
export function ewmaLimit({ lambda: weight, limit }: RuleSettings['ewma']): number {
  return limit * Math.sqrt(weight / (2 - weight));
}

/**
 * What the rules remember from run to run, and where they are set. Typed arrays: numbers kept in the fields of an
 * object, or handed from function to function, made a series three times as slow to judge.
 */
export class RuleMemory {
  /** Consecutive runs beyond 1 SD, on one side of the mean, and rising or falling: see the indices below. */
  readonly counts = new Int32Array(6);
  /** Runs and settings: see the indices below. */
  readonly reals = new Float64Array(11);
  readonly #settings: RuleSettings;

  constructor(settings: RuleSettings) {
    const { ewma, cusum } = settings;
    this.#settings = settings;
    this.restart();
    this.reals[twoSd] = 2;
    this.reals[threeSd] = 3;
    this.reals[lambda] = ewma.lambda;
    this.reals[ewmaBound] = ewmaLimit(ewma);
    this.reals[slack] = cusum.slack;
    this.reals[decision] = cusum.decision;
  }

  /** Forgets every run, but not the settings: at an epoch's start and after a closed failure no pattern may reach back. */
  restart(): void {
    this.counts.fill(0);
    // A first run has no run before it: NaN lies beyond no threshold and makes no step.
    this.reals[newestZ] = Number.NaN;
    this.reals[newestValue] = Number.NaN;
    this.reals[ewmaIndex] = 0;
    this.reals[cusumHighIndex] = 0;
    this.reals[cusumLowIndex] = 0;
  }

  copy(): RuleMemory {
    const copy = new RuleMemory(this.#settings);
    copy.counts.set(this.counts);
    copy.reals.set(this.reals);
    return copy;
  }

  /** Where 2 and 3 SD stand from the next run on, in sample SDs. */
  setThresholds(two: number, three: number): void {
    this.reals[twoSd] = two;
    this.reals[threeSd] = three;
  }
}

const above1 = 0;
const below1 = 1;
const above0 = 2;
const below0 = 3;
const stepsUp = 4;
const stepsDown = 5;

const newestZ = 0;
const newestValue = 1;
export const ewmaIndex = 2;
export const cusumHighIndex = 3;
export const cusumLowIndex = 4;
const twoSd = 5;
const threeSd = 6;
const lambda = 7;
const ewmaBound = 8;
const slack = 9;
const decision = 10;

/**
 * Feeds a judged run to every rule and gives the bits of those that fire at it.
 * 1-2s … R-4s compare this and the newest earlier z with where 2 and 3 SD stand now; only that z is kept, because the
 * thresholds may move from run to run. 1 SD and 0 do not move with the size of the sample.
 */
export function feedRules({ counts, reals }: RuleMemory, value: number, z: number): number {
  const two = reals[twoSd] ?? 0;
  let fired = 0;
  if (z > two || z < -two) {
    const three = reals[threeSd] ?? 0;
    const earlierZ = reals[newestZ] ?? 0;
    fired |= bit12s;
    if (z > three || z < -three) fired |= bit13s;
    if (z > 0 ? earlierZ > two : earlierZ < -two) fired |= bit22s;
    if (z > 0 ? earlierZ < -two : earlierZ > two) fired |= bitR4s;
  }
  const earlierValue = reals[newestValue] ?? 0;
  if ((countOn(counts, above1, z > 1) | countOn(counts, below1, z < -1)) >= 4) fired |= bit41s;
  if ((countOn(counts, above0, z > 0) | countOn(counts, below0, z < 0)) >= 10) fired |= bit10x;
  // Seven values make six steps.
  const up = countOn(counts, stepsUp, value > earlierValue);
  if ((up | countOn(counts, stepsDown, value < earlierValue)) >= 6) fired |= bit7T;
  reals[newestZ] = z;
  reals[newestValue] = value;
  return fired | feedEwma(reals) | feedCusum(reals);
}

/**
 * One more when `goesOn`, otherwise 0: by a mask, since a branch on which side of the mean a run lies cannot be
 * foreseen. Of the two sides of a pair one is always 0, so that `|` gives the other.
 */
function countOn(counts: Int32Array, index: number, goesOn: boolean): number {
  const count = ((counts[index] ?? 0) + 1) & -goesOn;
  counts[index] = count;
  return count;
}

/**
 * Exponentially weighted moving average of z, `E = λz + (1 − λ)E` from 0. Its signal names only the run at which it
 * fires: the memory reaches back over all runs with fading weight, and no earlier run is "in" the pattern more than the
 * one before that.
 * Source: NIST/SEMATECH e-Handbook, 6.3.2.4; Roberts, Technometrics 1 (1959), 239–250.
 */
function feedEwma(reals: Float64Array): number {
  const z = reals[newestZ] ?? 0;
  const weight = reals[lambda] ?? 0;
  const bound = reals[ewmaBound] ?? 0;
  const average = weight * z + (1 - weight) * (reals[ewmaIndex] ?? 0);
  reals[ewmaIndex] = average;
  return average > bound || average < -bound ? bitEwma : 0;
}

/**
 * Cumulative sums of z beyond a slack, upwards and downwards, both kept as positive numbers of SD. They go on after a signal.
 * Source: NIST/SEMATECH e-Handbook, 6.3.2.3; Page, Biometrika 41 (1954), 100–115.
 */
function feedCusum(reals: Float64Array): number {
  const z = reals[newestZ] ?? 0;
  const k = reals[slack] ?? 0;
  const h = reals[decision] ?? 0;
  const high = Math.max(0, (reals[cusumHighIndex] ?? 0) + z - k);
  const low = Math.max(0, (reals[cusumLowIndex] ?? 0) - z - k);
  reals[cusumHighIndex] = high;
  reals[cusumLowIndex] = low;
  return high > h || low > h ? bitCusum : 0;
}
