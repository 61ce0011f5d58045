/**
 * The control rules, as small machines that are fed one judged run after another.
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

/** How many consecutive judged runs a rule's pattern takes in. EWMA and CUSUM name the run itself only; see `Ewma`. */
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
export function ruleBit(rule: RuleId): number {
  return 1 << ruleIds.indexOf(rule);
}

const bit12s = ruleBit('1-2s');
const bit13s = ruleBit('1-3s');
const bit22s = ruleBit('2-2s');
const bitR4s = ruleBit('R-4s');
const bit41s = ruleBit('4-1s');
const bit10x = ruleBit('10x');
const bit7T = ruleBit('7T');
const bitEwma = ruleBit('EWMA');
const bitCusum = ruleBit('CUSUM');

const longestSpan = 10;

/**
 * The seven patterns of z and of values. A count is kept of the consecutive runs beyond 1 SD, on one side of the
 * mean, and rising or falling. Only the two newest z are kept: where 2 and 3 SD stand may differ from run to run, and
 * both are then compared anew.
 */
export class PatternRules {
  #z = 0;
  #value = 0;
  #count = 0;
  #above1 = 0;
  #below1 = 0;
  #above0 = 0;
  #below0 = 0;
  #stepsUp = 0;
  #stepsDown = 0;
  readonly #ids: string[] = Array<string>(longestSpan).fill('');

  /** Forgets every run: at an epoch's start and after a closed failure no pattern may reach back. */
  restart(): void {
    // A first run has no previous one: 0 lies beyond no threshold and makes no step.
    this.#z = 0;
    this.#count = 0;
    this.#above1 = 0;
    this.#below1 = 0;
    this.#above0 = 0;
    this.#below0 = 0;
    this.#stepsUp = 0;
    this.#stepsDown = 0;
  }

  /**
   * Takes in a judged run and gives the bits of the rules that fire at it. `two` and `three` are where 2 and 3 SD
   * stand for this run; 1 SD and 0 do not move with the size of the sample.
   */
  next(id: string, value: number, z: number, two: number, three: number): number {
    const previousZ = this.#z;
    const isStep = this.#count > 0;
    this.#above1 = z > 1 ? this.#above1 + 1 : 0;
    this.#below1 = z < -1 ? this.#below1 + 1 : 0;
    this.#above0 = z > 0 ? this.#above0 + 1 : 0;
    this.#below0 = z < 0 ? this.#below0 + 1 : 0;
    this.#stepsUp = isStep && value > this.#value ? this.#stepsUp + 1 : 0;
    this.#stepsDown = isStep && value < this.#value ? this.#stepsDown + 1 : 0;
    this.#z = z;
    this.#value = value;
    this.#ids[this.#count % longestSpan] = id;
    this.#count += 1;

    let fired = 0;
    if (z > two || z < -two) {
      fired |= bit12s;
      if (z > three || z < -three) fired |= bit13s;
      const isBeyondAbove = previousZ > two;
      const isBeyondBelow = previousZ < -two;
      if (z > 0 ? isBeyondAbove : isBeyondBelow) fired |= bit22s;
      if (z > 0 ? isBeyondBelow : isBeyondAbove) fired |= bitR4s;
    }
    if (this.#above1 >= ruleSpan['4-1s'] || this.#below1 >= ruleSpan['4-1s']) fired |= bit41s;
    if (this.#above0 >= ruleSpan['10x'] || this.#below0 >= ruleSpan['10x']) fired |= bit10x;
    // Seven values make six steps.
    if (this.#stepsUp >= ruleSpan['7T'] - 1 || this.#stepsDown >= ruleSpan['7T'] - 1) fired |= bit7T;
    return fired;
  }

  /** The newest `span` runs taken in, oldest first. */
  newestIds(span: number): readonly string[] {
    const ids: string[] = [];
    for (let index = this.#count - span; index < this.#count; index += 1) {
      ids.push(this.#ids[index % longestSpan] ?? '');
    }
    return ids;
  }
}

/**
 * Exponentially weighted moving average of z: `E = λz + (1 − λ)E`, from 0.
 * Its signal names only the run at which it fires: the memory reaches back over all runs with fading weight, and no
 * run before it is "in" the pattern more than the one before that.
 * Source: NIST/SEMATECH e-Handbook, 6.3.2.4; Roberts, Technometrics 1 (1959), 239–250.
 */
export class Ewma {
  value = 0;
  readonly #lambda: number;
  readonly #bound: number;

  /** `limit` is L: the bound is L standard deviations of E in the long run, √(λ/(2 − λ)) of one run's. */
  constructor(lambda: number, limit: number) {
    this.#lambda = lambda;
    this.#bound = limit * Math.sqrt(lambda / (2 - lambda));
  }

  restart(): void {
    this.value = 0;
  }

  /** Takes in a judged run and gives the rule's bit if it fires at it, otherwise 0. */
  next(z: number): number {
    this.value = this.#lambda * z + (1 - this.#lambda) * this.value;
    return this.value > this.#bound || this.value < -this.#bound ? bitEwma : 0;
  }
}

/**
 * Cumulative sums of z beyond a slack of k SD, upwards and downwards, both reported as positive numbers.
 * The sums go on after a signal: only a closed failure or a new epoch sets them to zero.
 * Source: NIST/SEMATECH e-Handbook, 6.3.2.3; Page, Biometrika 41 (1954), 100–115.
 */
export class Cusum {
  high = 0;
  low = 0;
  readonly #slack: number;
  readonly #decision: number;

  constructor(slack: number, decision: number) {
    this.#slack = slack;
    this.#decision = decision;
  }

  restart(): void {
    this.high = 0;
    this.low = 0;
  }

  /** Takes in a judged run and gives the rule's bit if it fires at it, otherwise 0. */
  next(z: number): number {
    this.high = Math.max(0, this.high + z - this.#slack);
    this.low = Math.max(0, this.low - z - this.#slack);
    return this.high > this.#decision || this.low > this.#decision ? bitCusum : 0;
  }
}
