import { type ControlPolicy, severityOf } from './controlPolicy.ts';
import {
  cusumHighIndex,
  cusumLowIndex,
  ewmaIndex,
  feedRules,
  RuleMemory,
  ruleBits,
  ruleIds,
} from './controlRules.ts';
import {
  failureWasOpen,
  inputAt,
  inputEpoch,
  inputMarks,
  inputValue,
  isBreached,
  isExcluded,
  type JudgedRows,
  type RunInput,
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
import { BaselineLimits, type OwnLimits, RollingLimits } from './ownLimits.ts';
import { predictionFactor } from './statistics.ts';

/**
 * Judges the runs of one series one after another and remembers what the next needs, in constant space. Its callers
 * check that the runs come in time order and that their numbers are finite.
 */
export class SeriesMachine {
  readonly #policy: ControlPolicy;
  #limits: OwnLimits;
  #rules: RuleMemory;
  readonly #activeBits: number;
  readonly #actionBits: number;
  readonly #isSmallSample: boolean;
  /** In time order. */
  #closures: readonly number[];
  #nextClosure = 0;
  /** NaN, which no epoch equals, before the first run. */
  #epoch = Number.NaN;
  #isOpen = false;
  #closedAt = Number.POSITIVE_INFINITY;
  #factorsAreOf = 0;

  constructor(policy: ControlPolicy, closures: readonly number[]) {
    const { baselineSize, minimumSize } = policy;
    this.#policy = policy;
    this.#limits =
      policy.limits === 'baseline'
        ? new BaselineLimits(baselineSize, minimumSize)
        : new RollingLimits(baselineSize, minimumSize);
    this.#rules = new RuleMemory(policy);
    this.#activeBits = ruleBits(ruleIds.filter((rule) => severityOf(rule, policy) !== 'off'));
    this.#actionBits = ruleBits(ruleIds.filter((rule) => severityOf(rule, policy) === 'action'));
    this.#isSmallSample = policy.smallSample;
    this.#closures = [...closures].sort((first, second) => first - second);
  }

  /** A machine that knows the same runs and judges on by itself. */
  copy(): SeriesMachine {
    const copy = new SeriesMachine(this.#policy, []);
    copy.#limits = this.#limits.copy();
    copy.#rules = this.#rules.copy();
    copy.#closures = this.#closures;
    copy.#nextClosure = this.#nextClosure;
    copy.#epoch = this.#epoch;
    copy.#isOpen = this.#isOpen;
    copy.#closedAt = this.#closedAt;
    copy.#factorsAreOf = this.#factorsAreOf;
    return copy;
  }

  /**
   * Judges a run by what was known before it, writes what is found into the row of that index, and gives the bits of
   * `rowFound`.
   */
  judge(input: RunInput, rows: JudgedRows, index: number): number {
    const row = index * rowLength;
    const at = input[inputAt] ?? 0;
    const marks = input[inputMarks] ?? 0;
    const limits = this.#limits;
    if ((marks & isExcluded) !== 0) {
      const found = this.#isOpen && at <= this.#closedAt ? failureWasOpen : 0;
      rows[row + rowN] = limits.n;
      rows[row + rowFound] = found;
      return found;
    }
    if (input[inputEpoch] !== this.#epoch) this.#startEpoch(input[inputEpoch] ?? 0);
    if (this.#isOpen && at > this.#closedAt) this.#endFailure();

    const value = input[inputValue] ?? 0;
    const z = (value - limits.anchor - limits.meanDeviation) / limits.sd;
    let found = 0;
    rows[row + rowN] = limits.n;
    if (!Number.isNaN(z)) {
      const rules = this.#rules;
      if (this.#isSmallSample && limits.n !== this.#factorsAreOf) this.#setFactors(limits.n);
      found = (feedRules(rules, value, z) & this.#activeBits) | wasJudged;
      rows[row + rowMean] = limits.anchor + limits.meanDeviation;
      rows[row + rowSd] = limits.sd;
      rows[row + rowZ] = z;
      rows[row + rowEwma] = rules.reals[ewmaIndex] ?? 0;
      rows[row + rowCusumHigh] = rules.reals[cusumHighIndex] ?? 0;
      rows[row + rowCusumLow] = rules.reals[cusumLowIndex] ?? 0;
    }

    // The first breach or action signal opens a failure; later ones while it is open change nothing.
    const isOut = (marks & isBreached) !== 0 || (found & this.#actionBits) !== 0;
    if (isOut && !this.#isOpen) this.#openFailure(at);
    if (this.#isOpen) {
      found |= failureWasOpen;
    } else {
      found |= wasAccepted;
      limits.accept(value);
    }
    rows[row + rowFound] = found;
    return found;
  }

  #startEpoch(epoch: number): void {
    this.#epoch = epoch;
    this.#limits.restart();
    this.#endFailure();
  }

  #openFailure(at: number): void {
    while ((this.#closures[this.#nextClosure] ?? Number.POSITIVE_INFINITY) < at) this.#nextClosure += 1;
    this.#isOpen = true;
    this.#closedAt = this.#closures[this.#nextClosure] ?? Number.POSITIVE_INFINITY;
  }

  #endFailure(): void {
    this.#isOpen = false;
    this.#closedAt = Number.POSITIVE_INFINITY;
    this.#rules.restart();
  }

  #setFactors(n: number): void {
    this.#factorsAreOf = n;
    this.#rules.setThresholds(predictionFactor(n, 2), predictionFactor(n, 3));
  }
}
