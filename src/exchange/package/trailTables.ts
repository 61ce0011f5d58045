/** The audit trail: what was written, as it was written, and the chains that prove it whole. */
import { chainSummaries } from '../../journal/chain.ts';
import { type Entry, entryKinds, readEntry } from '../../journal/entries.ts';
import { inFoldOrder } from '../../journal/foldOrder.ts';
import type { Logbook } from '../../journal/logbook.ts';
import { marksOf, rowText } from '../../journal/union.ts';
import { person } from '../columnKinds.ts';
import { always, alwaysOneOf, type Column, columnsFor } from '../columns.ts';
import type { PackageSource } from './source.ts';
import { keyTo, type PackageTable, tableOf } from './table.ts';

interface TrailRow {
  logbook: Logbook;
  number: number;
  entry: Entry;
}

const trail = columnsFor<TrailRow>();

const trailColumns: readonly Column<TrailRow>[] = [
  trail.whole('number', 'Number of the row, from 1', ({ number }) => number, always),
  trail.text('entry_id', 'Id of the entry; hashed as id', ({ entry }) => entry.id, always),
  trail.text(
    'workstation',
    'Id of the workstation, whose chain it stands in',
    ({ entry }) => entry.workstation,
    always,
  ),
  trail.whole('seq', 'Number within the chain, from 1', ({ entry }) => entry.seq, always),
  trail.text(
    'prev',
    'Hash of the entry before it in the chain; empty for the first',
    ({ entry }) => entry.prev,
  ),
  // As it was hashed, to the letter: not by the clock on the wall.
  {
    name: 'at',
    unit: 'ISO 8601 in UTC',
    meaning: 'When it was written',
    type: 'datetime',
    required: true,
    cell: ({ entry }) => entry.at,
    exactCell: ({ entry }) => entry.at,
  },
  trail.text('zone', 'Time zone of the workstation', ({ entry }) => entry.zone, always),
  trail.text('by', 'Id of who wrote it', ({ entry }) => entry.by, always),
  trail.text('written_by', 'Initials and name of who wrote it', (row) => person(row, row.entry.by), always),
  trail.whole('version', 'Version of the kind’s form', ({ entry }) => entry.version, always),
  trail.text('kind', 'What kind of entry', ({ entry }) => entry.kind, alwaysOneOf(entryKinds)),
  trail.text(
    'body',
    'What it says, as canonical JSON (RFC 8785)',
    ({ entry }) => rowText(entry.body),
    always,
  ),
  trail.text(
    'hash',
    'SHA-256 of the canonical JSON of the entry without it; README.txt says how to check it',
    ({ entry }) => entry.hash,
    always,
  ),
];

export function trailTable({ logbook }: PackageSource, entries: readonly Entry[]): PackageTable {
  return tableOf({
    name: 'audit-trail',
    title: 'Audit trail',
    description:
      'The entries as they were written, in the order in which the logbook reads them: those of the period, those about what was made in it, and the earlier ones that say what there is and what holds. Nothing is ever changed in an entry; what it says is corrected by a later one.',
    columns: trailColumns,
    rows: inFoldOrder(entries).map((entry, index): TrailRow => ({ logbook, number: index + 1, entry })),
    primaryKey: ['number'],
    foreignKeys: [keyTo('workstation', 'chain-heads'), keyTo('by', 'people', 'technologist_id')],
  });
}

interface LinkRow {
  number: number;
  workstation: string | null;
  seq: number | null;
  entryId: string | null;
  prev: string | null;
  hash: string | null;
  state: 'known' | 'newer' | 'damaged';
  isInTrail: boolean;
}

const links = columnsFor<LinkRow>();

const linkColumns: readonly Column<LinkRow>[] = [
  links.whole('number', 'Number of the row, from 1', ({ number }) => number, always),
  links.text('workstation', 'Id of the workstation', ({ workstation }) => workstation),
  links.whole('seq', 'Number within the chain', ({ seq }) => seq),
  links.text('entry_id', 'Id of the entry', ({ entryId }) => entryId),
  links.text('prev', 'Hash of the entry before it; empty for the first', ({ prev }) => prev),
  links.text('hash', 'Hash of the entry', ({ hash }) => hash),
  links.text(
    'state',
    'known: it can be read; newer: of a later release; damaged: it cannot be read',
    ({ state }) => state,
    alwaysOneOf(['known', 'newer', 'damaged']),
  ),
  links.truth(
    'in_audit_trail',
    'false where it lies outside the period or concerns other analyzers',
    ({ isInTrail }) => isInTrail,
    always,
  ),
];

interface HeadRow {
  workstation: string;
  count: number;
  headSeq: number;
  headHash: string;
}

const heads = columnsFor<HeadRow>();

const headColumns: readonly Column<HeadRow>[] = [
  heads.text('workstation', 'Id of the workstation', ({ workstation }) => workstation, always),
  heads.whole('entries', 'How many entries of its chain are stored', ({ count }) => count, always),
  heads.whole('head_seq', 'Number of the last of them', ({ headSeq }) => headSeq, always),
  heads.text(
    'head_hash',
    'Hash of the last of them: it proves every entry of the chain up to it',
    ({ headHash }) => headHash,
  ),
];

export function chainTables(
  { rawRows }: Pick<PackageSource, 'rawRows'>,
  entriesInTrail: readonly Entry[],
): readonly PackageTable[] {
  const inTrail = new Set(entriesInTrail.map(({ hash }) => hash));
  const rows = rawRows
    .map((row) => ({ ...marksOf(row), prev: prevOf(row), state: readEntry(row).state }))
    .toSorted(
      (one, other) =>
        compare(one.workstation ?? '', other.workstation ?? '') ||
        (one.seq ?? 0) - (other.seq ?? 0) ||
        compare(one.hash ?? '', other.hash ?? ''),
    )
    .map(({ id: entryId, workstation, seq, hash, prev, state }, index): LinkRow => {
      const isInTrail = state === 'known' && hash !== null && inTrail.has(hash);
      return { number: index + 1, workstation, seq, entryId, prev, hash, state, isInTrail };
    });
  return [
    tableOf({
      name: 'chain',
      title: 'The chains, link by link',
      description:
        'Every entry of the journal by number and hash alone, those too that are not in the audit trail: so that each chain can be followed from its first entry to its head.',
      columns: linkColumns,
      rows,
      primaryKey: ['number'],
      foreignKeys: [keyTo('workstation', 'chain-heads')],
    }),
    tableOf({
      name: 'chain-heads',
      title: 'Heads of the chains',
      description: 'The last entry of every workstation’s chain when the package was made.',
      columns: headColumns,
      rows: chainSummaries(rawRows).toSorted((one, other) => compare(one.workstation, other.workstation)),
      primaryKey: ['workstation'],
    }),
  ];
}

const compare = (one: string, other: string) => (one < other ? -1 : one > other ? 1 : 0);

const prevOf = (row: unknown) =>
  typeof row === 'object' && row !== null && 'prev' in row && typeof row.prev === 'string' ? row.prev : null;
