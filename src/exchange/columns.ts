/**
 * The kinds of columns that a file has: what a reader is told of each, and how its cells are written. Header, cell and
 * description of a column come from one definition, so that none can say something else than the others.
 */
import { computedNumber, recordedNumber, textCell, timeCell, truthCell } from './csvCells.ts';

/** As the Table Schema standard names them. */
type ColumnType = 'string' | 'number' | 'integer' | 'boolean' | 'date' | 'datetime';

/** What holds of every cell, whatever the journal says. */
export interface ColumnPromises {
  /** No cell is empty. */
  required?: true;
  /** A cell that is not empty holds one of these. */
  words?: readonly string[];
}

export interface ColumnFacts extends ColumnPromises {
  name: string;
  /** Empty for a text or a count. */
  unit: string;
  meaning: string;
  type: ColumnType;
}

export interface Column<Row> extends ColumnFacts {
  /** Computed numbers with six decimals, for people. */
  cell: (row: Row) => string;
  /** Every number in full: read back it is the same number. */
  exactCell: (row: Row) => string;
}

/** An instant in UTC and the zone whose clock shows it. */
export interface Moment {
  at: string;
  zone: string;
}

type Maybe<T> = T | null | undefined;

export const always: ColumnPromises = { required: true };
export const oneOf = (words: readonly string[]): ColumnPromises => ({ words });
export const alwaysOneOf = (words: readonly string[]): ColumnPromises => ({ required: true, words });

/** The kinds for the rows of one table. */
export function columnsFor<Row>() {
  const column = (
    facts: Pick<ColumnFacts, 'name' | 'unit' | 'meaning' | 'type'>,
    promises: ColumnPromises,
    cell: (row: Row) => string,
    exactCell = cell,
  ): Column<Row> => ({ ...facts, ...promises, cell, exactCell });
  const digits = (
    facts: Parameters<typeof column>[0],
    promises: ColumnPromises,
    of: (row: Row) => Maybe<number>,
  ) => column(facts, promises, (row) => recordedNumber(of(row)));
  return {
    text: (
      name: string,
      meaning: string,
      of: (row: Row) => Maybe<string>,
      promises: ColumnPromises = {},
    ): Column<Row> =>
      column({ name, unit: '', meaning, type: 'string' }, promises, (row) => textCell(of(row) ?? '')),

    /** A number as somebody or something wrote it down: digit for digit. */
    recorded: (
      name: string,
      unit: string,
      meaning: string,
      of: (row: Row) => Maybe<number>,
      promises: ColumnPromises = {},
    ) => digits({ name, unit, meaning, type: 'number' }, promises, of),

    computed: (
      name: string,
      unit: string,
      meaning: string,
      of: (row: Row) => Maybe<number>,
      promises: ColumnPromises = {},
    ): Column<Row> =>
      column(
        { name, unit, meaning, type: 'number' },
        promises,
        (row) => computedNumber(of(row)),
        (row) => recordedNumber(of(row)),
      ),

    whole: (name: string, meaning: string, of: (row: Row) => Maybe<number>, promises: ColumnPromises = {}) =>
      digits({ name, unit: '', meaning, type: 'integer' }, promises, of),

    truth: (
      name: string,
      meaning: string,
      of: (row: Row) => Maybe<boolean>,
      promises: ColumnPromises = {},
    ): Column<Row> =>
      column({ name, unit: '', meaning, type: 'boolean' }, promises, (row) => {
        const value = of(row);
        return value === undefined || value === null ? '' : truthCell(value);
      }),

    time: (
      name: string,
      meaning: string,
      of: (row: Row) => Maybe<Moment>,
      promises: ColumnPromises = {},
    ): Column<Row> =>
      column({ name, unit: 'ISO 8601 with offset', meaning, type: 'datetime' }, promises, (row) => {
        const moment = of(row);
        return moment === undefined || moment === null ? '' : timeCell(moment.at, moment.zone);
      }),

    date: (
      name: string,
      meaning: string,
      of: (row: Row) => Maybe<string>,
      promises: ColumnPromises = {},
    ): Column<Row> => column({ name, unit: '', meaning, type: 'date' }, promises, (row) => of(row) ?? ''),
  };
}
