import { severityOf } from './controlPolicy.ts';
import { type RuleId, ruleBits, ruleIds, ruleSpan } from './controlRules.ts';
import {
  failureWasOpen,
  type JudgedRows,
  rowCusumHigh,
  rowCusumLow,
  rowEwma,
  rowFound,
  rowLength,
  rowMean,
  rowN,
  rowSd,
  rowZ,
  wasAccepted,
  wasJudged,
} from './judgedRows.ts';
import { type PolicyHistory, policyAt } from './policySteps.ts';
import { SeriesMachine } from './seriesMachine.ts';

/** One run of one series: one quantity of one analyzer, method and route. */
export interface SeriesPoint {
  id: string;
  /** When the run was made, in ms. */
  at: number;
  /** In the series' unit, which must not change within it. */
  value: number;
  /** Anything other than the run before it begins anew, also a number seen earlier. */
  epoch: number;
  /** Voided, or taken out of the statistics: it takes part in nothing. */
  excluded?: boolean | undefined;
  /** It lies outside a published limit. */
  breached?: boolean | undefined;
}

export interface Signal {
  rule: RuleId;
  severity: 'action' | 'warning';
  /** The runs of the pattern, oldest first; for EWMA and CUSUM the run itself only. */
  ids: readonly string[];
}

/** What was known of a run on its day. Nulls where it could not be judged: too few accepted runs before it, or an SD of 0. */
export interface PointEvaluation {
  id: string;
  /** Accepted earlier runs that the limits in force rest on. */
  n: number;
  mean: number | null;
  sd: number | null;
  z: number | null;
  ewma: number | null;
  cusumHigh: number | null;
  cusumLow: number | null;
  /** In the order of `ruleIds`. */
  signals: readonly Signal[];
  /** It may enter the mean and SD of later runs. */
  accepted: boolean;
  failureOpen: boolean;
}

/**
 * `closures` in any order.
 * @throws {RangeError} naming the caller, if a closure is not finite.
 */
export function createMachine(
  caller: string,
  history: PolicyHistory,
  closures: readonly number[],
): SeriesMachine {
  for (const [index, at] of closures.entries()) {
    if (!Number.isFinite(at)) throw new RangeError(`${caller}: closures[${index}] is ${at} ms`);
  }
  const inTime = [...closures].sort((first, second) => first - second);
  return new SeriesMachine(history, inTime);
}

const noSignals: readonly Signal[] = Object.freeze([]);
const everyRule = ruleBits(ruleIds);

/** Makes objects of the judged rows of one series. */
export class SeriesReader {
  readonly #rows: JudgedRows;
  readonly #history: PolicyHistory;
  readonly #idAt: (index: number) => string;

  constructor(rows: JudgedRows, history: PolicyHistory, idAt: (index: number) => string) {
    this.#rows = rows;
    this.#history = history;
    this.#idAt = idAt;
  }

  isJudged(index: number): boolean {
    return ((this.#rows[index * rowLength + rowFound] ?? 0) & wasJudged) !== 0;
  }

  /** Of the point whose row stands at `index`. */
  evaluation(index: number, point: { id: string; at: number }): PointEvaluation {
    const rows = this.#rows;
    const row = index * rowLength;
    const isJudged = this.isJudged(index);
    const found = rows[row + rowFound] ?? 0;
    return {
      id: point.id,
      n: rows[row + rowN] ?? 0,
      mean: isJudged ? (rows[row + rowMean] ?? null) : null,
      sd: isJudged ? (rows[row + rowSd] ?? null) : null,
      z: isJudged ? (rows[row + rowZ] ?? null) : null,
      ewma: isJudged ? (rows[row + rowEwma] ?? null) : null,
      cusumHigh: isJudged ? (rows[row + rowCusumHigh] ?? null) : null,
      cusumLow: isJudged ? (rows[row + rowCusumLow] ?? null) : null,
      signals: (found & everyRule) === 0 ? noSignals : this.#signals(index, found, point),
      accepted: (found & wasAccepted) !== 0,
      failureOpen: (found & failureWasOpen) !== 0,
    };
  }

  #signals(index: number, found: number, { id, at }: { id: string; at: number }): readonly Signal[] {
    const policy = policyAt(this.#history, at);
    const signals: Signal[] = [];
    for (const [order, rule] of ruleIds.entries()) {
      const severity = severityOf(rule, policy);
      if ((found & (1 << order)) === 0 || severity === 'off') continue;
      signals.push({ rule, severity, ids: this.#judgedIds(index, id, ruleSpan[rule]) });
    }
    return signals;
  }

  /** The `span` judged runs up to `index`, oldest first. That a rule fired there says that they are of one pattern. */
  #judgedIds(index: number, id: string, span: number): readonly string[] {
    const ids = [id];
    for (let earlier = index - 1; earlier >= 0 && ids.length < span; earlier -= 1) {
      if (this.isJudged(earlier)) ids.push(this.#idAt(earlier));
    }
    return ids.reverse();
  }
}
