/** What a row of the runs' CSV file is made from, and the kinds of its columns. */
import type { RunAssessment } from '../core/index.ts';
import type { Logbook, LoggedRun } from '../journal/logbook.ts';
import { type Column, type ColumnPromises, columnsFor } from './columns.ts';

/** One run with all that its row is made from. */
export interface RunRow {
  run: LoggedRun;
  logbook: Logbook;
  /** As it comes out today; undefined where a run could not be assessed. */
  assessment: RunAssessment | undefined;
  /** The last entry of the chain that the run's entry stands in, as it was when the file was made. */
  head: { seq: number; hash: string } | undefined;
}

export type WrittenColumn = Column<RunRow>;

const kinds = columnsFor<RunRow>();
export const { text, recorded, computed, whole, truth } = kinds;

/** By the clock of the workstation that the run was written on. */
export const time = (
  name: string,
  meaning: string,
  of: (row: RunRow) => string | undefined,
  promises?: ColumnPromises,
): WrittenColumn =>
  kinds.time(
    name,
    meaning,
    (row) => {
      const at = of(row);
      return at === undefined ? undefined : { at, zone: row.run.entry.zone };
    },
    promises,
  );

export function person(
  { logbook }: { logbook: Pick<Logbook, 'technologists'> },
  id: string | undefined,
): string | undefined {
  const technologist = id === undefined ? undefined : logbook.technologists.get(id);
  return technologist ? `${technologist.initials}, ${technologist.name}` : id;
}
