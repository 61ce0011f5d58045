/** From a file's text to rows of cells: what parts the cells, which row names the columns, which rows cannot be trusted. */
import Papa from 'papaparse';
import { guessColumn } from './importFields.ts';
import { importLimits, wholeCharacters } from './importText.ts';
import { unitOf } from './importUnits.ts';
import { trimmed } from './trimmed.ts';

export type Delimiter = ',' | ';' | '\t';
export const delimiters: readonly Delimiter[] = [',', ';', '\t'];

export interface ImportRow {
  /** As a spreadsheet counts, from 1, the header's and empty rows too. */
  row: number;
  cells: readonly string[];
  /** Why the row's cells cannot be told apart; null where they can. */
  broken: string | null;
}

/** How a delimiter parts the first rows: how many columns most of them have, and how many rows that is. */
export interface DelimiterCount {
  delimiter: Delimiter;
  columns: number;
  agreeing: number;
  rows: number;
}

export interface ImportTable {
  delimiter: Delimiter;
  delimiterCounts: readonly DelimiterCount[];
  header: readonly string[];
  headerRow: number;
  /** The row of units under the header; empty where there is none. */
  units: readonly string[];
  rows: readonly ImportRow[];
}

export type ReadTable = { state: 'table'; table: ImportTable } | { state: 'refused'; sentence: string };

const refused = (sentence: string): ReadTable => ({ state: 'refused', sentence });

/** A first look must not take long even where the whole file is one cell. */
const sample = { letters: 200_000, rows: 60 } as const;
/** Titles above the table seldom take more rows. */
const headerWithin = 25;

export function readImportTable(text: string, chosen: Delimiter | null = null): ReadTable {
  const tidied = tidyText(text);
  const told = /^sep=([,;\t])\n/i.exec(tidied)?.[1];
  const delimiterCounts = delimiters.map((delimiter) => countRows(tidied, delimiter));
  const delimiter = chosen ?? delimiters.find((each) => each === told) ?? bestOf(delimiterCounts);
  const {
    rows: parted,
    badQuotes,
    unclosedAt,
  } = partCells(tidied, delimiter, importLimits.rows + headerWithin + 2);
  if (unclosedAt !== undefined) {
    return refused(
      `A quotation mark opens a cell in row ${unclosedAt + 1} and none closes it: what comes after cannot be told apart. Remove it or write it twice.`,
    );
  }
  const filled: ImportRow[] = [];
  for (const [index, cells] of parted.entries()) {
    if (index === 0 && told !== undefined) continue;
    if (cells.every((cell) => trimmed(cell) === '')) continue;
    const broken = badQuotes.has(index)
      ? 'A quotation mark stands inside a quoted cell: the row may run on into the next ones. Write it twice.'
      : null;
    filled.push({ row: index + 1, cells, broken });
  }
  const at = headerIndex(filled);
  const header = filled[at];
  if (!header || header.cells.filter((cell) => cell.trim() !== '').length < 2) {
    return refused(
      'No row with names of columns was found. The first row must name the columns, parted by commas, semicolons or tabs.',
    );
  }
  const width = lastFilled(header.cells) + 1;
  if (width > importLimits.columns) {
    return refused(
      `The file has ${width} columns; at most ${importLimits.columns} are read. Leave out what is no run.`,
    );
  }
  const below = filled[at + 1];
  const units = below && isUnitsRow(below.cells) ? below.cells.slice(0, width) : [];
  const rows = filled.slice(at + (units.length > 0 ? 2 : 1)).map((row) => checkWidth(row, width));
  if (rows.length === 0) return refused('Below the names of the columns the file has no rows.');
  if (rows.length > importLimits.rows) {
    return refused(`The file has more than ${importLimits.rows} rows. Export fewer years at a time.`);
  }
  const names = header.cells.slice(0, width).map((name) => name.trim());
  return {
    state: 'table',
    table: { delimiter, delimiterCounts, header: names, headerRow: header.row, units, rows },
  };
}

/** One kind of line end, whole characters, and no mark in front. */
function tidyText(text: string): string {
  const unmarked = text.replace(/^\uFEFF+/, '');
  // One after the other: a search for plain text goes through a large file in a third of the time.
  return wholeCharacters(unmarked.replaceAll('\r\n', '\n').replaceAll('\r', '\n'));
}

interface PartedRows {
  rows: readonly (readonly string[])[];
  /** Indices of the rows in which a quotation mark stands where none may. */
  badQuotes: ReadonlySet<number>;
  /** Index of the row whose last cell no quotation mark closes; undefined where there is none. */
  unclosedAt: number | undefined;
}

/**
 * Row by row, and a cell that repeats the one above it is the same string: of the millions of cells in years of runs most do,
 * and what is not kept need not be looked after.
 */
function partCells(text: string, delimiter: Delimiter, mostRows: number): PartedRows {
  const rows: string[][] = [];
  const badQuotes = new Set<number>();
  const unclosed: number[] = [];
  let above: readonly string[] = [];
  Papa.parse<string[]>(text, {
    delimiter,
    newline: '\n',
    preview: mostRows,
    step: ({ data, errors }) => {
      for (const { type, code } of errors) {
        if (type === 'Quotes') badQuotes.add(rows.length);
        if (code === 'MissingQuotes') unclosed.push(rows.length);
      }
      for (let index = 0; index < data.length; index += 1) {
        const cell = above[index];
        if (cell !== undefined && data[index] === cell) data[index] = cell;
      }
      rows.push(data);
      above = data;
    },
  });
  return { rows, badQuotes, unclosedAt: unclosed[0] };
}

function countRows(text: string, delimiter: Delimiter): DelimiterCount {
  const { rows } = partCells(text.slice(0, sample.letters), delimiter, sample.rows);
  const widths = rows
    .filter((cells) => cells.some((cell) => cell.trim() !== ''))
    .map((cells) => cells.length);
  const tally = new Map<number, number>();
  for (const width of widths) if (width > 1) tally.set(width, (tally.get(width) ?? 0) + 1);
  const [columns, agreeing] = [...tally].sort((a, b) => b[1] - a[1] || b[0] - a[0])[0] ?? [1, 0];
  return { delimiter, columns, agreeing, rows: widths.length };
}

function bestOf(counts: readonly DelimiterCount[]): Delimiter {
  const [best] = counts.toSorted((a, b) => b.agreeing - a.agreeing || b.columns - a.columns);
  return best?.delimiter ?? ',';
}

/** The row whose cells name most of what we look for, the first of equals; else the first with two cells filled. */
function headerIndex(rows: readonly ImportRow[]): number {
  let best = { index: -1, named: 0 };
  for (const [index, { cells }] of rows.slice(0, headerWithin).entries()) {
    const named = cells
      .slice(0, importLimits.columns)
      .filter((cell) => guessColumn(cell).field !== null).length;
    if (named > best.named) best = { index, named };
  }
  if (best.index >= 0 && best.named >= 2) return best.index;
  return rows.findIndex(({ cells }) => cells.filter((cell) => cell.trim() !== '').length >= 2);
}

function isUnitsRow(cells: readonly string[]): boolean {
  const filled = cells.filter((cell) => cell.trim() !== '');
  const named = filled.filter((cell) => unitOf(cell) !== null).length;
  return named >= 2 && filled.every((cell) => !/^[+\-−]?[\d.,]+$/.test(cell.trim()));
}

function lastFilled(cells: readonly string[]): number {
  return cells.findLastIndex((cell) => trimmed(cell) !== '');
}

function checkWidth(row: ImportRow, width: number): ImportRow {
  const filled = lastFilled(row.cells) + 1;
  if (filled <= width || row.broken !== null) return row;
  return {
    ...row,
    broken: `The row has ${filled} cells where the header has ${width}: is a decimal comma or a text not in quotation marks?`,
  };
}
