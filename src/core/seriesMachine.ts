import { type ControlPolicy, isSamePolicy, severityOf } from './controlPolicy.ts';
import {
  cusumHighIndex,
  cusumLowIndex,
  ewmaIndex,
  feedRules,
  RuleMemory,
  type RuleSeverity,
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
import { LimitsInTurn } from './limitsInTurn.ts';
import type { OwnLimits } from './ownLimits.ts';
import type { PolicyHistory } from './policySteps.ts';
import { predictionFactor } from './statistics.ts';

/**
 * Judges the runs of one series one after another and remembers what the next needs, in constant space. Its callers
 * check that the runs come in time order and that their numbers are finite.
 */
export class SeriesMachine {
  readonly #history: PolicyHistory;
  readonly #closures: readonly number[];
  readonly #limitsInTurn: LimitsInTurn;
  // Of the policy in force, each in a field of its own: behind one more object they are a tenth slower to judge by.
  #policy: ControlPolicy;
  #limits: OwnLimits;
  #rules: RuleMemory;
  #activeBits: number;
  #actionBits: number;
  #isSmallSample: boolean;
  #factorsAreOf = 0;
  /** The place in the history that the newest run was judged at, and when the next one begins. */
  #place = 0;
  #nextBegins: number;
  #isPolicyToCome: boolean;
  /** What later policies will judge by. */
  #waiting: readonly OwnLimits[];
  #nextClosure = 0;
  /** NaN, which no epoch equals, before the first run. */
  #epoch = Number.NaN;
  #isOpen = false;
  #closedAt = Number.POSITIVE_INFINITY;

  /** `closures` in time order. */
  constructor(history: PolicyHistory, closures: readonly number[], limits = LimitsInTurn.of(history)) {
    this.#history = history;
    this.#closures = closures;
    this.#limitsInTurn = limits;
    this.#policy = history[0].policy;
    this.#limits = limits.at(0);
    this.#rules = new RuleMemory(this.#policy);
    this.#activeBits = bitsOf(this.#policy, ['action', 'warning']);
    this.#actionBits = bitsOf(this.#policy, ['action']);
    this.#isSmallSample = this.#policy.smallSample;
    this.#nextBegins = beginningOf(history, 1);
    this.#isPolicyToCome = history.length > 1;
    this.#waiting = limits.waitingAt(0);
  }

  /** A machine that knows the same runs and judges on by itself. */
  copy(): SeriesMachine {
    const limits = this.#limitsInTurn.copy();
    const copy = new SeriesMachine(this.#history, this.#closures, limits);
    copy.#policy = this.#policy;
    copy.#limits = limits.at(this.#place);
    copy.#rules = this.#rules.copy();
    copy.#activeBits = this.#activeBits;
    copy.#actionBits = this.#actionBits;
    copy.#isSmallSample = this.#isSmallSample;
    copy.#factorsAreOf = this.#factorsAreOf;
    copy.#place = this.#place;
    copy.#nextBegins = this.#nextBegins;
    copy.#isPolicyToCome = this.#isPolicyToCome;
    copy.#waiting = limits.waitingAt(this.#place);
    copy.#nextClosure = this.#nextClosure;
    copy.#epoch = this.#epoch;
    copy.#isOpen = this.#isOpen;
    copy.#closedAt = this.#closedAt;
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
    if ((marks & isExcluded) !== 0) {
      const found = this.#isOpen && at <= this.#closedAt ? failureWasOpen : 0;
      rows[row + rowN] = this.#limits.n;
      rows[row + rowFound] = found;
      return found;
    }
    if (this.#isPolicyToCome && at >= this.#nextBegins) this.#changePolicy(at);
    if (input[inputEpoch] !== this.#epoch) this.#startEpoch(input[inputEpoch] ?? 0);
    if (this.#isOpen && at > this.#closedAt) this.#endFailure();

    const limits = this.#limits;
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
      if (this.#isPolicyToCome) this.#feedWaiting(value);
    }
    rows[row + rowFound] = found;
    return found;
  }

  /**
   * Asked of the policies that runs were judged by: one that came and went between two runs has left no trace. Patterns begin
   * anew, since they would otherwise hold z of two kinds; a failure stays open until a supervisor closes it, whatever rule opened it.
   */
  #changePolicy(at: number): void {
    while (beginningOf(this.#history, this.#place + 1) <= at) this.#place += 1;
    this.#nextBegins = beginningOf(this.#history, this.#place + 1);
    this.#isPolicyToCome = this.#place + 1 < this.#history.length;
    this.#waiting = this.#limitsInTurn.waitingAt(this.#place);
    const policy = this.#history[this.#place]?.policy;
    if (policy === undefined || isSamePolicy(policy, this.#policy)) return;
    this.#policy = policy;
    this.#limits = this.#limitsInTurn.at(this.#place);
    this.#rules = new RuleMemory(policy);
    this.#activeBits = bitsOf(policy, ['action', 'warning']);
    this.#actionBits = bitsOf(policy, ['action']);
    this.#isSmallSample = policy.smallSample;
    this.#factorsAreOf = 0;
  }

  #feedWaiting(value: number): void {
    for (const limits of this.#waiting) limits.accept(value);
  }

  #startEpoch(epoch: number): void {
    this.#epoch = epoch;
    this.#limits.restart();
    for (const each of this.#waiting) each.restart();
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

function bitsOf(policy: ControlPolicy, severities: readonly RuleSeverity[]): number {
  return ruleBits(ruleIds.filter((rule) => severities.includes(severityOf(rule, policy))));
}

/** Infinity for a policy after the last. */
function beginningOf(history: PolicyHistory, place: number): number {
  return history[place]?.from ?? Number.POSITIVE_INFINITY;
}
