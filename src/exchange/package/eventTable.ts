/** What happened to analyzers, syringes and persons, and which weeks without a check were explained. */
import type { Entry } from '../../journal/entries.ts';
import type { Logbook } from '../../journal/logbook.ts';
import { eventTypeSchema, scheduledCheckSchema, subjectStateSchema } from '../../journal/vocabulary.ts';
import { always, alwaysOneOf, type Column, columnsFor, oneOf } from '../columns.ts';
import type { Chosen } from './chosen.ts';
import { analyzerColumns, writtenColumns } from './commonColumns.ts';
import type { PackageSource } from './source.ts';
import { keyTo, type PackageTable, tableOf } from './table.ts';

type Kind =
  | 'event'
  | 'baseline-started'
  | 'service-set'
  | 'cylinder-fitted'
  | 'syringe-dropped'
  | 'subject-state'
  | 'gap-explained'
  | 'runs-imported'
  | 'entries-lost';

const kinds: readonly Kind[] = [
  'event',
  'baseline-started',
  'service-set',
  'cylinder-fitted',
  'syringe-dropped',
  'subject-state',
  'gap-explained',
  'runs-imported',
  'entries-lost',
];

interface Happening {
  logbook: Logbook;
  id: string;
  kind: Kind;
  entry: Entry;
  /** The instant, or null where whole days are meant. */
  at: string | null;
  /** Civil dates, both ends in. */
  dates?: { from: string; to: string };
  type?: string;
  state?: string;
  check?: string;
  inService?: boolean;
  analyzerId: string | null;
  syringeId?: string;
  cylinderId?: string | null;
  subjectId?: string;
  description: string;
}

const { text, truth, time, date } = columnsFor<Happening>();

const columns: readonly Column<Happening>[] = [
  text('event_id', 'Id of what happened', ({ id }) => id, always),
  text(
    'kind',
    'event: on an analyzer; baseline-started: from then on every mean of the analyzer begins anew; service-set; cylinder-fitted: from then on its test gas; syringe-dropped; subject-state: of a biological control; gap-explained: why a check was not made; runs-imported: from a file; entries-lost: storage came back with less than was known',
    ({ kind }) => kind,
    alwaysOneOf(kinds),
  ),
  time('at', 'When it happened or from when it holds; empty for whole days', ({ at, entry }) =>
    at === null ? null : { at, zone: entry.zone },
  ),
  date('from_date', 'First day of a gap', ({ dates }) => dates?.from),
  date('to_date', 'Last day of a gap', ({ dates }) => dates?.to),
  text('type', 'What kind of event', ({ type }) => type, oneOf(eventTypeSchema.options)),
  text(
    'check',
    'The check that was not made in a gap',
    ({ check }) => check,
    oneOf(scheduledCheckSchema.options),
  ),
  text(
    'subject_state',
    'How a person goes on from then',
    ({ state }) => state,
    oneOf(subjectStateSchema.options),
  ),
  truth('in_service', 'true when put back in service, false when taken out', ({ inService }) => inService),
  ...analyzerColumns<Happening>(({ analyzerId }) => analyzerId, false),
  text('syringe_id', 'Id of the syringe', ({ syringeId }) => syringeId),
  text(
    'cylinder_id',
    'Id of the cylinder; empty where an analyzer was left without one',
    ({ cylinderId }) => cylinderId,
  ),
  text('subject_id', 'Id of a biological control’s code', ({ subjectId }) => subjectId),
  text('description', 'What was written of it, or why', ({ description }) => description),
  ...writtenColumns<Happening>(({ entry }) => entry),
];

/** Everything that happened, in no order. */
function happeningsOf(logbook: Logbook, entries: readonly Entry[]): readonly Happening[] {
  const { events, baselineStarts, services, fittings, drops, subjectStates, gaps, imports } = logbook;
  return [
    ...events.map((entry): Happening => {
      const { eventId: id, happenedAt: at, analyzerId, type, description } = entry.body;
      return { logbook, kind: 'event', id, at, analyzerId, type, description, entry };
    }),
    ...baselineStarts.map((entry): Happening => {
      const { baselineId: id, from: at, analyzerId, reason: description } = entry.body;
      return { logbook, kind: 'baseline-started', id, at, analyzerId, description, entry };
    }),
    ...services.map((entry): Happening => {
      const { serviceId: id, from: at, analyzerId, inService, reason: description } = entry.body;
      return { logbook, kind: 'service-set', id, at, analyzerId, inService, description, entry };
    }),
    ...fittings.map((entry): Happening => {
      const { fittingId: id, fittedAt: at, analyzerId, cylinderId } = entry.body;
      return { logbook, kind: 'cylinder-fitted', id, at, analyzerId, cylinderId, description: '', entry };
    }),
    ...drops.map((entry): Happening => {
      const { dropId: id, droppedAt: at, syringeId, description } = entry.body;
      return { logbook, kind: 'syringe-dropped', id, at, analyzerId: null, syringeId, description, entry };
    }),
    ...subjectStates.map((entry): Happening => {
      const { settingId: id, from: at, subjectId, state, reason: description } = entry.body;
      return {
        logbook,
        kind: 'subject-state',
        id,
        at,
        analyzerId: null,
        subjectId,
        state,
        description,
        entry,
      };
    }),
    ...gaps.map((entry): Happening => {
      const { gapId: id, analyzerId, check, from, to, reason: description } = entry.body;
      return {
        logbook,
        kind: 'gap-explained',
        id,
        at: null,
        dates: { from, to },
        analyzerId,
        check,
        description,
        entry,
      };
    }),
    ...[...imports.values()].map(({ id, entry, voided }): Happening => {
      const { accepted, rowsRead, fileName } = entry.body;
      const since = voided === null ? '' : `; voided since: ${voided.reason}`;
      const description = `${accepted} runs of ${rowsRead} rows of the file ${fileName}${since}`;
      return { logbook, kind: 'runs-imported', id, at: entry.at, analyzerId: null, description, entry };
    }),
    ...entries.flatMap((entry): Happening[] => {
      if (entry.kind !== 'entries-lost') return [];
      const { lossId: id, initials, known, found } = entry.body;
      const description = `${found} of ${known.count} entries were left; ${initials} went on without the others`;
      return [{ logbook, kind: 'entries-lost', id, at: entry.at, analyzerId: null, description, entry }];
    }),
  ];
}

/** The cylinder and the service that an analyzer came into the period with are in it, too. */
function holdAtStart(happenings: readonly Happening[], { start }: Chosen): ReadonlySet<Happening> {
  const newest = new Map<string, Happening>();
  for (const happening of happenings) {
    const { kind, at, analyzerId } = happening;
    if ((kind !== 'service-set' && kind !== 'cylinder-fitted') || at === null || at >= start) continue;
    const key = `${kind} ${analyzerId}`;
    const known = newest.get(key);
    if (known?.at === undefined || known.at === null || known.at <= at) newest.set(key, happening);
  }
  return new Set(newest.values());
}

const placeOf = ({ at, dates }: Happening) => at ?? dates?.from ?? '';

export function eventTable({ logbook, entries }: PackageSource, chosen: Chosen): PackageTable {
  const all = happeningsOf(logbook, entries).filter(({ analyzerId }) => chosen.concerns(analyzerId));
  const atStart = holdAtStart(all, chosen);
  const isTaken = (happening: Happening) => {
    const { at, dates } = happening;
    if (dates !== undefined) return chosen.isDateWithin(dates.from, dates.to);
    return atStart.has(happening) || (at !== null && chosen.isWithin(at));
  };
  const rows = all
    .filter(isTaken)
    .toSorted((one, other) => (placeOf(one) < placeOf(other) ? -1 : placeOf(one) > placeOf(other) ? 1 : 0));
  return tableOf({
    name: 'events',
    title: 'Events',
    description:
      'What happened in the period, by when it happened: work on analyzers, new baselines, service, cylinders, falls of syringes, explained gaps, imports. The cylinder and the service that an analyzer came into the period with stand in it, too.',
    columns,
    rows,
    primaryKey: ['event_id'],
    foreignKeys: [
      keyTo('analyzer_id', 'analyzers'),
      keyTo('syringe_id', 'syringes'),
      keyTo('cylinder_id', 'cylinders'),
      keyTo('subject_id', 'subjects'),
      keyTo('entry_id', 'audit-trail'),
    ],
    entriesOf: ({ entry }) => [entry],
  });
}
