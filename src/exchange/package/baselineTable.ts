/** The baselines: of every series and epoch what the limits rest on, and who accepted it. */
import { methodSchema, routeSchema } from '../../journal/vocabulary.ts';
import { person } from '../columnKinds.ts';
import { always, alwaysOneOf, type Column, columnsFor, oneOf } from '../columns.ts';
import { type Baseline, baselinesOf } from './baselines.ts';
import type { Chosen } from './chosen.ts';
import { analyzerColumns } from './commonColumns.ts';
import type { PackageSource } from './source.ts';
import { keyTo, type PackageTable, tableOf } from './table.ts';

type Row = Baseline & { number: number };
const { text, computed, recorded, whole, time } = columnsFor<Row>();

const columns: readonly Column<Row>[] = [
  whole('number', 'Number of the row, from 1', ({ number }) => number, always),
  ...analyzerColumns<Row>(({ series }) => series.analyzerId, true),
  text(
    'of',
    'run: simulations with a syringe; biological, simulator: controls',
    ({ series }) => series.of,
    alwaysOneOf(['run', 'biological', 'simulator']),
  ),
  text('method', 'Method of the runs', ({ series }) => series.run?.method, oneOf(methodSchema.options)),
  text('route', 'Route of the runs', ({ series }) => series.run?.route, oneOf(routeSchema.options)),
  text('subject_id', 'Id of the code of a biological control', ({ series }) => series.subjectId),
  text(
    'part',
    'va or dlco; of a simulator its level, whose values are reported less target',
    ({ series }) => series.part,
    alwaysOneOf(['va', 'dlco', 'low', 'high']),
  ),
  text(
    'unit',
    'Unit of mean and sd',
    ({ series }) => (series.part === 'va' ? 'L' : 'mL/min/mmHg'),
    alwaysOneOf(['L', 'mL/min/mmHg']),
  ),
  whole('epoch', 'How many baselines of the analyzer had been started before', ({ epoch }) => epoch, always),
  time('from', 'When it began; empty for the first', ({ start }) =>
    start === null ? null : { at: start.body.from, zone: start.zone },
  ),
  text('reason', 'Why it was started', ({ start }) => start?.body.reason),
  time('until', 'When the next one began; empty where it is in force at the period’s end', ({ next }) =>
    next === null ? null : { at: next.body.from, zone: next.zone },
  ),
  whole(
    'made',
    'Runs or controls made in it up to the period’s end, without those struck out',
    ({ made }) => made,
    always,
  ),
  whole('accepted', 'Those of them that may enter its limits', ({ accepted }) => accepted, always),
  text(
    'state',
    'too-few: no limits yet; provisional: of all accepted so far; frozen: of the first ones; rolling: of the newest ones',
    ({ state }) => state,
    alwaysOneOf(['too-few', 'provisional', 'frozen', 'rolling']),
  ),
  whole('n', 'How many the mean and SD rest on', ({ n }) => n, always),
  computed('mean', 'see unit', 'Mean; empty while too few', (row) => row.mean),
  computed('sd', 'see unit', 'Sample SD, divisor n − 1', ({ sd }) => sd),
  time(
    'accepted_at',
    'When a supervisor accepted it last; limits come from the runs, not from this',
    ({ acceptance }) => acceptance,
  ),
  text('accepted_by', 'Initials and name of the supervisor', (row) => person(row, row.acceptance?.by)),
  whole('accepted_n', 'Runs that were looked at then', ({ acceptance }) => acceptance?.body.runIds.length),
  recorded('accepted_mean', 'see unit', 'Mean as it was then', ({ acceptance }) => acceptance?.body.mean),
  recorded('accepted_sd', 'see unit', 'SD as it was then', ({ acceptance }) => acceptance?.body.sd),
  text('accept_reason', 'What the supervisor wrote', ({ acceptance }) => acceptance?.body.reason),
];

export function baselineTable(source: PackageSource, chosen: Chosen): PackageTable {
  const rows = baselinesOf(source, chosen).map(
    (baseline, index): Row => ({ ...baseline, number: index + 1 }),
  );
  return tableOf({
    name: 'baselines',
    title: 'Baselines',
    description:
      'A row for each series and baseline that was in force on any day of the period: what the own limits rest on, as it stood at the period’s end.',
    columns,
    rows,
    primaryKey: ['number'],
    foreignKeys: [keyTo('analyzer_id', 'analyzers'), keyTo('subject_id', 'subjects')],
    entriesOf: ({ start, next, acceptance }) => [start, next, acceptance].filter((entry) => entry !== null),
  });
}
