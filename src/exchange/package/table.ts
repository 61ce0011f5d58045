/** One table of a package: a CSV file and what its description says of it, whatever its rows are made from. */
import type { Column, ColumnFacts } from '../columns.ts';

export interface ForeignKey {
  field: string;
  /** The table and the column that it names a row of. */
  table: string;
  reference: string;
}

export interface PackageTable {
  /** The file's name without its ending. */
  name: string;
  title: string;
  description: string;
  columns: readonly ColumnFacts[];
  rowCount: number;
  /** Columns that together name a row. */
  primaryKey: readonly string[];
  /** Hold for every journal without a damaged or missing entry; the description names those that hold for this one. */
  foreignKeys: readonly ForeignKey[];
  /** Of the rows from `from` up to, not including, `to`. */
  cells: (from: number, to: number) => string[][];
  /** All cells of one column. */
  cellsOf: (column: string) => string[];
  /** Ids of the entries that its rows rest on. */
  entryIds: readonly string[];
}

export interface TableDefinition<Row> {
  name: string;
  title: string;
  description: string;
  columns: readonly Column<Row>[];
  rows: readonly Row[];
  primaryKey: readonly string[];
  foreignKeys?: readonly ForeignKey[];
  entriesOf?: (row: Row) => readonly { id: string }[];
}

export function tableOf<Row>(definition: TableDefinition<Row>): PackageTable {
  const { name, title, description, columns, rows, primaryKey, foreignKeys = [], entriesOf } = definition;
  return {
    name,
    title,
    description,
    columns,
    primaryKey,
    foreignKeys,
    rowCount: rows.length,
    cells: (from, to) => rows.slice(from, to).map((row) => columns.map(({ exactCell }) => exactCell(row))),
    cellsOf: (wanted) => {
      const column = columns.find((each) => each.name === wanted);
      if (column === undefined) throw new RangeError(`cellsOf: ${name} has no column ${wanted}`);
      return rows.map((row) => column.exactCell(row));
    },
    entryIds: entriesOf === undefined ? [] : rows.flatMap((row) => entriesOf(row).map(({ id }) => id)),
  };
}

export const keyTo = (field: string, table: string, reference = field): ForeignKey => ({
  field,
  table,
  reference,
});
