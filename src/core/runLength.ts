import { type ControlPolicy, defaultControlPolicy, requirePolicy } from './controlPolicy.ts';
import { type RuleId, ruleIds } from './controlRules.ts';
import { requirePositive } from './impossible.ts';
import { normalTail } from './probabilities.ts';
import { chainRunLength, type ZRule } from './runLengthChain.ts';
import { cusumRunLength, ewmaRunLength } from './runLengthIntegral.ts';
import { simulatedRunLength } from './runLengthSimulation.ts';

export interface RunLength {
  /** Mean number of runs up to and with the one at which the first of the rules fires; Infinity beyond `longestKnown`. */
  runs: number;
  /** Of `runs`; 0 where it was computed and not simulated. */
  standardError: number;
  method: 'markov-chain' | 'integral-equation' | 'simulation';
}

/** Of a longer run length the equations have lost every digit, and sign: at weekly runs, twenty billion years. */
const longestKnown = 1e12;

const zRules: readonly RuleId[] = ['1-2s', '1-3s', '2-2s', 'R-4s', '4-1s', '10x'];

function isZRule(rule: RuleId): rule is ZRule {
  return zRules.includes(rule);
}

/**
 * How many runs pass until the first of `rules` fires, on average, after the mean has moved by `shiftSd` SD; at a shift of 0,
 * the runs between false alarms. For a mean and SD known for certain, independent normal runs and rules that start
 * afresh. Own limits of 20 runs are not known for certain: real figures scatter about these.
 * Any set of z-rules by an exact Markov chain, EWMA or CUSUM alone by their integral equations (to about 1e-6), 7T and mixed
 * sets by simulation from a fixed seed.
 * Source: z-rules, Champ & Woodall, Technometrics 29 (1987), 393–399; EWMA, Crowder, Technometrics 29 (1987), 401–407;
 * CUSUM, Page, Biometrika 41 (1954), 100–115, its two sides joined as by Kemp, JRSS B 23 (1961), 149–153.
 * @throws {RangeError} if no rule is named, one is unknown, the shift is not finite, or the policy is impossible.
 * @example averageRunLength(['1-3s'], 1) // 43.9 runs: most of a year of weekly runs
 */
export function averageRunLength(
  rules: readonly RuleId[],
  shiftSd: number,
  policy: ControlPolicy = defaultControlPolicy,
): number {
  return runLength(rules, shiftSd, policy).runs;
}

/**
 * As `averageRunLength`, with the method and the standard error.
 * @throws {RangeError} as `averageRunLength` does.
 */
export function runLength(
  rules: readonly RuleId[],
  shiftSd: number,
  policy: ControlPolicy = defaultControlPolicy,
): RunLength {
  if (rules.length === 0)
    throw new RangeError('averageRunLength: rules is empty, and without a rule nothing ever fires');
  for (const rule of rules) {
    if (!ruleIds.includes(rule))
      throw new RangeError(`averageRunLength: rules holds ${String(rule)}, which is no rule`);
  }
  if (!Number.isFinite(shiftSd)) throw new RangeError(`averageRunLength: shiftSd is ${shiftSd} SD`);
  requirePolicy('averageRunLength', policy);
  const distinct = ruleIds.filter((rule) => rules.includes(rule));
  const exact = distinct.filter(isZRule);
  if (exact.length === distinct.length) {
    return { runs: ifKnown(chainRunLength(exact, shiftSd)), standardError: 0, method: 'markov-chain' };
  }
  if (distinct.length === 1 && distinct[0] === 'EWMA') {
    return {
      runs: ifKnown(ewmaRunLength(policy.ewma, shiftSd)),
      standardError: 0,
      method: 'integral-equation',
    };
  }
  if (distinct.length === 1 && distinct[0] === 'CUSUM') {
    return {
      runs: ifKnown(cusumRunLength(policy.cusum, shiftSd)),
      standardError: 0,
      method: 'integral-equation',
    };
  }
  return { ...simulatedRunLength(distinct, shiftSd, policy), method: 'simulation' };
}

const ifKnown = (runs: number) => (runs >= 1 && runs <= longestKnown ? runs : Number.POSITIVE_INFINITY);

export interface DetectionQuestion {
  rules: readonly RuleId[];
  /** How far the mean has moved, in the unit of `sd`: mL of VA, or mL/min/mmHg of DLCO. */
  shift: number;
  /** The analyzer's own SD. */
  sd: number;
  /** One a week unless given. */
  runsPerWeek?: number | undefined;
  policy?: ControlPolicy | undefined;
}

/**
 * How many weeks pass on average until a shift is noticed.
 * @throws {RangeError} if the SD or the runs a week are not positive, or as `averageRunLength` does.
 * @example weeksUntilNoticed({ rules: ['1-3s'], shift: 36, sd: 36 }) // 43.9: a 36 mL shift on an SD of 36 mL
 */
export function weeksUntilNoticed(question: DetectionQuestion): number {
  const { rules, shift, sd, runsPerWeek = 1, policy } = question;
  requirePositive('weeksUntilNoticed', 'sd', sd, '');
  requirePositive('weeksUntilNoticed', 'runsPerWeek', runsPerWeek, 'a week');
  if (!Number.isFinite(shift)) throw new RangeError(`weeksUntilNoticed: shift is ${shift}`);
  return averageRunLength(rules, shift / sd, policy) / runsPerWeek;
}

/** 365.2425 days of the civil calendar in weeks. */
const weeksInYear = 365.2425 / 7;

/**
 * How many false alarms a year a fleet gives while nothing is wrong: two series (VA, DLCO) an analyzer unless given.
 * @throws {RangeError} if the numbers are not positive, or as `averageRunLength` does.
 * @example falseAlarmsPerYear({ rules: ['1-3s'], analyzers: 6 }) // 1.7
 */
export function falseAlarmsPerYear(fleet: {
  rules: readonly RuleId[];
  analyzers: number;
  seriesPerAnalyzer?: number | undefined;
  runsPerWeek?: number | undefined;
  policy?: ControlPolicy | undefined;
}): number {
  const { rules, analyzers, seriesPerAnalyzer = 2, runsPerWeek = 1, policy } = fleet;
  requirePositive('falseAlarmsPerYear', 'analyzers', analyzers, '');
  requirePositive('falseAlarmsPerYear', 'seriesPerAnalyzer', seriesPerAnalyzer, '');
  requirePositive('falseAlarmsPerYear', 'runsPerWeek', runsPerWeek, 'a week');
  return (analyzers * seriesPerAnalyzer * runsPerWeek * weeksInYear) / averageRunLength(rules, 0, policy);
}

/**
 * How many runs pass on average until one lies outside limits that stand still, such as the published ones, for independent
 * normal runs; all in one unit. One over the probability that a run does; Infinity where that is below the smallest double.
 * @throws {RangeError} if the SD is not positive, or the mean or a limit is not finite or the limits are the wrong way round.
 * @example runsUntilOutside({ mean: 3.217, sd: 0.036, low: 2.7, high: 3.3 }) // 94.7: 3.117 L of mean, and a leak of 100 mL
 */
export function runsUntilOutside(input: { mean: number; sd: number; low: number; high: number }): number {
  const { mean, sd, low, high } = input;
  requirePositive('runsUntilOutside', 'sd', sd, '');
  if (!Number.isFinite(mean)) throw new RangeError(`runsUntilOutside: mean is ${mean}`);
  if (!(Number.isFinite(low) && Number.isFinite(high) && low < high))
    throw new RangeError(`runsUntilOutside: limits are ${low} and ${high}`);
  return 1 / (normalTail((high - mean) / sd) + normalTail((mean - low) / sd));
}
