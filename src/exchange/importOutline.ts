/** What a file's columns look like, counted over every row, for a person to say what each of them is. */
import { type DateCounts, dateKindOf } from './importDates.ts';
import type { ImportRow, ImportTable } from './importTable.ts';
import { trimmed } from './trimmed.ts';

export interface ColumnOutline {
  name: string;
  filled: number;
  /** The first cells that are filled and differ. */
  examples: readonly string[];
  /** Every different cell, where they are few enough for names; null where they are not. */
  names: readonly string[] | null;
  /** Numbers with a decimal point, with a decimal comma, and without either. */
  numbers: { pointed: number; comma: number; whole: number };
  /** Median of the numbers, whichever mark they have; null where there are none. */
  middle: number | null;
  dates: DateCounts;
}

/** All that a screen needs to know of a table: its rows stay where they were read. */
export interface ImportOutline extends Omit<ImportTable, 'rows'> {
  columns: readonly ColumnOutline[];
  rowCount: number;
  /** The first rows, for a preview. */
  firstRows: readonly ImportRow[];
}

const previewRows = 12;
const fewNames = 40;
const longestName = 120;
const numberText = /^[+\-−]?\d*([.,]?)\d+$/;

export function outlineOf({ rows, ...table }: ImportTable): ImportOutline {
  const counts = table.header.map(() => emptyCount());
  // Row by row, as the cells lie in memory: column by column takes twice the time in a file of a hundred thousand rows.
  for (const { cells, broken } of rows) {
    if (broken !== null) continue;
    for (let index = 0; index < counts.length; index += 1) {
      const count = counts[index];
      const cell = trimmed(cells[index] ?? '');
      if (count !== undefined && cell !== '') addCell(count, cell);
    }
  }
  return {
    ...table,
    columns: table.header.map((name, index) => outlineColumn(name, counts[index] ?? emptyCount())),
    rowCount: rows.length,
    firstRows: rows.slice(0, previewRows),
  };
}

/** How one cell is written. */
interface CellShape {
  number: { mark: keyof ColumnOutline['numbers']; value: number } | null;
  date: keyof DateCounts | null;
}

interface ColumnCount extends Pick<ColumnOutline, 'filled' | 'numbers' | 'dates'> {
  names: Set<string>;
  values: number[];
  /** The cell before: in many columns it is the same from row to row. */
  last: { cell: string; shape: CellShape };
}

const emptyCount = (): ColumnCount => ({
  filled: 0,
  names: new Set(),
  numbers: { pointed: 0, comma: 0, whole: 0 },
  dates: { clear: 0, dayFirst: 0, monthFirst: 0, either: 0, other: 0 },
  values: [],
  last: { cell: '', shape: { number: null, date: null } },
});

function addCell(count: ColumnCount, cell: string): void {
  const { names, numbers, dates, values } = count;
  count.filled += 1;
  if (count.last.cell !== cell) {
    count.last = { cell, shape: shapeOf(cell) };
    if (names.size <= fewNames) names.add(cell.slice(0, longestName));
  }
  const { number, date } = count.last.shape;
  if (date !== null) dates[date] += 1;
  if (number === null) return;
  numbers[number.mark] += 1;
  values.push(number.value);
}

function shapeOf(cell: string): CellShape {
  const found = cell.length < 24 ? numberText.exec(cell) : null;
  // Eight digits can be a number and a date.
  const date = found === null || cell.length === 8 ? dateKindOf(cell) : null;
  if (found === null) return { number: null, date };
  const mark = found[1] === '.' ? 'pointed' : found[1] === ',' ? 'comma' : 'whole';
  return { number: { mark, value: Number(cell.replace(',', '.').replace('−', '-')) }, date };
}

function outlineColumn(name: string, { filled, names, numbers, dates, values }: ColumnCount): ColumnOutline {
  return {
    name,
    filled,
    examples: [...names].slice(0, 3),
    names: names.size > fewNames ? null : [...names],
    numbers,
    middle: medianOf(values),
    dates,
  };
}

function medianOf(values: readonly number[]): number | null {
  const sorted = new Float64Array(values).sort();
  return sorted[Math.floor(sorted.length / 2)] ?? null;
}
