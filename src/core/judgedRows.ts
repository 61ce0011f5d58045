/**
 * Judged runs as rows of numbers, eight a run: one line of the processor's cache. An object for each run costs more than
 * all that is computed of it, and ten columns were twice as slow to write as rows. NaN stands where a number is not to be had;
 * it stays inside the core, where the objects made from rows say null.
 */
export type JudgedRows = Float64Array;

export const rowLength = 8;

/** Places within a row. Mean and SD are those in force, z is NaN for a run that was not judged by them. */
export const rowN = 0;
export const rowMean = 1;
export const rowSd = 2;
export const rowZ = 3;
export const rowEwma = 4;
export const rowCusumHigh = 5;
export const rowCusumLow = 6;
/** The rules that fired and are not off, as the bits of `ruleBits`, and the bits below. */
export const rowFound = 7;

export const wasJudged = 1 << 9;
export const wasAccepted = 1 << 10;
export const failureWasOpen = 1 << 11;

export function judgedRows(runs: number): JudgedRows {
  return new Float64Array(runs * rowLength);
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
