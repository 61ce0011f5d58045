/** What became of what a row is of: amended, struck out, or set aside by a supervisor. */
import type { Logbook } from '../journal/logbook.ts';
import { person } from './columnKinds.ts';
import { always, type Column, columnsFor, oneOf } from './columns.ts';

export const verdictWords = ['pass', 'warn', 'fail'] as const;

interface InLogbook {
  logbook: Logbook;
}

/** Who did so, when and why; null where nobody did. */
type Mark = { at: string; by: string; reason: string } | null;

/** By the clock of the workstation that the row's entry was written on. */
const momentOf = (mark: Mark, zone: string) => (mark === null ? null : { at: mark.at, zone });

interface Amended {
  entry: { zone: string };
  /** Oldest first. */
  amendments: readonly { at: string; by: string; body: { reason: string; judged: { word: string } } }[];
}

export function amendedColumns<Row extends InLogbook>(
  amendedOf: (row: Row) => Amended,
): readonly Column<Row>[] {
  const { text, time, whole } = columnsFor<Row>();
  const newest = (row: Row) => amendedOf(row).amendments.at(-1);
  return [
    whole(
      'amendments',
      'How often it was amended; its readings are those of the newest amendment',
      (row) => amendedOf(row).amendments.length,
      always,
    ),
    time('amended_at', 'When it was amended last', (row) => {
      const at = newest(row)?.at;
      return at === undefined ? null : { at, zone: amendedOf(row).entry.zone };
    }),
    text('amended_by', 'Initials and name of who amended it last', (row) => person(row, newest(row)?.by)),
    text('amend_reason', 'Why it was amended last', (row) => newest(row)?.body.reason),
    text(
      'verdict_of_amendment',
      'The verdict as it came out when it was amended last',
      (row) => newest(row)?.body.judged.word,
      oneOf(verdictWords),
    ),
  ];
}

export function voidedColumns<Row extends InLogbook>(
  standingOf: (row: Row) => { voided: Mark; entry: { zone: string } },
): readonly Column<Row>[] {
  const { text, time, truth } = columnsFor<Row>();
  const mark = (row: Row) => standingOf(row).voided;
  return [
    truth('voided', 'true when it was struck out', (row) => mark(row) !== null, always),
    time('voided_at', 'When it was struck out', (row) => momentOf(mark(row), standingOf(row).entry.zone)),
    text('voided_by', 'Initials and name of who struck it out', (row) => person(row, mark(row)?.by)),
    text('void_reason', 'Why it was struck out', (row) => mark(row)?.reason),
  ];
}

export function setAsideColumns<Row extends InLogbook>(
  standingOf: (row: Row) => { setAside: Mark; entry: { zone: string } },
): readonly Column<Row>[] {
  const { text, time, truth } = columnsFor<Row>();
  const mark = (row: Row) => standingOf(row).setAside;
  const meaning = 'true when a supervisor took it out of every mean and pattern, though it stands';
  return [
    truth('set_aside', meaning, (row) => mark(row) !== null, always),
    time('set_aside_at', 'When it was set aside', (row) => momentOf(mark(row), standingOf(row).entry.zone)),
    text('set_aside_by', 'Initials and name of who set it aside', (row) => person(row, mark(row)?.by)),
    text('set_aside_reason', 'Why it was set aside', (row) => mark(row)?.reason),
  ];
}
