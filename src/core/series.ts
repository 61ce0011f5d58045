import { type ControlPolicy, requirePolicy, severityOf } from './controlPolicy.ts';
import { Cusum, Ewma, PatternRules, type RuleId, ruleBit, ruleIds, ruleSpan } from './controlRules.ts';
import { BaselineLimits, type OwnLimits, RollingLimits } from './ownLimits.ts';
import { predictionFactor } from './statistics.ts';

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

const noSignals: readonly Signal[] = Object.freeze([]);

/**
 * Judges the runs of one series, each by what was known before it, in one pass and in constant time for a run.
 * A failure opens at the first action signal or breached published limit; it ends with the first of `closures` (ms, in
 * any order) that is not before it, and runs later than that are judged afresh: patterns, EWMA and CUSUM begin again,
 * the baseline stays. A new epoch begins everything again.
 * Source: domain rules of this project; the rules' own sources stand in controlRules.ts.
 * @throws {RangeError} if the points are not in time order, or a number, a closure or the policy is impossible.
 * @example twenty runs of mean 3.117 and SD 0.036 L, then 3.37 L: z = 7.0, rule 1-3s, a failure opens
 */
export function evaluateSeries(
  points: readonly SeriesPoint[],
  policy: ControlPolicy,
  closures: readonly number[] = [],
): readonly PointEvaluation[] {
  const evaluator = createSeriesEvaluator(policy, closures);
  return points.map((point) => evaluator.next(point));
}

export interface SeriesEvaluator {
  /** Judges the next run. What it gives is what `evaluateSeries` gives for that run within the whole series. */
  next(point: SeriesPoint): PointEvaluation;
  /**
   * Makes a supervisor's closure known, in ms.
   * @throws {RangeError} if it is earlier than the newest run: runs already judged would have to be judged again.
   */
  close(at: number): void;
}

/**
 * The evaluation of a series that is not yet at its end: constant time for every further run.
 * @throws {RangeError} if the policy or a closure is impossible.
 */
export function createSeriesEvaluator(
  policy: ControlPolicy,
  closures: readonly number[] = [],
): SeriesEvaluator {
  requirePolicy('evaluateSeries', policy);
  for (const [index, at] of closures.entries()) {
    if (!Number.isFinite(at)) throw new RangeError(`evaluateSeries: closures[${index}] is ${at} ms`);
  }
  return new StreamingEvaluator(policy, closures);
}

class StreamingEvaluator implements SeriesEvaluator {
  readonly #limits: OwnLimits;
  readonly #patterns = new PatternRules();
  readonly #ewma: Ewma;
  readonly #cusum: Cusum;
  readonly #severities: readonly ('action' | 'warning' | 'off')[];
  readonly #activeBits: number;
  readonly #actionBits: number;
  readonly #isSmallSample: boolean;
  readonly #closures: number[];
  #nextClosure = 0;
  #hasEpoch = false;
  #epoch = 0;
  #lastAt = Number.NEGATIVE_INFINITY;
  #isOpen = false;
  #openedAt = 0;
  #closedAt = Number.POSITIVE_INFINITY;
  #factorsAreOf = 0;
  #two = 2;
  #three = 3;

  constructor(policy: ControlPolicy, closures: readonly number[]) {
    const { baselineSize, minimumSize } = policy;
    this.#limits =
      policy.limits === 'baseline'
        ? new BaselineLimits(baselineSize, minimumSize)
        : new RollingLimits(baselineSize, minimumSize);
    this.#ewma = new Ewma(policy.ewma.lambda, policy.ewma.limit);
    this.#cusum = new Cusum(policy.cusum.slack, policy.cusum.decision);
    this.#severities = ruleIds.map((rule) => severityOf(rule, policy));
    this.#activeBits = bitsOf(ruleIds.filter((rule) => severityOf(rule, policy) !== 'off'));
    this.#actionBits = bitsOf(ruleIds.filter((rule) => severityOf(rule, policy) === 'action'));
    this.#isSmallSample = policy.smallSample;
    this.#closures = [...closures].sort((first, second) => first - second);
  }

  next(point: SeriesPoint): PointEvaluation {
    const { id, at, value } = point;
    this.#check(point);
    this.#lastAt = at;
    if (point.excluded === true) return this.#unjudged(id, this.#isOpen && at <= this.#closedAt);

    if (point.epoch !== this.#epoch || !this.#hasEpoch) this.#startEpoch(point.epoch);
    if (this.#isOpen && at > this.#closedAt) this.#endFailure();

    const { n, mean, sd } = this.#limits;
    const isBreached = point.breached === true;
    if (mean === null || sd === null) {
      if (isBreached) this.#openFailure(at);
      const accepted = !this.#isOpen;
      const evaluation = this.#unjudged(id, this.#isOpen, accepted);
      if (accepted) this.#limits.accept(value);
      return evaluation;
    }

    const z = (value - mean) / sd;
    if (this.#isSmallSample && n !== this.#factorsAreOf) this.#setFactors(n);
    const fired =
      (this.#patterns.next(id, value, z, this.#two, this.#three) | this.#ewma.next(z) | this.#cusum.next(z)) &
      this.#activeBits;
    if (isBreached || (fired & this.#actionBits) !== 0) this.#openFailure(at);
    const accepted = !this.#isOpen;
    if (accepted) this.#limits.accept(value);
    return {
      id,
      n,
      mean,
      sd,
      z,
      ewma: this.#ewma.value,
      cusumHigh: this.#cusum.high,
      cusumLow: this.#cusum.low,
      signals: fired === 0 ? noSignals : this.#signals(fired),
      accepted,
      failureOpen: this.#isOpen,
    };
  }

  close(at: number): void {
    if (!(at >= this.#lastAt && at < Number.POSITIVE_INFINITY)) {
      throw new RangeError(`close: at is ${at} ms, not at or after the newest run, ${this.#lastAt} ms`);
    }
    const later = this.#closures.findIndex((closure) => closure > at);
    this.#closures.splice(later === -1 ? this.#closures.length : later, 0, at);
    if (this.#isOpen) this.#closedAt = Math.min(this.#closedAt, at);
  }

  #check(point: SeriesPoint): void {
    const { id, at, value, epoch } = point;
    if (!(at >= this.#lastAt && at < Number.POSITIVE_INFINITY)) {
      const reason = Number.isFinite(at) ? `, earlier than the run before it, ${this.#lastAt} ms` : '';
      throw new RangeError(`evaluateSeries: at of point ${id} is ${at} ms${reason}`);
    }
    if (!Number.isFinite(value)) throw new RangeError(`evaluateSeries: value of point ${id} is ${value}`);
    if (!Number.isFinite(epoch)) throw new RangeError(`evaluateSeries: epoch of point ${id} is ${epoch}`);
  }

  #unjudged(id: string, failureOpen: boolean, accepted = false): PointEvaluation {
    return {
      id,
      n: this.#limits.n,
      mean: null,
      sd: null,
      z: null,
      ewma: null,
      cusumHigh: null,
      cusumLow: null,
      signals: noSignals,
      accepted,
      failureOpen,
    };
  }

  #startEpoch(epoch: number): void {
    this.#hasEpoch = true;
    this.#epoch = epoch;
    this.#limits.restart();
    this.#endFailure();
  }

  /** The first signal or breach opens it; later ones while it is open change nothing. */
  #openFailure(at: number): void {
    if (this.#isOpen) return;
    this.#isOpen = true;
    this.#openedAt = at;
    while ((this.#closures[this.#nextClosure] ?? Number.POSITIVE_INFINITY) < this.#openedAt)
      this.#nextClosure += 1;
    this.#closedAt = this.#closures[this.#nextClosure] ?? Number.POSITIVE_INFINITY;
  }

  #endFailure(): void {
    this.#isOpen = false;
    this.#closedAt = Number.POSITIVE_INFINITY;
    this.#patterns.restart();
    this.#ewma.restart();
    this.#cusum.restart();
  }

  #setFactors(n: number): void {
    this.#factorsAreOf = n;
    this.#two = predictionFactor(n, 2);
    this.#three = predictionFactor(n, 3);
  }

  #signals(fired: number): readonly Signal[] {
    const signals: Signal[] = [];
    for (const [index, rule] of ruleIds.entries()) {
      const severity = this.#severities[index];
      if ((fired & (1 << index)) === 0 || severity === undefined || severity === 'off') continue;
      signals.push({ rule, severity, ids: this.#patterns.newestIds(ruleSpan[rule]) });
    }
    return signals;
  }
}

function bitsOf(rules: readonly RuleId[]): number {
  return rules.reduce((bits, rule) => bits | ruleBit(rule), 0);
}
