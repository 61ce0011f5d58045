/** The series of a logbook: which there are, how each is addressed, and the runs of one with what they came to. */
import {
  isDlcoWithinPublished,
  isVaWithinPublished,
  type Quantity,
  type RunAssessment,
  type VerdictWord,
} from '../../core/index.ts';
import type { SeriesName } from '../../journal/entries.ts';
import type { Logbook, LoggedRun } from '../../journal/logbook.ts';
import { formerValues, numbersOf, type RunStage, stagesOf } from '../amendments.ts';
import { evaluationOf, quantities, seriesKey } from '../failures.ts';
import { wordOf } from '../seriesWord.ts';
import { type RunScale, runScale } from './runScale.ts';
import type { SeriesItem } from './seriesItem.ts';

export interface ChartSeries extends SeriesName {
  analyzerId: string;
}

/** A run as one of its two series sees it. */
export interface SeriesRun extends SeriesItem {
  run: LoggedRun;
  assessment: RunAssessment;
  /** Of this quantity alone, as the entry recorded it on the day. */
  wordOfTheDay: VerdictWord;
  /** Of this quantity alone, as the newest amendment left it; null for a run that was never amended. */
  wordAsAmended: VerdictWord | null;
}

export type Assessments = ReadonlyMap<string, RunAssessment>;

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
  scale: RunScale;
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
  const scale = runScale(series.quantity, assessed.at(-1)?.run.body.reading.dlcoUnit ?? 'mL/min/mmHg');
  return {
    runs: assessed.map(({ run, assessment }) => ({
      ...asSeen(run, assessment, series.quantity, scale),
      former: formerValues(run, logbook.technologists, (stage) =>
        writtenValue(stage, series.quantity, scale),
      ),
    })),
    scale,
    impossible: made.length - assessed.length,
  };
}

/** In the core's unit: L, or mL/min/mmHg. */
export const coreValue = ({ numbers }: RunAssessment, quantity: Quantity): number =>
  quantity === 'va' ? numbers.simulatedVaL : numbers.dlcoMlMinMmHg;

function asSeen(
  run: LoggedRun,
  assessment: RunAssessment,
  quantity: Quantity,
  scale: RunScale,
): Omit<SeriesRun, 'former'> {
  const { numbers } = assessment;
  const evaluation = evaluationOf(assessment, quantity);
  const isVa = quantity === 'va';
  const breached = !(isVa ? numbers.vaWithinPublished : numbers.dlcoWithinPublished);
  const word = wordOf(breached, evaluation.signals);
  const [target, tolerance] = [scale.target(numbers), scale.tolerance(run.body.limits)];
  const [first, ...later] = stagesOf(run);
  const amended = later.at(-1);
  return {
    id: run.id,
    at: run.simulation.at,
    epoch: run.simulation.epoch,
    value: scale.inUnit(coreValue(assessment, quantity)),
    evaluation,
    published: { low: target - tolerance, high: target + tolerance },
    breached,
    word,
    voided: run.voided,
    setAside: run.setAside,
    comment: run.body.comment,
    run,
    assessment,
    wordOfTheDay: (first && writtenWord(first, quantity)) ?? word,
    wordAsAmended: (amended && writtenWord(amended, quantity)) ?? null,
  };
}

function writtenValue(stage: RunStage, quantity: Quantity, scale: RunScale): string {
  const numbers = numbersOf(stage);
  if (numbers === null) return '–';
  return scale.value(scale.inUnit(quantity === 'va' ? numbers.simulatedVaL : numbers.dlcoMlMinMmHg));
}

/** The verdict for one quantity, from what was written then; undefined for an imported run. */
function writtenWord(stage: RunStage, quantity: Quantity): VerdictWord | undefined {
  const { content, judged } = stage;
  const target = numbersOf(stage)?.targetVaL;
  if (judged === null || target === undefined) return undefined;
  const { limits, reading } = content;
  const within =
    quantity === 'va'
      ? isVaWithinPublished(judged.va.value, target, limits)
      : isDlcoWithinPublished(reading.dlco, reading.dlcoUnit, limits);
  return wordOf(!within, judged[quantity].signals);
}
