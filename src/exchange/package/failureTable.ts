import type { Logbook } from '../../journal/logbook.ts';
import type { SignatureVerdict } from '../../journal/signature.ts';
import { methodSchema, routeSchema } from '../../journal/vocabulary.ts';
import { person } from '../columnKinds.ts';
import { always, alwaysOneOf, type Column, columnsFor, oneOf } from '../columns.ts';
import { type Chosen, endOf, openedAt, wasOpen } from './chosen.ts';
import { analyzerColumns } from './commonColumns.ts';
import type { ControlFailure, PackageSource, RunFailure } from './source.ts';
import { keyTo, type PackageTable, tableOf } from './table.ts';

export const signatureWords = [
  'unsigned',
  'valid',
  'not-valid',
  'unknown-key',
  'another-person',
  'key-later',
  'key-replaced',
] as const satisfies readonly SignatureVerdict[];

export const signatureMeaning =
  'unsigned; valid; not-valid: it does not fit what is said; unknown-key; another-person: the key is somebody else’s; key-later: registered only afterwards; key-replaced: its owner had a newer one';

interface FailureRow {
  logbook: Logbook;
  failure: RunFailure | ControlFailure;
  signatureOf: (entryId: string) => SignatureVerdict | undefined;
}

const ofRun = ({ failure }: FailureRow) => ('runs' in failure ? failure : undefined);
const ofControl = ({ failure }: FailureRow) => ('controls' in failure ? failure : undefined);
const zoneOf = ({ failure }: FailureRow) => failure.openedBy.entry.zone;
const closureOf = ({ failure }: FailureRow) =>
  failure.ended?.by === 'closure' ? failure.ended.closure : undefined;
const runClosure = (row: FailureRow) => {
  const closure = closureOf(row);
  return closure?.kind === 'failure-closed' ? closure : undefined;
};
const controlClosure = (row: FailureRow) => {
  const closure = closureOf(row);
  return closure?.kind === 'control-closed' ? closure : undefined;
};

const seriesPart = ({ series }: RunFailure | ControlFailure) => {
  if ('route' in series) return series.quantity;
  return series.kind === 'biological' ? series.quantity : series.level;
};

const failures = columnsFor<FailureRow>();

const failureColumns: readonly Column<FailureRow>[] = [
  failures.text(
    'failure_id',
    'Id of the run or control that opened it, and after a slash the part of it that failed',
    ({ failure }) => `${failure.openedBy.id}/${seriesPart(failure)}`,
    always,
  ),
  failures.text(
    'of',
    'run: a simulation with a syringe; biological, simulator: a control',
    (row) => ofControl(row)?.series.kind ?? 'run',
    alwaysOneOf(['run', 'biological', 'simulator']),
  ),
  ...analyzerColumns<FailureRow>(({ failure }) => failure.analyzerId, true),
  failures.text(
    'method',
    'Method of the run',
    (row) => ofRun(row)?.series.method,
    oneOf(methodSchema.options),
  ),
  failures.text('route', 'Route of the run', (row) => ofRun(row)?.series.route, oneOf(routeSchema.options)),
  failures.text(
    'part',
    'What failed: va or dlco; of a simulator its level, low or high',
    ({ failure }) => seriesPart(failure),
    alwaysOneOf(['va', 'dlco', 'low', 'high']),
  ),
  failures.text('subject_id', 'Id of the code of a biological control', (row) => {
    const series = ofControl(row)?.series;
    return series?.kind === 'biological' ? series.subjectId : undefined;
  }),
  failures.time(
    'opened_at',
    'When the run or control was made that opened it',
    (row) => ({ at: openedAt(row.failure), zone: zoneOf(row) }),
    always,
  ),
  failures.text('opened_by_run_id', 'Id of the run that opened it', (row) => ofRun(row)?.openedBy.id),
  failures.text(
    'opened_by_control_id',
    'Id of the control that opened it',
    (row) => ofControl(row)?.openedBy.id,
  ),
  failures.whole(
    'made_while_open',
    'Runs or controls of the series that were made while it was open, with the one that opened it',
    (row) => ofRun(row)?.runs.length ?? ofControl(row)?.controls.length,
    always,
  ),
  failures.text(
    'state',
    'open; closed by a supervisor; ended by a new-baseline',
    ({ failure: { ended } }) =>
      ended === null ? 'open' : ended.by === 'closure' ? 'closed' : 'new-baseline',
    alwaysOneOf(['open', 'closed', 'new-baseline']),
  ),
  failures.time('ended_at', 'When it ended', (row) => {
    const at = endOf(row.failure);
    return at === null ? null : { at, zone: closureOf(row)?.zone ?? zoneOf(row) };
  }),
  failures.text('closed_by', 'Initials and name of the supervisor who closed it', (row) =>
    person(row, closureOf(row)?.by),
  ),
  failures.text('cause', 'What the supervisor took for the cause', (row) => closureOf(row)?.body.cause),
  failures.text(
    'corrective_action',
    'What was done, as the closure sums it up',
    (row) => closureOf(row)?.body.correctiveAction,
  ),
  failures.text(
    'close_reason',
    'Why a failure of runs could be closed',
    (row) => runClosure(row)?.body.reason,
  ),
  failures.text(
    'look_back',
    'What was decided about the patients tested meanwhile, where a control failed; of runs see look-backs',
    (row) => controlClosure(row)?.body.lookBack,
  ),
  failures.text('proof_run_ids', 'Ids of the passing runs that prove the repair, parted by a space', (row) =>
    runClosure(row)?.body.proofRunIds?.join(' '),
  ),
  failures.text(
    'signature',
    `What the closure’s signature is worth. ${signatureMeaning}`,
    (row) => row.signatureOf(closureOf(row)?.id ?? ''),
    oneOf(signatureWords),
  ),
  failures.text('closure_entry_id', 'Id of the entry that closed it', (row) => closureOf(row)?.id),
];

export function failureTable(source: PackageSource, chosen: Chosen): PackageTable {
  const { logbook, signatures } = source;
  const verdicts = new Map(signatures.map(({ entry, verdict }) => [entry.id, verdict]));
  const taken = [...source.failures, ...source.controlFailures]
    .filter((failure) => chosen.concerns(failure.analyzerId) && wasOpen(failure, chosen))
    .toSorted((one, other) => Date.parse(openedAt(one)) - Date.parse(openedAt(other)));
  return tableOf({
    name: 'failures',
    title: 'Failures',
    description:
      'A row for each series of runs or controls in which a failure was open on any day of the period: what opened it, and how it ended.',
    columns: failureColumns,
    rows: taken.map((failure): FailureRow => ({ logbook, failure, signatureOf: (id) => verdicts.get(id) })),
    primaryKey: ['failure_id'],
    foreignKeys: [
      keyTo('analyzer_id', 'analyzers'),
      keyTo('subject_id', 'subjects'),
      keyTo('opened_by_run_id', 'runs', 'run_id'),
      keyTo('closure_entry_id', 'audit-trail', 'entry_id'),
    ],
    entriesOf: (row) => [row.failure.openedBy.entry, closureOf(row)].filter((entry) => entry !== undefined),
  });
}
