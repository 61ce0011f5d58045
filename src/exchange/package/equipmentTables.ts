/** What there is: analyzers, syringes, cylinders, biological controls by their code, and the people of the logbook, as they stand now. */
import type { Entry } from '../../journal/entries.ts';
import type {
  Analyzer,
  Cylinder,
  Logbook,
  Retirement,
  Subject,
  Syringe,
  Technologist,
} from '../../journal/logbook.ts';
import {
  dlcoUnitSchema,
  gasAnalysisSchema,
  gasConditionSchema,
  pressureUnitSchema,
  roleSchema,
  routeSchema,
  tracerSchema,
} from '../../journal/vocabulary.ts';
import { attachedCell } from '../attachedCell.ts';
import { person } from '../columnKinds.ts';
import { always, alwaysOneOf, type Column, columnsFor, oneOf } from '../columns.ts';
import type { Chosen } from './chosen.ts';
import type { PackageSource } from './source.ts';
import { keyTo, type PackageTable, tableOf } from './table.ts';

interface Kept {
  id: string;
  retired: Retirement | null;
  history: readonly Entry[];
}
type Row<T extends Kept> = { logbook: Logbook; thing: T };

/** When it came, how often its description changed, and whether it is in use. */
function keptColumns<T extends Kept>(): readonly Column<Row<T>>[] {
  const { text, time, whole, truth } = columnsFor<Row<T>>();
  const first = ({ thing }: Row<T>) => thing.history[0];
  return [
    time('added_at', 'When it was entered', first),
    text('added_by', 'Initials and name of who entered it', (row) => person(row, first(row)?.by)),
    whole(
      'entries',
      'How many entries made it what it is; all are in the audit trail',
      ({ thing }) => thing.history.length,
      always,
    ),
    truth('in_use', 'false once it was retired', ({ thing }) => thing.retired === null, always),
    time('retired_at', 'When it was retired', ({ thing }) => {
      const zone = thing.history.at(-1)?.zone;
      return thing.retired === null || zone === undefined ? null : { at: thing.retired.at, zone };
    }),
    text('retired_by', 'Initials and name of who retired it', (row) => person(row, row.thing.retired?.by)),
    text('retire_reason', 'Why it was retired', ({ thing }) => thing.retired?.reason),
  ];
}

const analyzers = columnsFor<Row<Analyzer>>();
const analyzerColumns: readonly Column<Row<Analyzer>>[] = [
  analyzers.text('analyzer_id', 'Id of the analyzer', ({ thing }) => thing.id, always),
  analyzers.text('label', 'Its label', ({ thing }) => thing.description.label, always),
  analyzers.text('place', 'Where it stands', ({ thing }) => thing.description.place),
  analyzers.text('serial', 'Serial number', ({ thing }) => thing.description.serial),
  analyzers.text(
    'syringe_id',
    'Id of the syringe it is usually tested with',
    ({ thing }) => thing.description.syringeId,
    always,
  ),
  analyzers.text(
    'route',
    'Route that is usual',
    ({ thing }) => thing.description.route,
    alwaysOneOf(routeSchema.options),
  ),
  analyzers.text(
    'conversion_kind',
    'computed: from the room of the day; fixed: by a constant',
    ({ thing }) => thing.description.conversion.kind,
    alwaysOneOf(['computed', 'fixed']),
  ),
  analyzers.text(
    'conversion_assumed_condition',
    'Condition the analyzer takes the gas to be in, where computed',
    ({ thing: { description } }) =>
      description.conversion.kind === 'computed' ? description.conversion.assumed : undefined,
    oneOf(['ATPD', 'ATPS']),
  ),
  analyzers.recorded(
    'conversion_fixed_factor',
    '',
    'The constant, where fixed',
    ({ thing: { description } }) =>
      description.conversion.kind === 'fixed' ? description.conversion.factor : undefined,
  ),
  analyzers.text(
    'va_condition',
    'Gas condition in which it reports VA',
    ({ thing }) => thing.description.vaReportedAs,
    alwaysOneOf(gasConditionSchema.options),
  ),
  analyzers.recorded(
    'analyzer_dead_space_l',
    'L',
    'Dead space it subtracts by itself',
    ({ thing }) => thing.description.analyzerDeadSpaceL,
    always,
  ),
  analyzers.recorded(
    'plunger_start_l',
    'L',
    'Room air left in the syringe before the manoeuvre',
    ({ thing }) => thing.description.volumeInsideL,
    always,
  ),
  analyzers.text(
    'pressure_unit',
    'Unit in which pressure is typed',
    ({ thing }) => thing.description.pressureUnit,
    alwaysOneOf(pressureUnitSchema.options),
  ),
  analyzers.text(
    'dlco_unit',
    'Unit in which it reports DLCO',
    ({ thing }) => thing.description.dlcoUnit,
    alwaysOneOf(dlcoUnitSchema.options),
  ),
  analyzers.text(
    'gas_analysis',
    'How it gets its sample',
    ({ thing }) => thing.description.gasAnalysis,
    oneOf(gasAnalysisSchema.options),
  ),
  analyzers.text(
    'tracer',
    'Tracer gas',
    ({ thing }) => thing.description.tracer,
    oneOf(tracerSchema.options),
  ),
  ...keptColumns<Analyzer>(),
];

const syringes = columnsFor<Row<Syringe>>();
const syringeColumns: readonly Column<Row<Syringe>>[] = [
  syringes.text('syringe_id', 'Id of the syringe', ({ thing }) => thing.id, always),
  syringes.text('label', 'Its label', ({ thing }) => thing.description.label, always),
  syringes.text('serial', 'Serial number', ({ thing }) => thing.description.serial),
  syringes.recorded('volume_l', 'L', 'Nominal full stroke', ({ thing }) => thing.description.volumeL, always),
  syringes.recorded(
    'dead_space_l',
    'L',
    'Volume that the plunger cannot expel',
    ({ thing }) => thing.description.deadSpaceL,
    always,
  ),
  syringes.recorded(
    'certified_volume_l',
    'L',
    'Volume as certified',
    ({ thing }) => thing.description.certifiedVolumeL,
  ),
  syringes.text(
    'attachments',
    'Hoses and filters that may be left on it, as in the column attached of the runs',
    ({ thing }) => attachedCell(thing.description.attachments),
  ),
  syringes.date(
    'calibration_due_on',
    'When its certificate has to be renewed',
    ({ thing }) => thing.description.calibrationDueOn,
  ),
  syringes.date(
    'leak_check_due_on',
    'When its leak check has to be repeated',
    ({ thing }) => thing.description.leakCheckDueOn,
  ),
  ...keptColumns<Syringe>(),
];

const cylinders = columnsFor<Row<Cylinder>>();
const fractionOf = (thing: Cylinder, wanted: string) =>
  thing.description.contents.find(({ gas }) => gas === wanted)?.fraction;
const cylinderColumns: readonly Column<Row<Cylinder>>[] = [
  cylinders.text('cylinder_id', 'Id of the cylinder', ({ thing }) => thing.id, always),
  cylinders.text('label', 'Its label', ({ thing }) => thing.description.label, always),
  cylinders.text('serial', 'Serial number', ({ thing }) => thing.description.serial),
  ...(['CO', 'CH4', 'He', 'Ne', 'C2H2', 'O2', 'N2'] as const).map((gas) =>
    cylinders.recorded(`${gas.toLowerCase()}_fraction`, 'fraction', `${gas} in it, 0 to 1`, ({ thing }) =>
      fractionOf(thing, gas),
    ),
  ),
  cylinders.date(
    'expires_on',
    'Last day on which its concentrations are certified',
    ({ thing }) => thing.description.expiresOn,
  ),
  ...keptColumns<Cylinder>(),
];

const subjects = columnsFor<Row<Subject>>();
const subjectColumns: readonly Column<Row<Subject>>[] = [
  subjects.text('subject_id', 'Id of the code', ({ thing }) => thing.id, always),
  subjects.text(
    'code',
    'The code that stands for a healthy person',
    ({ thing }) => thing.description.code,
    always,
  ),
  subjects.text('note', 'Note of the laboratory', ({ thing }) => thing.description.note),
  ...keptColumns<Subject>(),
];

const people = columnsFor<Row<Technologist>>();
const peopleColumns: readonly Column<Row<Technologist>>[] = [
  people.text('technologist_id', 'Id of the person', ({ thing }) => thing.id, always),
  people.text('initials', 'Initials that stand beside every record', ({ thing }) => thing.initials, always),
  people.text('name', 'Name', ({ thing }) => thing.name, always),
  people.text('role', 'Role as it is now', ({ thing }) => thing.role, alwaysOneOf(roleSchema.options)),
  ...keptColumns<Technologist>(),
];

export function equipmentTables({ logbook }: PackageSource, chosen: Chosen): readonly PackageTable[] {
  const rowsOf = <T extends Kept>(things: ReadonlyMap<string, T>): Row<T>[] =>
    [...things.values()].map((thing) => ({ logbook, thing }));
  const entriesOf = ({ thing }: Row<Kept>) => thing.history;
  return [
    tableOf({
      name: 'analyzers',
      title: 'Analyzers',
      description:
        'The analyzers that this package is about, as they are described now. Each run keeps its own copy of what it was judged with.',
      columns: analyzerColumns,
      rows: rowsOf(logbook.analyzers).filter(({ thing }) => chosen.concerns(thing.id)),
      primaryKey: ['analyzer_id'],
      foreignKeys: [keyTo('syringe_id', 'syringes')],
      entriesOf,
    }),
    tableOf({
      name: 'syringes',
      title: 'Syringes',
      description: 'Every syringe of the laboratory as it is described now.',
      columns: syringeColumns,
      rows: rowsOf(logbook.syringes),
      primaryKey: ['syringe_id'],
      entriesOf,
    }),
    tableOf({
      name: 'cylinders',
      title: 'Cylinders of test gas',
      description: 'Every cylinder of the laboratory as it is described now.',
      columns: cylinderColumns,
      rows: rowsOf(logbook.cylinders),
      primaryKey: ['cylinder_id'],
      entriesOf,
    }),
    tableOf({
      name: 'subjects',
      title: 'Biological controls',
      description: 'Healthy persons who are tested as controls, each known by a code and nothing else.',
      columns: subjectColumns,
      rows: rowsOf(logbook.subjects),
      primaryKey: ['subject_id'],
      entriesOf,
    }),
    tableOf({
      name: 'people',
      title: 'People who write in the logbook',
      description: 'Everybody who ever could, with the role that they have now.',
      columns: peopleColumns,
      rows: rowsOf(logbook.technologists),
      primaryKey: ['technologist_id'],
      entriesOf,
    }),
  ];
}
