/** What the listed runs of one analyzer come to: how many passed, and where each series stands against its baseline. Pure. */
import { type Assessments, countVerdicts, dlcoFromMlMinMmHg, summarizeSeries } from '../../core/index.ts';
import type { SeriesName } from '../../journal/entries.ts';
import type { LoggedRun } from '../../journal/logbook.ts';
import { evaluationOf, quantities, seriesKey } from '../failures.ts';
import {
  counted,
  day,
  dlcoMean,
  dlcoSd,
  litres,
  litresSd,
  percent,
  signedDlco,
  signedMillilitres,
  zInTable,
} from '../parts/figures.ts';
import { shownJudgement } from '../verdictOfTheDay.ts';

type DlcoUnit = Parameters<typeof dlcoMean>[1];

export interface SeriesFigures {
  key: string;
  series: SeriesName;
  /** From when to when its runs were made, where a new baseline parts the series; empty where none does. */
  stretch: string;
  count: number;
  unit: string;
  /** Each `–` where there is none. */
  mean: string;
  sd: string;
  /** Of VA only: a DLCO lies about zero, and its SD in percent of that says nothing. */
  cv: string;
  baseline: string;
  /** How far the mean lies from the baseline's, in the unit and in its SD. */
  off: string;
}

const none = '–';

/** `18 of 20 runs passed (90 %), 1 warned, 1 failed`. Voided runs and those without a verdict are counted apart. */
export function passSentence(runs: readonly LoggedRun[], assessments: Assessments): string {
  if (runs.length === 0) return 'No run recorded.';
  const voided = runs.filter((run) => run.voided !== null).length;
  const aside = runs.filter((run) => run.voided === null && run.setAside !== null).length;
  const words = runs
    .filter((run) => run.voided === null)
    .map((run) => shownJudgement(run, assessments)?.word ?? null);
  const { passed, warned, failed, notJudged, passRate } = countVerdicts(words);
  const parts = [
    passRate === null
      ? 'No run with a verdict'
      : `${passed} of ${counted(words.length - notJudged, 'run')} passed (${percent(passRate, 0)} %)`,
    ...(passRate === null ? [] : [`${warned} warned`, `${failed} failed`]),
    ...(voided > 0 ? [`${voided} voided since`] : []),
    ...(aside > 0 ? [`${aside} set aside`] : []),
    ...(notJudged > 0 ? [`${notJudged} not judged`] : []),
  ];
  return `${parts.join(', ')}.`;
}

/**
 * One row a series: of its runs that count, against the limits that the last of them was judged by. Runs from before a
 * new baseline have a row of their own: they are never averaged with those after it.
 */
export function seriesFigures(
  runs: readonly LoggedRun[],
  assessments: Assessments,
  dlcoUnit: DlcoUnit,
): readonly SeriesFigures[] {
  const bySeries = new Map<string, { series: SeriesName; runs: LoggedRun[] }>();
  for (const run of runs) {
    if (run.voided !== null || run.setAside !== null) continue;
    const { analyzerId, method, route } = run.body;
    for (const quantity of quantities) {
      const series = { method, route, quantity };
      const key = `${seriesKey(analyzerId, series)} ${run.simulation.epoch}`;
      const known = bySeries.get(key);
      if (known) known.runs.push(run);
      else bySeries.set(key, { series, runs: [run] });
    }
  }
  const rows = [...bySeries];
  return rows
    .map(([key, { series, runs: counting }]) => {
      const isParted = rows.some(
        ([other, { series: named }]) => other !== key && seriesKey('', named) === seriesKey('', series),
      );
      const stretch = isParted ? stretchOf(counting) : '';
      return { stretch, ...figuresOf(key, series, counting, assessments, dlcoUnit) };
    })
    .sort((one, other) => rankOf(one.series) - rankOf(other.series));
}

const rankOf = ({ route, quantity }: SeriesName) =>
  (route === 'patient-test' ? 0 : 2) + quantities.indexOf(quantity);

function stretchOf(runs: readonly LoggedRun[]): string {
  const [first] = runs;
  const last = runs.at(-1);
  return first && last
    ? `${day(first.body.madeAt, first.entry.zone)} to ${day(last.body.madeAt, last.entry.zone)}`
    : '';
}

function figuresOf(
  key: string,
  series: SeriesName,
  runs: readonly LoggedRun[],
  assessments: Assessments,
  dlcoUnit: DlcoUnit,
): Omit<SeriesFigures, 'stretch'> {
  const isVa = series.quantity === 'va';
  const found = runs.flatMap(({ id }) => assessments.get(id) ?? []);
  const values = found.map(({ numbers }) => (isVa ? numbers.simulatedVaL : numbers.dlcoMlMinMmHg));
  const inUnit = (value: number) => (isVa ? value : dlcoFromMlMinMmHg(value, dlcoUnit));
  const writeMean = (value: number) => (isVa ? litres(value) : dlcoMean(inUnit(value), dlcoUnit));
  const writeSd = (value: number) => (isVa ? litresSd(value) : dlcoSd(inUnit(value), dlcoUnit));
  const { mean: middle, sd, cv } = summarizeSeries(values);
  const last = found.at(-1);
  const limits = last ? evaluationOf(last, series.quantity) : null;
  const known = limits !== null && limits.mean !== null && limits.sd !== null ? limits : null;
  const offBy =
    middle === null || known === null || known.mean === null || known.sd === null
      ? null
      : { by: middle - known.mean, sds: (middle - known.mean) / known.sd };
  return {
    key,
    series,
    count: values.length,
    unit: isVa ? 'L' : dlcoUnit,
    mean: middle === null ? none : writeMean(middle),
    sd: sd === null ? none : writeSd(sd),
    cv: isVa && cv !== null ? `${percent(cv, 2)} %` : none,
    baseline:
      known === null || known.mean === null || known.sd === null
        ? 'none yet'
        : `${writeMean(known.mean)} ± ${writeSd(known.sd)} (${counted(known.n, 'run')})`,
    off:
      offBy === null
        ? none
        : `${isVa ? `${signedMillilitres(offBy.by * 1000)} mL` : signedDlco(inUnit(offBy.by), dlcoUnit)}, ${zInTable(offBy.sds)} SD`,
  };
}
