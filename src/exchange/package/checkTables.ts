/** The checks other than simulations and controls, and every figure that was noted with them. */
import {
  barometerCheck,
  linearityCheck,
  syringeVolumeCheck,
  volumeCalibrationCheck,
} from '../../core/index.ts';
import { notedCheckSchema } from '../../journal/bodies.ts';
import type { Logbook, LoggedCheck } from '../../journal/logbook.ts';
import { findingCheckSchema, gasSchema } from '../../journal/vocabulary.ts';
import { person } from '../columnKinds.ts';
import { always, alwaysOneOf, type Column, columnsFor, oneOf } from '../columns.ts';
import { voidedColumns } from '../standingColumns.ts';
import type { Chosen } from './chosen.ts';
import { analyzerColumns, writtenColumns } from './commonColumns.ts';
import type { PackageSource } from './source.ts';
import { keyTo, type PackageTable, tableOf } from './table.ts';

interface CheckRow {
  logbook: Logbook;
  check: LoggedCheck;
}

/** One figure that was read, against what it should be. */
interface ReadingRow {
  check: LoggedCheck;
  /** From 1 within its check. */
  number: number;
  quantity: 'volume' | 'linearity' | 'syringe-volume' | 'barometer';
  unit: string;
  gas?: string;
  flowLPerS?: number | undefined;
  expected: number;
  read: number;
  /** What `offFraction` and the limit are fractions of. */
  relativeTo: number;
  offFraction: number;
  limitFraction: number;
  within: boolean;
}

const checkKinds = columnsFor<CheckRow>();
const body = ({ check }: CheckRow) => check.entry.body;

const checkColumns: readonly Column<CheckRow>[] = [
  checkKinds.text('check_id', 'Id of the check', ({ check }) => check.id, always),
  checkKinds.text(
    'check',
    'What was checked',
    (row) => body(row).check,
    alwaysOneOf(notedCheckSchema.options),
  ),
  checkKinds.time(
    'done_at',
    'When it was made',
    (row) => ({ at: body(row).doneAt, zone: row.check.entry.zone }),
    always,
  ),
  ...analyzerColumns<CheckRow>((row) => body(row).analyzerId, false),
  checkKinds.text('syringe_id', 'Id of the syringe', (row) => body(row).syringeId),
  checkKinds.text(
    'syringe',
    'Label of the syringe as it is now',
    (row) => row.logbook.syringes.get(body(row).syringeId ?? '')?.description.label,
  ),
  checkKinds.text(
    'made_by',
    'Initials and name of who made it',
    (row) => person(row, body(row).technologistId),
    always,
  ),
  checkKinds.text(
    'outcome',
    'As it was noted on the day',
    (row) => body(row).outcome,
    alwaysOneOf(['passed', 'failed', 'noted']),
  ),
  checkKinds.date(
    'valid_until',
    'The date up to which it holds, where a certificate names one',
    (row) => body(row).validUntil,
  ),
  checkKinds.text(
    'certificate',
    'Number of the syringe’s certificate',
    (row) => body(row).syringe?.certificate,
  ),
  checkKinds.text('certificate_by', 'Who issued it', (row) => body(row).syringe?.issuedBy),
  checkKinds.whole(
    'readings',
    'How many rows of check-readings belong to it',
    ({ check }) => readingsOf(check).length,
    always,
  ),
  checkKinds.text('note', 'Note of who made it', (row) => body(row).note),
  checkKinds.text(
    'investigates_run_id',
    'Id of the run whose failure it looks into',
    (row) => body(row).investigates?.runId,
  ),
  checkKinds.text(
    'investigates_check',
    'By which check',
    (row) => body(row).investigates?.check,
    oneOf(findingCheckSchema.options),
  ),
  ...voidedColumns<CheckRow>(({ check }) => check),
  ...writtenColumns<CheckRow>(({ check }) => check.entry),
];

const readingKinds = columnsFor<ReadingRow>();

const readingColumns: readonly Column<ReadingRow>[] = [
  readingKinds.text('check_id', 'Id of the check', ({ check }) => check.id, always),
  readingKinds.whole(
    'number',
    'Number of the reading within its check, from 1',
    ({ number }) => number,
    always,
  ),
  readingKinds.text(
    'quantity',
    'volume: a stroke read by the analyzer; linearity: a point of a gas analyzer; syringe-volume: a syringe as measured or certified; barometer: the laboratory’s barometer',
    ({ quantity }) => quantity,
    alwaysOneOf(['volume', 'linearity', 'syringe-volume', 'barometer']),
  ),
  readingKinds.text('unit', 'Unit of expected, read and relative_to', ({ unit }) => unit, always),
  readingKinds.text('gas', 'Gas of a linearity point', ({ gas }) => gas, oneOf(gasSchema.options)),
  readingKinds.recorded('flow_l_per_s', 'L/s', 'Flow of a stroke', ({ flowLPerS }) => flowLPerS),
  readingKinds.recorded('expected', 'see unit', 'What it should read', ({ expected }) => expected, always),
  readingKinds.recorded('read', 'see unit', 'What was read', ({ read }) => read, always),
  readingKinds.recorded(
    'relative_to',
    'see unit',
    'What off_fraction and limit_fraction are fractions of: what it should read, or of linearity the full scale',
    ({ relativeTo }) => relativeTo,
    always,
  ),
  readingKinds.computed(
    'off_fraction',
    'fraction',
    'How far it reads from what it should, positive when high',
    ({ offFraction }) => offFraction,
    always,
  ),
  readingKinds.recorded(
    'limit_fraction',
    'fraction',
    'Largest distance allowed by the limit of the day, ends allowed',
    ({ limitFraction }) => limitFraction,
    always,
  ),
  readingKinds.truth('within', 'Whether it lies within that limit', ({ within }) => within, always),
];

/** Every figure that was noted with a check, in the order of its entry. */
function readingsOf(check: LoggedCheck): readonly ReadingRow[] {
  const { volume, linearity = [], syringe, barometer } = check.entry.body;
  const readings: Omit<ReadingRow, 'check' | 'number'>[] = [];
  if (volume !== null) {
    const { expectedL: expected, limitFraction, flowLPerS = [] } = volume;
    for (const [index, reading] of volumeCalibrationCheck(volume).readings.entries()) {
      const { readL: read, deviationFraction: offFraction, within } = reading;
      const stroke = { expected, read, relativeTo: expected, offFraction, limitFraction, within };
      readings.push({ quantity: 'volume', unit: 'L', flowLPerS: flowLPerS[index], ...stroke });
    }
  }
  for (const { gas, unit, ...input } of linearity) {
    const { fullScale: relativeTo, limitFraction } = input;
    for (const { expected, read, deviationFraction: offFraction, within } of linearityCheck(input).points) {
      readings.push({
        quantity: 'linearity',
        unit,
        gas,
        expected,
        read,
        relativeTo,
        offFraction,
        limitFraction,
        within,
      });
    }
  }
  if (syringe !== undefined) {
    const { nominalL: expected, measuredL: read, limitFraction } = syringe;
    const { deviationFraction: offFraction, within } = syringeVolumeCheck(syringe);
    const volumes = { expected, read, relativeTo: expected, offFraction, limitFraction, within };
    readings.push({ quantity: 'syringe-volume', unit: 'L', ...volumes });
  }
  if (barometer !== undefined) {
    const { unit, reference: expected, read, limitFraction } = barometer;
    const { deviationFraction: offFraction, within } = barometerCheck(barometer);
    const pressures = { expected, read, relativeTo: expected, offFraction, limitFraction, within };
    readings.push({ quantity: 'barometer', unit, ...pressures });
  }
  return readings.map((reading, index) => ({ check, number: index + 1, ...reading }));
}

export function checkTables({ logbook }: PackageSource, chosen: Chosen): readonly PackageTable[] {
  const checks = logbook.checks
    .filter(({ entry }) => chosen.concerns(entry.body.analyzerId) && chosen.isWithin(entry.body.doneAt))
    .toSorted((one, other) => Date.parse(one.entry.body.doneAt) - Date.parse(other.entry.body.doneAt));
  return [
    tableOf({
      name: 'checks',
      title: 'Other checks',
      description:
        'Volume calibration checks, linearity, leak checks and certificates of syringes, the barometer: a row for each, in the order they were made. A check of a syringe or of the barometer is here whichever analyzers were chosen.',
      columns: checkColumns,
      rows: checks.map((check) => ({ logbook, check })),
      primaryKey: ['check_id'],
      foreignKeys: [
        keyTo('analyzer_id', 'analyzers'),
        keyTo('syringe_id', 'syringes'),
        keyTo('entry_id', 'audit-trail'),
      ],
      entriesOf: ({ check }) => [check.entry],
    }),
    tableOf({
      name: 'check-readings',
      title: 'Readings of the other checks',
      description:
        'A row for each stroke, point of linearity, measured syringe or barometer reading of a check.',
      columns: readingColumns,
      rows: checks.flatMap(readingsOf),
      primaryKey: ['check_id', 'number'],
      foreignKeys: [keyTo('check_id', 'checks')],
    }),
  ];
}
