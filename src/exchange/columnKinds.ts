/** The kinds of columns that the runs' CSV file has, each with its way of writing a cell. */
import type { RunAssessment } from '../core/index.ts';
import type { Logbook, LoggedRun } from '../journal/logbook.ts';
import { computedNumber, recordedNumber, textCell, timeCell, truthCell } from './csvCells.ts';

export interface RunColumn {
  name: string;
  /** Empty for a text or a count. */
  unit: string;
  meaning: string;
}

/** One run with all that its row is made from. */
export interface RunRow {
  run: LoggedRun;
  logbook: Logbook;
  /** As it comes out today; undefined where a run could not be assessed. */
  assessment: RunAssessment | undefined;
  /** The last entry of the chain that the run's entry stands in, as it was when the file was made. */
  head: { seq: number; hash: string } | undefined;
}

export interface WrittenColumn extends RunColumn {
  cell: (row: RunRow) => string;
}

export const text = (
  name: string,
  meaning: string,
  of: (row: RunRow) => string | undefined,
): WrittenColumn => ({
  name,
  unit: '',
  meaning,
  cell: (row) => textCell(of(row) ?? ''),
});

type NumberOf = (row: RunRow) => number | null | undefined;
export const recorded = (name: string, unit: string, meaning: string, of: NumberOf): WrittenColumn => ({
  name,
  unit,
  meaning,
  cell: (row) => recordedNumber(of(row)),
});
export const computed = (name: string, unit: string, meaning: string, of: NumberOf): WrittenColumn => ({
  name,
  unit,
  meaning,
  cell: (row) => computedNumber(of(row)),
});

export const truth = (
  name: string,
  meaning: string,
  of: (row: RunRow) => boolean | undefined,
): WrittenColumn => ({
  name,
  unit: '',
  meaning,
  cell: (row) => {
    const value = of(row);
    return value === undefined ? '' : truthCell(value);
  },
});

export const time = (
  name: string,
  meaning: string,
  of: (row: RunRow) => string | undefined,
): WrittenColumn => ({
  name,
  unit: 'ISO 8601 with offset',
  meaning,
  cell: (row) => {
    const instant = of(row);
    return instant === undefined ? '' : timeCell(instant, row.run.entry.zone);
  },
});

export function person({ logbook }: RunRow, id: string | undefined): string | undefined {
  const technologist = id === undefined ? undefined : logbook.technologists.get(id);
  return technologist ? `${technologist.initials}, ${technologist.name}` : id;
}
