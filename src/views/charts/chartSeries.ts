/** The series of a logbook: which there are, how each is addressed, and the runs of one with what they came to. */
import {
  isDlcoWithinPublished,
  isVaWithinPublished,
  type PointEvaluation,
  type Quantity,
  type RunAssessment,
  type VerdictWord,
} from '../../core/index.ts';
import type { SeriesName } from '../../journal/entries.ts';
import type { Logbook, LoggedRun } from '../../journal/logbook.ts';
import { evaluationOf, quantities, seriesKey } from '../failures.ts';
import { type SeriesScale, seriesScale } from './seriesScale.ts';

export interface ChartSeries extends SeriesName {
  analyzerId: string;
}

/** A run as one of its two series sees it. */
export interface SeriesRun {
  run: LoggedRun;
  at: number;
  assessment: RunAssessment;
  evaluation: PointEvaluation;
  /** In the unit of the series' scale. */
  value: number;
  breached: boolean;
  /** Of this quantity alone, as it comes out today. */
  word: VerdictWord;
  /** Of this quantity alone, as the entry recorded it on the day. */
  wordOfTheDay: VerdictWord;
}

export type Assessments = ReadonlyMap<string, RunAssessment>;

/** Syringe runs have the short address; another method names itself at its end. */
export function seriesPath({ analyzerId, method, route, quantity }: ChartSeries): string {
  const path = `/charts/${encodeURIComponent(analyzerId)}/${route}/${quantity}`;
  return method === 'syringe' ? path : `${path}/${method}`;
}

/** Every series that has an assessed run, in the order of the analyzers' first entries, patient test before built-in, VA before DLCO. */
export function listSeries(logbook: Logbook, assessments: Assessments): ChartSeries[] {
  const found = new Map<string, ChartSeries>();
  for (const { id, body } of logbook.runs) {
    if (!assessments.has(id)) continue;
    for (const quantity of quantities) {
      const series = { analyzerId: body.analyzerId, method: body.method, route: body.route, quantity };
      found.set(seriesKey(body.analyzerId, series), series);
    }
  }
  const analyzerOrder = [...logbook.analyzers.keys()];
  const rank = ({ analyzerId, method, route, quantity }: ChartSeries) => [
    analyzerOrder.indexOf(analyzerId),
    method === 'syringe' ? 0 : 1,
    route === 'patient-test' ? 0 : 1,
    quantities.indexOf(quantity),
  ];
  return [...found.values()].sort((one, other) => compareRanks(rank(one), rank(other)));
}

function compareRanks(one: readonly number[], other: readonly number[]): number {
  for (const [index, value] of one.entries()) {
    const difference = value - (other[index] ?? 0);
    if (difference !== 0) return difference;
  }
  return 0;
}

export interface SeriesRuns {
  /** Every assessed run in time order, voided ones included. */
  runs: SeriesRun[];
  /** The series is written in the unit that its last run was reported in. */
  scale: SeriesScale;
  /** How many runs have numbers that cannot be, and are therefore neither drawn nor listed. */
  impossible: number;
}

export function runsOfSeries(logbook: Logbook, assessments: Assessments, series: ChartSeries): SeriesRuns {
  const made = logbook.runs.filter(
    ({ body }) =>
      body.analyzerId === series.analyzerId && body.method === series.method && body.route === series.route,
  );
  const assessed = made.flatMap((run) => {
    const assessment = assessments.get(run.id);
    return assessment ? [{ run, assessment }] : [];
  });
  const scale = seriesScale(series.quantity, assessed.at(-1)?.run.body.reading.dlcoUnit ?? 'mL/min/mmHg');
  return {
    runs: assessed.map(({ run, assessment }) => asSeen(run, assessment, series.quantity, scale.inUnit)),
    scale,
    impossible: made.length - assessed.length,
  };
}

function asSeen(
  run: LoggedRun,
  assessment: RunAssessment,
  quantity: Quantity,
  inUnit: SeriesScale['inUnit'],
): SeriesRun {
  const { numbers } = assessment;
  const evaluation = evaluationOf(assessment, quantity);
  const isVa = quantity === 'va';
  const breached = !(isVa ? numbers.vaWithinPublished : numbers.dlcoWithinPublished);
  const word = wordOf(breached, evaluation.signals);
  return {
    run,
    at: run.simulation.at,
    assessment,
    evaluation,
    value: inUnit(isVa ? numbers.simulatedVaL : numbers.dlcoMlMinMmHg),
    breached,
    word,
    wordOfTheDay: wordOfTheDay(run, quantity, numbers.targetVaL) ?? word,
  };
}

/** The verdict of the day for one quantity, from what stood in the entry then; undefined for an imported run. */
function wordOfTheDay({ entry }: LoggedRun, quantity: Quantity, targetVaL: number): VerdictWord | undefined {
  const { judged, limits, reading } = entry.body;
  if (judged === null) return undefined;
  const within =
    quantity === 'va'
      ? isVaWithinPublished(judged.va.value, targetVaL, limits)
      : isDlcoWithinPublished(reading.dlco, reading.dlcoUnit, limits);
  return wordOf(!within, judged[quantity].signals);
}

function wordOf(breached: boolean, signals: readonly { severity: 'action' | 'warning' }[]): VerdictWord {
  if (breached || signals.some(({ severity }) => severity === 'action')) return 'fail';
  return signals.length > 0 ? 'warn' : 'pass';
}
