/** The series of controls of a logbook: which there are, and the controls of one with what they came to. */
import {
  biologicalReach,
  type CheckLimits,
  type DlcoUnit,
  dlcoInMlMinMmHg,
  type PointEvaluation,
  type Signal,
} from '../../core/index.ts';
import type { Control, ControlSeriesName } from '../../journal/entries.ts';
import type { Logbook, LoggedControl } from '../../journal/logbook.ts';
import { formerTexts } from '../amendments.ts';
import {
  type ControlAssessment,
  type ControlAssessments,
  controlSeriesKey,
  evaluationsOf,
} from '../controlAssessments.ts';
import { contentsOf } from '../controlAsWritten.ts';
import { wordOf } from '../seriesWord.ts';
import { subjectStanding } from '../subjectStanding.ts';
import { type ControlScale, controlScale } from './controlScale.ts';
import type { SeriesItem } from './seriesItem.ts';

export interface SeriesOfControls {
  analyzerId: string;
  series: ControlSeriesName;
}

/** A control as one of its series sees it. */
export interface SeriesControl extends SeriesItem {
  logged: LoggedControl;
  assessment: ControlAssessment;
}

export type BiologicalPublished = Pick<CheckLimits['biological'], 'fraction' | 'dlcoMlMinMmHg'>;

/** Every series that has an assessed control: analyzers, then persons, in the order of their first entries; DLCO before VA, low before high. */
export function listControlSeries(
  logbook: Pick<Logbook, 'analyzers' | 'subjects' | 'controls'>,
  assessments: Pick<ControlAssessments, 'get'>,
): SeriesOfControls[] {
  const found = new Set<string>();
  for (const { id, control } of logbook.controls) {
    const assessment = assessments.get(id);
    if (assessment === undefined) continue;
    for (const { series } of evaluationsOf(control, assessment)) {
      found.add(controlSeriesKey(control.analyzerId, series));
    }
  }
  const possible: ControlSeriesName[] = [
    ...[...logbook.subjects.keys()].flatMap((subjectId): ControlSeriesName[] => [
      { kind: 'biological', subjectId, quantity: 'dlco' },
      { kind: 'biological', subjectId, quantity: 'va' },
    ]),
    { kind: 'simulator', level: 'low' },
    { kind: 'simulator', level: 'high' },
  ];
  return [...logbook.analyzers.keys()].flatMap((analyzerId) =>
    possible
      .filter((series) => found.has(controlSeriesKey(analyzerId, series)))
      .map((series) => ({ analyzerId, series })),
  );
}

export interface ControlsOfSeries {
  /** Every assessed control in time order, voided ones included. */
  items: SeriesControl[];
  /** The series is written in the unit that its last control was reported in. */
  scale: ControlScale;
  /** How many have numbers that cannot be, and are therefore neither drawn nor listed. */
  impossible: number;
}

export function controlsOfSeries(
  logbook: Logbook,
  assessments: Pick<ControlAssessments, 'get'>,
  named: SeriesOfControls,
): ControlsOfSeries {
  const made = logbook.controls.filter(({ control }) => isOf(control, named));
  const units = made.flatMap(({ control }) => unitOf(control, named.series) ?? []);
  const scale = controlScale(named.series, units.at(-1) ?? 'mL/min/mmHg');
  const items = made.flatMap((logged) => {
    const assessment = assessments.get(logged.id);
    return assessment === undefined ? [] : (asSeen(logged, assessment, { named, scale, logbook }) ?? []);
  });
  return { items, scale, impossible: made.length - items.length };
}

/** What a control is a point of. */
function isOf(control: Control, { analyzerId, series }: SeriesOfControls): boolean {
  if (control.analyzerId !== analyzerId || control.kind !== series.kind) return false;
  if (control.kind === 'biological') {
    return series.kind === 'biological' && control.subjectId === series.subjectId;
  }
  return series.kind === 'simulator' && control.levels.some(({ level }) => level === series.level);
}

function unitOf(control: Control, series: ControlSeriesName): DlcoUnit | undefined {
  if (control.kind === 'biological') return control.reading.dlcoUnit;
  return series.kind === 'simulator'
    ? control.levels.find(({ level }) => level === series.level)?.reading.dlcoUnit
    : undefined;
}

interface Known {
  named: SeriesOfControls;
  scale: ControlScale;
  logbook: Logbook;
}

function asSeen(
  logged: LoggedControl,
  assessment: ControlAssessment,
  { named, scale, logbook }: Known,
): SeriesControl | null {
  const seen = pointOf(logged.control, assessment, named.series);
  if (seen === null) return null;
  const { evaluation, published, breached, value } = seen;
  return {
    id: logged.id,
    at: logged.at,
    epoch: logged.epoch,
    value: scale.inUnit(value),
    former: formerTexts(
      logged.amendments,
      logbook.technologists,
      contentsOf(logged).map((control) => writtenValue(control, named, scale)),
    ),
    evaluation,
    published: published && { low: scale.inUnit(published.low), high: scale.inUnit(published.high) },
    breached,
    word: wordOf(breached, evaluation.signals),
    voided: logged.voided,
    setAside: logged.setAside ?? excludedFor(logged, logbook),
    comment: logged.control.comment,
    logged,
    assessment,
  };
}

/** One that takes part in nothing because its person was excluded stands like one that was set aside. */
function excludedFor(
  { control, excluded, voided }: LoggedControl,
  logbook: Pick<Logbook, 'subjects' | 'subjectStates'>,
): SeriesItem['setAside'] {
  if (!excluded || voided !== null || control.kind !== 'biological') return null;
  const { reason } = subjectStanding(logbook, control.subjectId, control.madeAt);
  return { reason: `the person was excluded${reason === '' ? '' : `, ${reason}`}` };
}

interface Point {
  /** In the core's unit. */
  value: number;
  published: { low: number; high: number } | null;
  breached: boolean;
  evaluation: PointEvaluation;
}

function pointOf(control: Control, assessment: ControlAssessment, series: ControlSeriesName): Point | null {
  if (series.kind === 'biological') {
    if (control.kind !== 'biological' || 'levels' in assessment) return null;
    if (series.quantity === 'va') {
      return { value: assessment.vaL, published: null, breached: false, evaluation: assessment.va };
    }
    return {
      value: assessment.dlcoMlMinMmHg,
      published: biologicalPublished(assessment.firstTests.meanMlMinMmHg, control.limits),
      breached: assessment.withinPublished === false,
      evaluation: assessment.dlco,
    };
  }
  if (control.kind !== 'simulator' || !('levels' in assessment)) return null;
  const level = assessment.levels.find((one) => one.level === series.level);
  if (level === undefined) return null;
  const { dlcoMlMinMmHg: limit } = control.limits;
  return {
    value: level.deviationMlMinMmHg,
    published: { low: -limit, high: limit },
    breached: !level.withinPublished,
    evaluation: withAcrossLevels(level.evaluation, assessment, series.level),
  };
}

/** The nearer of the two limits on either side of the mean of the first tests, in mL/min/mmHg; null while there is none. */
export function biologicalPublished(
  mean: number | null,
  limits: BiologicalPublished,
): { low: number; high: number } | null {
  if (mean === null) return null;
  const reach = biologicalReach(mean, limits);
  return { low: mean - reach, high: mean + reach };
}

/** R-4s between the levels of one session is a signal of both, which the series of each alone does not know. */
function withAcrossLevels(
  evaluation: PointEvaluation,
  { id, verdict }: ControlAssessment,
  level: 'low' | 'high',
): PointEvaluation {
  const across = verdict.findings.find(
    (finding) => finding.kind === 'signal' && finding.across === 'levels' && finding.series === level,
  );
  if (across?.kind !== 'signal') return evaluation;
  const { rule, severity } = across;
  const alone = evaluation.signals.find((signal) => signal.rule === rule);
  const together: Signal = { rule, severity, ids: alone?.ids ?? [id] };
  return {
    ...evaluation,
    signals: [...evaluation.signals.filter((signal) => signal !== alone), together],
  };
}

function writtenValue(control: Control, named: SeriesOfControls, scale: ControlScale): string {
  if (!isOf(control, { ...named, analyzerId: control.analyzerId })) return '–';
  const { series } = named;
  if (control.kind === 'biological') {
    const { vaL, dlco, dlcoUnit } = control.reading;
    const isVa = series.kind === 'biological' && series.quantity === 'va';
    return scale.value(isVa ? vaL : scale.inUnit(dlcoInMlMinMmHg(dlco, dlcoUnit)));
  }
  const level = control.levels.find((one) => series.kind === 'simulator' && one.level === series.level);
  if (level === undefined) return '–';
  const { reading, targetMlMinMmHg } = level;
  return scale.value(scale.inUnit(dlcoInMlMinMmHg(reading.dlco, reading.dlcoUnit) - targetMlMinMmHg));
}
