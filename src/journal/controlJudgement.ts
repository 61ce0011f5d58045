/** Controls as the core reads them, and what of its judgement is written into their entries. */
import type {
  BiologicalAssessment,
  BiologicalTest,
  ControlClosure,
  ControlFinding,
  ControlSeries,
  PointEvaluation,
  SimulatorAssessment,
  SimulatorSession,
} from '../core/index.ts';
import type { BiologicalContent, ControlJudgement, SimulatorContent } from './entries.ts';
import type { Logbook } from './logbook.ts';

/** What of a control its content does not say. */
export interface ControlPlace {
  id: string;
  /** Counts the baseline starts of its analyzer. */
  epoch: number;
  excluded: boolean;
}

export function biologicalTestOf(
  { madeAt, analyzerId, subjectId, reading, limits }: BiologicalContent,
  place: ControlPlace,
): BiologicalTest {
  return { ...place, at: Date.parse(madeAt), analyzerId, subjectId, reading, limits };
}

export function simulatorSessionOf(
  { madeAt, analyzerId, levels, limits }: SimulatorContent,
  place: ControlPlace,
): SimulatorSession {
  return { ...place, at: Date.parse(madeAt), analyzerId, levels, limits };
}

/** The closures as the core takes them: one for each series that an entry closes. */
export function controlSeriesClosures({
  controlClosures,
}: Pick<Logbook, 'controlClosures'>): ControlClosure[] {
  return controlClosures.flatMap(({ body: { analyzerId, failures, closedAt } }) =>
    failures.map(({ series }) => ({ analyzerId, series, at: Date.parse(closedAt) })),
  );
}

/** The verdict of the day and the numbers it rests on, as they are written into a control's entry. */
export function controlJudgementOf(assessment: BiologicalAssessment | SimulatorAssessment): ControlJudgement {
  const { word, establishing, findings } = assessment.verdict;
  const series = seriesOf(assessment);
  return {
    word,
    establishing,
    failureOpen: series.some(({ evaluation }) => evaluation.failureOpen),
    series: series.map(({ name, value, withinPublished, evaluation: { n, mean, sd, z } }) => ({
      name,
      value,
      withinPublished,
      n,
      mean,
      sd,
      z,
      signals: findings.flatMap((finding) => signalOf(finding, name)),
    })),
  };
}

interface SeriesPart {
  name: ControlSeries;
  value: number;
  withinPublished: boolean | null;
  evaluation: PointEvaluation;
}

function seriesOf(assessment: BiologicalAssessment | SimulatorAssessment): SeriesPart[] {
  if ('levels' in assessment) {
    return assessment.levels.map(({ level, deviationMlMinMmHg, withinPublished, evaluation }) => ({
      name: level,
      value: deviationMlMinMmHg,
      withinPublished,
      evaluation,
    }));
  }
  const { dlcoMlMinMmHg, vaL, withinPublished, dlco, va } = assessment;
  return [
    { name: 'dlco', value: dlcoMlMinMmHg, withinPublished, evaluation: dlco },
    { name: 'va', value: vaL, withinPublished: null, evaluation: va },
  ];
}

function signalOf(finding: ControlFinding, name: ControlSeries) {
  if (finding.kind !== 'signal' || finding.series !== name) return [];
  const { rule, severity, across } = finding;
  return [{ rule, severity, across }];
}
