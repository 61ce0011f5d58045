import { median } from './robust.ts';

/** A table as the sum of one common level, an effect of each row, an effect of each column and what is left. */
export interface PolishedTable {
  overall: number;
  rows: readonly number[];
  columns: readonly number[];
  /** Null where there was no value. */
  residuals: readonly (readonly (number | null)[])[];
}

/** Sweeps after which it stops in any case; tables of one laboratory settle in three or four. */
const mostSweeps = 50;

/**
 * Splits a table of values, some missing, into effects of rows and columns by taking out medians in turn: up to half of
 * the values may be anything without moving the rest far. In the unit of the values.
 * Source: Tukey, Exploratory Data Analysis (1977), chapter 11; R's `medpolish` gives the same.
 * @throws {RangeError} if rows differ in length or a value is not finite.
 */
export function medianPolish(table: readonly (readonly (number | null)[])[]): PolishedTable {
  const width = table[0]?.length ?? 0;
  const residuals = table.map((row, index) => {
    if (row.length !== width)
      throw new RangeError(`medianPolish: table[${index}] has ${row.length} values, not ${width}`);
    return [...row];
  });
  let overall = 0;
  const rows = new Array<number>(table.length).fill(0);
  const columns = new Array<number>(width).fill(0);
  let sumBefore = 0;
  for (let sweep = 0; sweep < mostSweeps; sweep += 1) {
    for (const [index, row] of residuals.entries()) rows[index] = (rows[index] ?? 0) + takeOutMedian(row);
    overall += moveMedian(columns);
    for (const index of columns.keys())
      columns[index] = (columns[index] ?? 0) + takeOutOfColumn(residuals, index);
    overall += moveMedian(rows);
    const sum = residuals.flat().reduce((total: number, value) => total + Math.abs(value ?? 0), 0);
    if (sum === 0 || Math.abs(sum - sumBefore) < 1e-10 * sum) break;
    sumBefore = sum;
  }
  return { overall, rows, columns, residuals };
}

function takeOutMedian(values: (number | null)[]): number {
  const middle = median(values.filter((value) => value !== null)) ?? 0;
  for (const [index, value] of values.entries()) values[index] = value === null ? null : value - middle;
  return middle;
}

function takeOutOfColumn(rows: readonly (number | null)[][], column: number): number {
  const values = rows.map((row) => row[column] ?? null);
  const middle = takeOutMedian(values);
  for (const [index, row] of rows.entries()) row[column] = values[index] ?? null;
  return middle;
}

/** Takes the median out of effects, for the common level to take it up. */
function moveMedian(effects: number[]): number {
  const middle = median(effects) ?? 0;
  for (const [index, effect] of effects.entries()) effects[index] = effect - middle;
  return middle;
}
