/**
 * The columns of the runs' CSV file, in order: what each is called, its unit and what it holds. Names are stable: whoever
 * reads the file by name goes on reading it. A new column goes to the end of its group; none changes its meaning.
 */
import {
  dlcoUnitSchema,
  findingCheckSchema,
  gasConditionSchema,
  methodSchema,
  pressureUnitSchema,
  routeSchema,
  runReasonSchema,
  temperatureUnitSchema,
} from '../journal/vocabulary.ts';
import { attachedCell } from './attachedCell.ts';
import {
  computed,
  person,
  type RunRow,
  recorded,
  text,
  time,
  type WrittenColumn,
  whole,
} from './columnKinds.ts';
import { always, alwaysOneOf, oneOf } from './columns.ts';
import { limitColumns } from './limitColumns.ts';
import { verdictColumns } from './verdictColumns.ts';

const body = ({ run }: RunRow) => run.body;
const reading = ({ run }: RunRow) => run.body.reading;

export const runColumns: readonly WrittenColumn[] = [
  text('run_id', 'Id of the run', ({ run }) => run.id, always),
  time('made_at', 'When the run was made', (row) => body(row).madeAt, always),
  time('recorded_at', 'When it was written into the journal', ({ run }) => run.entry.at, always),
  text('time_zone', 'Time zone of the workstation', ({ run }) => run.entry.zone, always),
  text('analyzer_id', 'Id of the analyzer', (row) => body(row).analyzerId, always),
  text(
    'analyzer',
    'Label of the analyzer as it is now',
    (row) => row.logbook.analyzers.get(body(row).analyzerId)?.description.label,
  ),
  text(
    'analyzer_serial',
    'Serial number of the analyzer as it is now',
    (row) => row.logbook.analyzers.get(body(row).analyzerId)?.description.serial,
  ),
  text('syringe_id', 'Id of the syringe', (row) => body(row).syringeId, always),
  text(
    'syringe',
    'Label of the syringe as it is now',
    (row) => row.logbook.syringes.get(body(row).syringeId)?.description.label,
  ),
  text('method', 'syringe or precision-gas', (row) => body(row).method, alwaysOneOf(methodSchema.options)),
  text(
    'route',
    'patient-test: through the normal patient test; built-in: through the simulation routine of the analyzer',
    (row) => body(row).route,
    alwaysOneOf(routeSchema.options),
  ),
  text(
    'reason',
    'weekly, suspected-fault, after-service or repeat',
    (row) => body(row).reason,
    alwaysOneOf(runReasonSchema.options),
  ),
  text(
    'technologist_initials',
    'Initials of who made the run',
    (row) => row.logbook.technologists.get(body(row).technologistId)?.initials,
  ),
  text(
    'technologist_name',
    'Name of who made the run',
    (row) => row.logbook.technologists.get(body(row).technologistId)?.name,
  ),
  text(
    'recorded_by',
    'Initials and name of who wrote it down',
    (row) => person(row, row.run.entry.by),
    always,
  ),
  text('technologist_id', 'Id of who made the run', (row) => body(row).technologistId, always),
  text(
    'investigates_run_id',
    'Id of the run whose failure this one looks into',
    (row) => body(row).investigates?.runId,
  ),
  text(
    'investigates_check',
    'By which check: repeat, volume-check, other-route, other-analyzer, read-conditions, other-gas or biological-control',
    (row) => body(row).investigates?.check,
    oneOf(findingCheckSchema.options),
  ),

  recorded('temperature_c', '°C', 'Room temperature', (row) => body(row).ambient.temperatureC, always),
  recorded(
    'pressure_as_typed',
    'see pressure_unit',
    'Barometric pressure as it was typed',
    (row) => body(row).pressureAsTyped.value,
    always,
  ),
  text(
    'pressure_unit',
    'Unit it was typed in',
    (row) => body(row).pressureAsTyped.unit,
    alwaysOneOf(pressureUnitSchema.options),
  ),
  computed(
    'barometric_mmhg',
    'mmHg',
    'Barometric pressure',
    (row) => body(row).ambient.barometricMmHg,
    always,
  ),
  recorded(
    'relative_humidity_fraction',
    'fraction',
    'Relative humidity, 0 to 1',
    (row) => body(row).ambient.relativeHumidity,
  ),
  recorded(
    'temperature_as_typed',
    'see temperature_unit',
    'Room temperature as it was typed; empty where that is temperature_c itself',
    (row) => body(row).temperatureAsTyped?.value,
  ),
  text(
    'temperature_unit',
    'Unit that temperature_as_typed was typed in',
    (row) => body(row).temperatureAsTyped?.unit,
    oneOf(temperatureUnitSchema.options),
  ),

  recorded('reported_va_l', 'L', 'VA as the analyzer reported it', (row) => reading(row).vaL, always),
  text(
    'reported_va_condition',
    'Gas condition of the reported VA',
    (row) => reading(row).vaReportedAs,
    alwaysOneOf(gasConditionSchema.options),
  ),
  recorded(
    'reported_dlco',
    'see dlco_unit',
    'DLCO as the analyzer reported it',
    (row) => reading(row).dlco,
    always,
  ),
  text(
    'dlco_unit',
    'Unit of the reported DLCO',
    (row) => reading(row).dlcoUnit,
    alwaysOneOf(dlcoUnitSchema.options),
  ),
  recorded(
    'reported_inspired_volume_l',
    'L',
    'Inspired volume as reported, in the condition of VA',
    (row) => reading(row).inspiredVolumeL,
  ),
  recorded(
    'reported_volume_check_l',
    'L',
    'Volume check as reported, BTPS',
    (row) => reading(row).volumeCheckL,
  ),
  recorded('breath_hold_s', 's', 'Breath-hold time as reported', (row) => reading(row).breathHoldS),

  text(
    'conversion_kind',
    'computed: from the room of the day; fixed: by a constant',
    (row) => body(row).conversion.kind,
    alwaysOneOf(['computed', 'fixed']),
  ),
  text(
    'conversion_assumed_condition',
    'Condition the analyzer took the gas to be in, where computed',
    (row) => {
      const { conversion } = body(row);
      return conversion.kind === 'computed' ? conversion.assumed : undefined;
    },
    oneOf(['ATPD', 'ATPS']),
  ),
  computed(
    'conversion_factor',
    '',
    'Multiplies a reported volume to give ambient litres',
    ({ assessment }) => assessment?.numbers.factor,
  ),
  computed(
    'ambient_va_l',
    'L',
    'Reported VA in ambient litres',
    ({ assessment }) => assessment?.numbers.ambientVaL,
  ),
  recorded(
    'syringe_stroke_l',
    'L',
    'Nominal volume drawn into the syringe',
    (row) => body(row).syringe.strokeL,
    always,
  ),
  recorded(
    'plunger_start_l',
    'L',
    'Room air left in the syringe before the manoeuvre',
    (row) => body(row).syringe.volumeInsideL,
    always,
  ),
  recorded(
    'syringe_dead_space_l',
    'L',
    'Dead space of the syringe with hose and filter',
    (row) => body(row).syringe.deadSpaceL,
    always,
  ),
  recorded(
    'analyzer_dead_space_l',
    'L',
    'Dead space the analyzer subtracts by itself',
    (row) => body(row).analyzerDeadSpaceL,
    always,
  ),
  text(
    'attached',
    'Hose or filter left on the syringe, each with its volume, which syringe_dead_space_l holds already: Filter (40 mL); Hose (85 mL). A backslash stands before a semicolon or backslash of a name',
    (row) => attachedCell(body(row).attached),
  ),

  computed(
    'simulated_va_l',
    'L',
    'Simulated VA, from the readings as they stand',
    ({ assessment }) => assessment?.numbers.simulatedVaL,
  ),
  computed(
    'va_target_l',
    'L',
    'Target of the simulated VA',
    ({ assessment }) => assessment?.numbers.targetVaL,
  ),
  computed(
    'va_off_target_ml',
    'mL',
    'Simulated VA less its target',
    ({ assessment }) => assessment?.numbers.vaOffTargetMl,
  ),
  computed(
    'dlco_ml_min_mmhg',
    'mL/min/mmHg',
    'DLCO in the unit of its series, from the readings as they stand',
    ({ assessment }) => assessment?.numbers.dlcoMlMinMmHg,
  ),
  computed(
    'co_tracer_disagreement_fraction',
    'fraction',
    'How far CO reads low against the tracer, by the reported DLCO',
    ({ assessment }) => assessment?.numbers.coTracerDisagreement,
  ),
  computed(
    'volume_check_off_fraction',
    'fraction',
    'How far the volume check is from what is expected',
    ({ assessment }) => assessment?.numbers.volumeCheckFraction,
  ),

  ...limitColumns,
  ...verdictColumns,

  text(
    'origin',
    'bench, or import for a run from another program’s file',
    (row) => body(row).origin.kind,
    alwaysOneOf(['bench', 'import']),
  ),
  text('workstation', 'Id of the workstation it was written on', ({ run }) => run.entry.workstation, always),
  whole('seq', 'Number of the entry in the chain of its workstation', ({ run }) => run.entry.seq, always),
  text('entry_id', 'Id of the entry', ({ run }) => run.entry.id, always),
  text('entry_hash', 'SHA-256 of the entry', ({ run }) => run.entry.hash, always),
  // The head stands in every row. RFC 4180 has no place for a line about the file, a line of another shape stops a strict
  // reader, and a file's name does not survive being saved again.
  whole(
    'chain_head_seq',
    'Number of the last entry of that workstation when the file was made',
    ({ head }) => head?.seq,
  ),
  text(
    'chain_head_hash',
    'SHA-256 of that last entry: it proves every entry of the chain up to it',
    ({ head }) => head?.hash,
  ),
];
