/** What a file's columns look like, counted over every row, for a person to say what each of them is. */
import { type DateCounts, dateKindOf } from './importDates.ts';
import type { ImportRow, ImportTable } from './importTable.ts';

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
  return {
    ...table,
    columns: table.header.map((name, index) => outlineColumn(name, index, rows)),
    rowCount: rows.length,
    firstRows: rows.slice(0, previewRows),
  };
}

function outlineColumn(name: string, index: number, rows: readonly ImportRow[]): ColumnOutline {
  const names = new Set<string>();
  const numbers = { pointed: 0, comma: 0, whole: 0 };
  const dates = { clear: 0, dayFirst: 0, monthFirst: 0, either: 0, other: 0 };
  const values: number[] = [];
  let filled = 0;
  for (const { cells, broken } of rows) {
    if (broken !== null) continue;
    const cell = (cells[index] ?? '').trim();
    if (cell === '') continue;
    filled += 1;
    if (names.size <= fewNames) names.add(cell.slice(0, longestName));
    const mark = cell.length < 24 ? numberText.exec(cell) : null;
    // Eight digits can be a number and a date.
    if (mark === null || cell.length === 8) dates[dateKindOf(cell)] += 1;
    if (mark === null) continue;
    numbers[mark[1] === '.' ? 'pointed' : mark[1] === ',' ? 'comma' : 'whole'] += 1;
    values.push(Number(cell.replace(',', '.').replace('−', '-')));
  }
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
  const sorted = Float64Array.from(values).sort();
  return sorted[Math.floor(sorted.length / 2)] ?? null;
}
