import { mean, sampleSd } from './statistics.ts';
import { coefficientOfVariation } from './variation.ts';
import type { VerdictWord } from './verdict.ts';

export interface VerdictCounts {
  passed: number;
  warned: number;
  failed: number;
  notJudged: number;
  /** Passed of judged; null where none was. A warned run is not among the passed. */
  passRate: number | null;
}

/**
 * How many runs or controls came out how; null stands for one without a verdict, such as an imported run.
 * @example countVerdicts(['pass', 'pass', 'warn', 'fail', null]).passRate // 0.5
 */
export function countVerdicts(words: readonly (VerdictWord | null)[]): VerdictCounts {
  const count = (word: VerdictWord | null) => words.filter((one) => one === word).length;
  const notJudged = count(null);
  const judged = words.length - notJudged;
  const passed = count('pass');
  return {
    passed,
    warned: count('warn'),
    failed: count('fail'),
    notJudged,
    passRate: judged === 0 ? null : passed / judged,
  };
}

export interface SeriesSummary {
  n: number;
  /** In the unit of the values; null for none, and SD for fewer than two. */
  mean: number | null;
  sd: number | null;
  /** A fraction; null for fewer than two, and unless all are above 0. Of what lies about 0, such as a simulated DLCO, it says nothing. */
  cv: number | null;
  /** How many SD from the mean the published limits stand; negative below it. Null without limits or an SD above 0. */
  lowLimitSd: number | null;
  highLimitSd: number | null;
}

/**
 * What the values of one series in a period come to, and where published limits stand against their own spread: limits that stand far
 * outside find little.
 * @throws {RangeError} if a value or a limit is not finite.
 * @example of a year of mean 3.117 and SD 0.036 L the limits 2.7 and 3.3 L stand at −11.6 and +5.1 SD
 */
export function summarizeSeries(
  values: readonly number[],
  published: { low: number; high: number } | null = null,
): SeriesSummary {
  const middle = mean(values) ?? null;
  const sd = sampleSd(values) ?? null;
  const cv = values.every((value) => value > 0) ? (coefficientOfVariation(values) ?? null) : null;
  const distance = (limit: number) =>
    middle === null || sd === null || sd === 0 ? null : (limit - middle) / sd;
  if (published !== null && !(Number.isFinite(published.low) && Number.isFinite(published.high))) {
    throw new RangeError(`summarizeSeries: published limits are ${published.low} and ${published.high}`);
  }
  return {
    n: values.length,
    mean: middle,
    sd,
    cv,
    lowLimitSd: published === null ? null : distance(published.low),
    highLimitSd: published === null ? null : distance(published.high),
  };
}
