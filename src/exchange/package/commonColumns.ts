/** Columns that many tables of a package have in the same words. */
import type { Entry } from '../../journal/entries.ts';
import type { Logbook } from '../../journal/logbook.ts';
import { person } from '../columnKinds.ts';
import { always, type Column, columnsFor } from '../columns.ts';

interface InLogbook {
  logbook: Logbook;
}

/** When and by whom a row's entry was written, and by what it is found in the audit trail. */
export function writtenColumns<Row extends InLogbook>(entryOf: (row: Row) => Entry): readonly Column<Row>[] {
  const { text, time } = columnsFor<Row>();
  return [
    time('written_at', 'When it was written into the journal', entryOf, always),
    text(
      'written_by',
      'Initials and name of who wrote it, or their id where the logbook does not know them',
      (row) => person(row, entryOf(row).by),
      always,
    ),
    text(
      'entry_id',
      'Id of the entry, by which it is found in the audit trail',
      (row) => entryOf(row).id,
      always,
    ),
    text('entry_hash', 'SHA-256 of the entry', (row) => entryOf(row).hash, always),
  ];
}

/** The analyzer by its id and by its label as it is now. */
export function analyzerColumns<Row extends InLogbook>(
  analyzerIdOf: (row: Row) => string | null,
  isAlways: boolean,
): readonly Column<Row>[] {
  const { text } = columnsFor<Row>();
  return [
    text('analyzer_id', 'Id of the analyzer', analyzerIdOf, isAlways ? always : {}),
    text(
      'analyzer',
      'Label of the analyzer as it is now',
      (row) => row.logbook.analyzers.get(analyzerIdOf(row) ?? '')?.description.label,
    ),
  ];
}
