/**
 * Judged runs as rows of numbers, four a run. An object for each of 100,000 runs costs more than all that is computed of
 * them, and every further number in a row is memory that a million runs must find: so limits, which stay the same from run
 * to run, are written down once in a ledger and named by their place there, and z is worked out again when it is read.
 */
export interface JudgedRows {
  readonly rows: Float64Array;
  readonly ledger: LimitsLedger;
}

export const rowLength = 4;

/** Places within a row. EWMA and CUSUM mean nothing unless the run was judged by own limits. */
export const rowEwma = 0;
export const rowCusumHigh = 1;
export const rowCusumLow = 2;
/** Place of the limits in the ledger times `ledgerUnit`, and below that the bits of what was found. */
export const rowFound = 3;

/** The bits of what was found: the rules that fired and are not off, as `ruleBits` numbers them, and these. */
export const wasJudged = 1 << 9;
export const wasAccepted = 1 << 10;
export const failureWasOpen = 1 << 11;
export const ledgerUnit = 1 << 12;

export function judgedRows(runs: number): JudgedRows {
  return { rows: new Float64Array(runs * rowLength), ledger: new LimitsLedger() };
}

/** Limits in force, one entry for each time they changed. */
export class LimitsLedger {
  readonly #numbers: number[] = [];

  /** Gives the place of the entry. */
  write(n: number, anchor: number, meanDeviation: number, sd: number): number {
    return (this.#numbers.push(n, anchor, meanDeviation, sd) >> 2) - 1;
  }

  clear(): void {
    this.#numbers.length = 0;
  }

  read(place: number): { n: number; anchor: number; meanDeviation: number; sd: number } {
    const [n = 0, anchor = 0, meanDeviation = 0, sd = 0] = this.#numbers.slice(4 * place, 4 * place + 4);
    return { n, anchor, meanDeviation, sd };
  }
}

/**
 * What is to be judged next, in one array that is used again for every run: numbers handed from function to function
 * are put into objects of their own, which costs more than judging them.
 */
export type RunInput = Float64Array;

export const inputAt = 0;
export const inputEpoch = 1;
export const inputValue = 2;
/** The bits below. */
export const inputMarks = 3;

export const isExcluded = 1;
export const isBreached = 2;

export function runInput(): RunInput {
  return new Float64Array(4);
}
