/** What was done about failures of runs, and which patients’ tests were looked at again. */
import type { EntryOf, SeriesName } from '../../journal/entries.ts';
import type { Logbook } from '../../journal/logbook.ts';
import { methodSchema, routeSchema } from '../../journal/vocabulary.ts';
import { person } from '../columnKinds.ts';
import { always, alwaysOneOf, type Column, columnsFor } from '../columns.ts';
import type { Chosen } from './chosen.ts';
import { analyzerColumns, writtenColumns } from './commonColumns.ts';
import type { PackageSource } from './source.ts';
import { keyTo, type PackageTable, tableOf } from './table.ts';

/** As the failures’ own table names them. */
const runFailureId = (runId: string, quantity: SeriesName['quantity']) => `${runId}/${quantity}`;

type Action = EntryOf<'action-taken'>;
type Review = EntryOf<'look-back-reviewed'>;
type About = Action | Review;
type Named = About['body']['failures'][number];

/** An entry about failures of runs has a row for each of them. */
interface AboutRow<E extends About> {
  logbook: Logbook;
  entry: E;
  /** From 1. */
  number: number;
  named: Named;
}

function namedColumns<E extends About>(): readonly Column<AboutRow<E>>[] {
  const { text, whole } = columnsFor<AboutRow<E>>();
  return [
    whole(
      'number',
      'Number of the failure among those that it is about, from 1',
      ({ number }) => number,
      always,
    ),
    text(
      'failure_id',
      'Id of the failure as it was named; where its run opens none any more, as after an amendment, it is not among the failures',
      ({ named }) => runFailureId(named.openedByRunId, named.quantity),
      always,
    ),
    text('opened_by_run_id', 'Id of the run that opened it', ({ named }) => named.openedByRunId, always),
    text('method', 'Method of the series', ({ named }) => named.method, alwaysOneOf(methodSchema.options)),
    text('route', 'Route of the series', ({ named }) => named.route, alwaysOneOf(routeSchema.options)),
    text('quantity', 'What failed', ({ named }) => named.quantity, alwaysOneOf(['va', 'dlco'])),
  ];
}

const actions = columnsFor<AboutRow<Action>>();
const actionColumns: readonly Column<AboutRow<Action>>[] = [
  actions.text('action_id', 'Id of the action', ({ entry }) => entry.body.actionId, always),
  ...namedColumns<Action>(),
  ...analyzerColumns<AboutRow<Action>>(({ entry }) => entry.body.analyzerId, true),
  actions.time(
    'done_at',
    'When it was done',
    ({ entry }) => ({ at: entry.body.doneAt, zone: entry.zone }),
    always,
  ),
  actions.text('what', 'What was done', ({ entry }) => entry.body.what, always),
  actions.text(
    'done_by',
    'Initials and name of who did it; empty where it was nobody of the laboratory',
    (row) => person(row, row.entry.body.technologistId ?? undefined),
  ),
  actions.text('part', 'The part that was changed', ({ entry }) => entry.body.part),
  actions.text(
    'event_id',
    'Id of the event on the analyzer that says the same',
    ({ entry }) => entry.body.eventId,
  ),
  ...writtenColumns<AboutRow<Action>>(({ entry }) => entry),
];

const lookBacks = columnsFor<AboutRow<Review>>();
const lookBackColumns: readonly Column<AboutRow<Review>>[] = [
  lookBacks.text('look_back_id', 'Id of the look-back', ({ entry }) => entry.body.lookBackId, always),
  ...namedColumns<Review>(),
  ...analyzerColumns<AboutRow<Review>>(({ entry }) => entry.body.analyzerId, true),
  lookBacks.time(
    'from',
    'Tests from this instant on were looked at again',
    ({ entry }) => ({ at: entry.body.from, zone: entry.zone }),
    always,
  ),
  lookBacks.time(
    'to',
    'and up to this one',
    ({ entry }) => ({ at: entry.body.to, zone: entry.zone }),
    always,
  ),
  lookBacks.text(
    'reviewed_by',
    'Initials and name of who looked',
    (row) => person(row, row.entry.body.reviewerId),
    always,
  ),
  lookBacks.text(
    'outcome',
    'What came of it',
    ({ entry }) => entry.body.outcome,
    alwaysOneOf(['nobody-tested', 'none-affected', 'results-corrected', 'tests-repeated', 'referred']),
  ),
  lookBacks.whole('tested_count', 'Tests made in that time', ({ entry }) => entry.body.testedCount),
  lookBacks.whole(
    'affected_count',
    'Tests of these that were affected',
    ({ entry }) => entry.body.affectedCount,
  ),
  lookBacks.text('note', 'Note of the reviewer', ({ entry }) => entry.body.note),
  ...writtenColumns<AboutRow<Review>>(({ entry }) => entry),
];

/** An entry is taken where it is of the period or about a failure that is in the package. */
function aboutRows<E extends About>(
  entries: readonly E[],
  { logbook, isTaken }: { logbook: Logbook; isTaken: (entry: E) => boolean },
): AboutRow<E>[] {
  return entries
    .filter(isTaken)
    .flatMap((entry) =>
      entry.body.failures.map((named, index) => ({ logbook, entry, number: index + 1, named })),
    );
}

/** `failureIds`: the failures that are in the package. */
export function aboutFailureTables(
  { logbook }: PackageSource,
  chosen: Chosen,
  failureIds: ReadonlySet<string>,
): readonly PackageTable[] {
  const isAboutTaken = (named: readonly Named[]) =>
    named.some(({ openedByRunId, quantity }) => failureIds.has(runFailureId(openedByRunId, quantity)));
  const actionRows = aboutRows(logbook.actions, {
    logbook,
    isTaken: ({ body }) =>
      chosen.concerns(body.analyzerId) && (chosen.isWithin(body.doneAt) || isAboutTaken(body.failures)),
  });
  const lookBackRows = aboutRows(logbook.lookBacks, {
    logbook,
    isTaken: ({ at, body }) =>
      chosen.concerns(body.analyzerId) && (chosen.isWithin(at) || isAboutTaken(body.failures)),
  });
  return [
    tableOf({
      name: 'corrective-actions',
      title: 'Corrective actions',
      description:
        'What was done about failures of runs, as it was written when it was done: a row for each failure that it is about.',
      columns: actionColumns,
      rows: actionRows,
      primaryKey: ['action_id', 'number'],
      foreignKeys: [
        keyTo('failure_id', 'failures'),
        keyTo('analyzer_id', 'analyzers'),
        keyTo('event_id', 'events'),
        keyTo('entry_id', 'audit-trail'),
      ],
      entriesOf: ({ entry }) => [entry],
    }),
    tableOf({
      name: 'look-backs',
      title: 'Look-backs',
      description:
        'Which patients’ tests were looked at again after failures of runs, in counts only: a row for each failure that it is about.',
      columns: lookBackColumns,
      rows: lookBackRows,
      primaryKey: ['look_back_id', 'number'],
      foreignKeys: [
        keyTo('failure_id', 'failures'),
        keyTo('analyzer_id', 'analyzers'),
        keyTo('entry_id', 'audit-trail'),
      ],
      entriesOf: ({ entry }) => [entry],
    }),
  ];
}
