/** The sign-offs: a row for each analyzer that one names. */
import type { EntryOf } from '../../journal/entries.ts';
import type { Logbook } from '../../journal/logbook.ts';
import type { SignatureVerdict } from '../../journal/signature.ts';
import { person } from '../columnKinds.ts';
import { always, type Column, columnsFor, oneOf } from '../columns.ts';
import type { Chosen } from './chosen.ts';
import { analyzerColumns } from './commonColumns.ts';
import { signatureMeaning, signatureWords } from './failureTable.ts';
import type { PackageSource } from './source.ts';
import { keyTo, type PackageTable, tableOf } from './table.ts';

interface Row {
  logbook: Logbook;
  number: number;
  entry: EntryOf<'period-signed'>;
  /** Null where a sign-off names no analyzer. */
  analyzer: EntryOf<'period-signed'>['body']['analyzers'][number] | null;
  verdict: SignatureVerdict | undefined;
}

const { text, time, date, whole } = columnsFor<Row>();

const columns: readonly Column<Row>[] = [
  whole('number', 'Number of the row, from 1', ({ number }) => number, always),
  text('sign_off_id', 'Id of the sign-off', ({ entry }) => entry.body.signOffId, always),
  date('from', 'First day of the period, as the supervisor calls it', ({ entry }) => entry.body.from, always),
  date('to', 'Last day of the period', ({ entry }) => entry.body.to, always),
  ...analyzerColumns<Row>(({ analyzer }) => analyzer?.analyzerId ?? null, false),
  text('analyzer_comment', 'Comment on the analyzer', ({ analyzer }) => analyzer?.comment),
  text('comment', 'Comment on the whole', ({ entry }) => entry.body.comment),
  time('signed_at', 'When it was signed', ({ entry }) => entry, always),
  text('signed_by', 'Initials and name of the supervisor', (row) => person(row, row.entry.by), always),
  text(
    'covers_up_to',
    'What it covers: workstation, number and hash of the last entry of each chain, the chains parted by a semicolon',
    ({ entry }) =>
      entry.body.heads.map(({ workstation, seq, hash }) => `${workstation} ${seq} ${hash}`).join('; '),
    always,
  ),
  text(
    'signature',
    `What the signature is worth. ${signatureMeaning}`,
    ({ verdict }) => verdict,
    oneOf(signatureWords),
  ),
  text(
    'entry_id',
    'Id of the entry, by which it is found in the audit trail',
    ({ entry }) => entry.id,
    always,
  ),
];

export function signOffTable({ logbook, signatures }: PackageSource, chosen: Chosen): PackageTable {
  const verdicts = new Map(signatures.map(({ entry, verdict }) => [entry.id, verdict]));
  const rows = logbook.signOffs
    .filter(({ at, body }) => chosen.isWithin(at) || chosen.isDateWithin(body.from, body.to))
    .flatMap((entry) => {
      const named = entry.body.analyzers.filter(({ analyzerId }) => chosen.concerns(analyzerId));
      const analyzers = entry.body.analyzers.length === 0 ? [null] : named;
      return analyzers.map((analyzer) => ({ entry, analyzer, verdict: verdicts.get(entry.id) }));
    });
  return tableOf({
    name: 'sign-offs',
    title: 'Sign-offs',
    description:
      'Supervisors’ sign-offs that were made in the period or are about a part of it: a row for each analyzer that one names.',
    columns,
    rows: rows.map((row, index): Row => ({ logbook, number: index + 1, ...row })),
    primaryKey: ['number'],
    foreignKeys: [keyTo('analyzer_id', 'analyzers'), keyTo('entry_id', 'audit-trail')],
    entriesOf: ({ entry }) => [entry],
  });
}
