/** The columns of the controls besides the syringe. */
import type { BiologicalAssessment, SimulatorAssessment } from '../../core/index.ts';
import type { ControlJudgement, SimulatorContent } from '../../journal/entries.ts';
import type { Logbook, LoggedControl } from '../../journal/logbook.ts';
import { dlcoUnitSchema, findingCheckSchema, haemoglobinUnitSchema } from '../../journal/vocabulary.ts';
import { person } from '../columnKinds.ts';
import { always, alwaysOneOf, type Column, columnsFor, oneOf } from '../columns.ts';
import { amendedColumns, setAsideColumns, verdictWords, voidedColumns } from '../standingColumns.ts';
import { analyzerColumns, writtenColumns } from './commonColumns.ts';

type Level = SimulatorContent['levels'][number];

export interface ControlRow {
  logbook: Logbook;
  logged: LoggedControl;
  /** Null in a person's test. */
  level: Level | null;
  /** As it comes out today; undefined where its numbers cannot be. */
  assessment: BiologicalAssessment | SimulatorAssessment | undefined;
}

const { text, recorded, computed, whole, truth, time } = columnsFor<ControlRow>();

const control = ({ logged }: ControlRow) => logged.control;
const biological = (row: ControlRow) => {
  const one = control(row);
  return one.kind === 'biological' ? one : undefined;
};
const simulator = (row: ControlRow) => {
  const one = control(row);
  return one.kind === 'simulator' ? one : undefined;
};
const reading = (row: ControlRow) => row.level?.reading ?? biological(row)?.reading;
const basisOf = (row: ControlRow) => row.level?.basis;
const certificate = (row: ControlRow) => {
  const basis = basisOf(row);
  return basis?.kind === 'certificate' ? basis : undefined;
};
const gases = (row: ControlRow) => {
  const basis = basisOf(row);
  return basis?.kind === 'computed' ? basis : undefined;
};
const ofTheDay = ({ logged }: ControlRow): ControlJudgement => logged.entry.body.judged;
const moment = (row: ControlRow, at: string | undefined) =>
  at === undefined ? undefined : { at, zone: row.logged.entry.zone };

type JudgedSeries = ControlJudgement['series'][number];

/** What was judged of one series on the day. */
function judgedColumns(
  prefix: 'dlco' | 'va',
  label: string,
  unit: string,
  seriesOf: (row: ControlRow) => JudgedSeries | undefined,
): readonly Column<ControlRow>[] {
  const suffix = prefix === 'va' ? 'l' : 'ml_min_mmhg';
  return [
    computed(
      `${prefix}_judged_${suffix}`,
      unit,
      `${label} that was judged on the day`,
      (row) => seriesOf(row)?.value,
    ),
    whole(
      `${prefix}_n`,
      'Accepted earlier ones that mean and SD rested on, on the day',
      (row) => seriesOf(row)?.n,
    ),
    computed(
      `${prefix}_mean_${suffix}`,
      unit,
      'Mean in force on the day; empty while too few',
      (row) => seriesOf(row)?.mean,
    ),
    computed(`${prefix}_sd_${suffix}`, unit, 'Sample SD in force on the day', (row) => seriesOf(row)?.sd),
    computed(`${prefix}_z`, 'SD', 'Distance from the mean on the day', (row) => seriesOf(row)?.z),
    text(
      `${prefix}_signals`,
      'Control rules that fired on the day, parted by a space; with (levels) after it where between the two levels of the session',
      (row) =>
        seriesOf(row)
          ?.signals.map(({ rule, across }) => (across === 'levels' ? `${rule}(levels)` : rule))
          .join(' '),
    ),
  ];
}

export const controlColumns: readonly Column<ControlRow>[] = [
  text('control_id', 'Id of the control', ({ logged }) => logged.id, always),
  text(
    'part',
    'test: a person’s test; low, high: the level of a simulator',
    ({ level }) => level?.level ?? 'test',
    alwaysOneOf(['test', 'low', 'high']),
  ),
  text(
    'kind',
    'biological: a healthy person, known by a code; simulator: precision gas',
    (row) => control(row).kind,
    alwaysOneOf(['biological', 'simulator']),
  ),
  time('made_at', 'When it was made', (row) => moment(row, control(row).madeAt), always),
  ...analyzerColumns<ControlRow>((row) => control(row).analyzerId, true),
  text('subject_id', 'Id of the person’s code', (row) => biological(row)?.subjectId),
  text(
    'subject_code',
    'Code of the person, as it is now',
    (row) => row.logbook.subjects.get(biological(row)?.subjectId ?? '')?.description.code,
  ),
  text('simulator', 'What the laboratory calls the simulator', (row) => simulator(row)?.simulator),
  text(
    'made_by',
    'Initials and name of who made it',
    (row) => person(row, control(row).technologistId),
    always,
  ),
  text(
    'investigates_run_id',
    'Id of the run whose failure it looks into',
    (row) => control(row).investigates?.runId,
  ),
  text(
    'investigates_check',
    'By which check',
    (row) => control(row).investigates?.check,
    oneOf(findingCheckSchema.options),
  ),
  recorded(
    'reported_dlco',
    'see dlco_unit',
    'DLCO as the analyzer reported it',
    (row) => reading(row)?.dlco,
    always,
  ),
  text(
    'dlco_unit',
    'Unit of the reported DLCO',
    (row) => reading(row)?.dlcoUnit,
    alwaysOneOf(dlcoUnitSchema.options),
  ),
  recorded('reported_va_l', 'L', 'VA as reported, BTPS', (row) => reading(row)?.vaL),
  recorded(
    'reported_inspired_volume_l',
    'L',
    'Inspired volume as reported, BTPS',
    (row) => biological(row)?.reading.inspiredVolumeL,
  ),
  recorded('breath_hold_s', 's', 'Breath-hold time as reported', (row) => row.level?.reading.breathHoldS),
  recorded(
    'haemoglobin',
    'see haemoglobin_unit',
    'Haemoglobin of the person as typed; it corrects nothing',
    (row) => biological(row)?.haemoglobin?.value,
  ),
  text(
    'haemoglobin_unit',
    'Unit it was typed in',
    (row) => biological(row)?.haemoglobin?.unit,
    oneOf(haemoglobinUnitSchema.options),
  ),
  computed('target_ml_min_mmhg', 'mL/min/mmHg', 'Target of the level', (row) => row.level?.targetMlMinMmHg),
  text(
    'target_basis',
    'certificate: as typed; computed: by the single-breath equation from the columns behind',
    (row) => basisOf(row)?.kind,
    oneOf(['certificate', 'computed']),
  ),
  recorded(
    'target_certificate',
    'see target_certificate_unit',
    'Target as certified',
    (row) => certificate(row)?.dlco,
  ),
  text(
    'target_certificate_unit',
    'Unit of the certified target',
    (row) => certificate(row)?.dlcoUnit,
    oneOf(dlcoUnitSchema.options),
  ),
  recorded('target_inspired_co_fraction', 'fraction', 'CO inspired', (row) => gases(row)?.inspired.co),
  recorded(
    'target_inspired_tracer_fraction',
    'fraction',
    'Tracer inspired',
    (row) => gases(row)?.inspired.tracer,
  ),
  recorded(
    'target_alveolar_co_fraction',
    'fraction',
    'CO in the alveolar sample',
    (row) => gases(row)?.alveolar.co,
  ),
  recorded(
    'target_alveolar_tracer_fraction',
    'fraction',
    'Tracer in the alveolar sample',
    (row) => gases(row)?.alveolar.tracer,
  ),
  recorded('target_va_l', 'L', 'VA that the target is computed for, BTPS', (row) => gases(row)?.vaBtpsL),
  recorded(
    'target_breath_hold_s',
    's',
    'Breath-hold that it is computed for',
    (row) => gases(row)?.breathHoldS,
  ),
  recorded(
    'target_barometric_mmhg',
    'mmHg',
    'Barometric pressure that it is computed for',
    (row) => gases(row)?.barometricMmHg,
  ),
  text('cylinder_id', 'Id of the cylinder of a level', ({ level }) => level?.cylinderId),
  text(
    'limits_edition',
    'Edition of the limits in force on the day',
    (row) => control(row).limits.edition,
    always,
  ),
  text('limits_source', 'Where they come from', (row) => control(row).limits.source, always),
  recorded(
    'limit_dlco_ml_min_mmhg',
    'mL/min/mmHg',
    'Largest distance from the mean of the first six tests, or of a level from its target, ends allowed',
    (row) => control(row).limits.dlcoMlMinMmHg,
    always,
  ),
  recorded(
    'limit_dlco_fraction',
    'fraction',
    'Largest distance from the mean of the first six tests, as a fraction of it, ends allowed',
    (row) => biological(row)?.limits.fraction,
  ),
  recorded(
    'limit_cv_fraction',
    'fraction',
    'Coefficient of variation that a person’s tests can reach',
    (row) => biological(row)?.limits.cv,
  ),
  ...judgedColumns('dlco', 'DLCO (of a level: reported less target)', 'mL/min/mmHg', (row) => {
    const name = row.level?.level ?? 'dlco';
    return ofTheDay(row).series.find((series) => series.name === name);
  }),
  truth(
    'dlco_within_published',
    'false where DLCO lay beyond its published limit on the day; empty where none applied yet',
    (row) => {
      const name = row.level?.level ?? 'dlco';
      return ofTheDay(row).series.find((series) => series.name === name)?.withinPublished;
    },
  ),
  ...judgedColumns('va', 'VA of a person’s test', 'L', (row) =>
    ofTheDay(row).series.find(({ name }) => name === 'va'),
  ),
  text(
    'verdict',
    'pass, warn or fail, as the technologist saw it on the day; of both levels together',
    (row) => ofTheDay(row).word,
    alwaysOneOf(verdictWords),
  ),
  truth('establishing', 'true while a series had no own limits', (row) => ofTheDay(row).establishing, always),
  truth(
    'failure_open',
    'true when a failure of one of its series was open',
    (row) => ofTheDay(row).failureOpen,
    always,
  ),
  text(
    'verdict_recomputed',
    'The verdict as it comes out of the journal now; empty for a control that was struck out',
    ({ logged, assessment }) => (logged.voided === null ? assessment?.verdict.word : undefined),
    oneOf(verdictWords),
  ),
  text('comment', 'Comment of the technologist', (row) => control(row).comment),
  ...amendedColumns<ControlRow>(({ logged }) => logged),
  ...voidedColumns<ControlRow>(({ logged }) => logged),
  ...setAsideColumns<ControlRow>(({ logged }) => logged),
  ...writtenColumns<ControlRow>(({ logged }) => logged.entry),
];
