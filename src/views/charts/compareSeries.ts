/** Other analyzers' runs of the same quantity and method, to be laid over a chart. */
import { mean, sampleSd } from '../../core/index.ts';
import type { Logbook } from '../../journal/logbook.ts';
import { seriesKey } from '../failures.ts';
import { routeWords } from '../parts/words.ts';
import type { AxisView } from './axisView.ts';
import {
  type Assessments,
  type ChartSeries,
  coreValue,
  listSeries,
  runsOfSeries,
  type SeriesRun,
} from './chartSeries.ts';
import type { Span } from './chartWindow.ts';
import { cutLine, type LinePoint } from './cutToWindow.ts';
import type { SeriesScale } from './seriesScale.ts';
import { thinRuns } from './thinRuns.ts';

/** Strokes that can be told apart without colour; the chart's own series is a thin unbroken line with dots. */
export const lineStyles = ['9 4', '2 3', '14 3 2 3', '5 2 5 6', '1 2 6 2'] as const;
export const mostCompared = lineStyles.length;

export interface ComparedChoice {
  key: string;
  label: string;
  /** For the end of its line, where room is short: without the route where that is the chart's own. */
  name: string;
  series: ChartSeries;
}

export interface ComparedSeries {
  key: string;
  label: string;
  name: string;
  dash: string;
  /** In the unit of the chart's own scale. */
  runs: readonly SeriesRun[];
}

export interface Overlay {
  key: string;
  label: string;
  name: string;
  dash: string;
  stretches: readonly (readonly LinePoint[])[];
}

export function comparedChoices(
  logbook: Logbook,
  assessments: Assessments,
  own: ChartSeries,
): ComparedChoice[] {
  const ownKey = seriesKey(own.analyzerId, own);
  return listSeries(logbook, assessments)
    .filter(({ quantity, method }) => quantity === own.quantity && method === own.method)
    .map((series) => {
      const analyzer = logbook.analyzers.get(series.analyzerId)?.description.label ?? 'unknown';
      const label = `${analyzer}, ${routeWords[series.route].toLowerCase()}`;
      const name = series.route === own.route ? analyzer : label;
      return { key: seriesKey(series.analyzerId, series), label, name, series };
    })
    .filter(({ key }) => key !== ownKey);
}

/** In the order in which they were chosen, each with a stroke of its own. */
export function comparedSeries(
  logbook: Logbook,
  assessments: Assessments,
  scale: SeriesScale,
  chosen: readonly ComparedChoice[],
): ComparedSeries[] {
  return chosen.slice(0, mostCompared).map(({ key, label, name, series }, index) => ({
    key,
    label,
    name,
    dash: lineStyles[index] ?? lineStyles[0],
    runs: runsOfSeries(logbook, assessments, series).runs.map((seriesRun) => ({
      ...seriesRun,
      value: scale.inUnit(coreValue(seriesRun.assessment, series.quantity)),
    })),
  }));
}

const counts = ({ run }: SeriesRun) => run.voided === null;

/** Voided runs left out; a line ends where a new baseline begins. */
export function overlayOf(
  { key, label, name, dash, runs }: ComparedSeries,
  view: AxisView,
  span: Span,
): Overlay {
  const epochs = new Map<number, { at: number; drawnAt: number; keep: boolean }[]>();
  for (const seriesRun of runs.filter(counts)) {
    const level = view.levelOf(seriesRun);
    if (level === null) continue;
    const { epoch } = seriesRun.run.simulation;
    const points = epochs.get(epoch) ?? [];
    points.push({ at: seriesRun.at, drawnAt: level, keep: false });
    epochs.set(epoch, points);
  }
  return {
    key,
    label,
    name,
    dash,
    stretches: [...epochs.values()]
      .map((points) =>
        cutLine(
          thinRuns(points, []).map(({ at, drawnAt }) => ({ at, value: drawnAt })),
          span,
        ),
      )
      .filter(({ length }) => length > 0),
  };
}

export interface ComparedRow {
  key: string;
  label: string;
  /** Empty for the chart's own series. */
  dash: string;
  n: string;
  mean: string;
  sd: string;
  last: string;
}

/** What each series came to in the part shown, its own first: the same as the lines say. */
export function comparedRows(
  series: readonly { key: string; label: string; dash: string; runs: readonly SeriesRun[] }[],
  view: AxisView,
  { from, to }: Span,
): ComparedRow[] {
  return series.map(({ key, label, dash, runs }) => {
    const levels = runs
      .filter((seriesRun) => counts(seriesRun) && seriesRun.at >= from && seriesRun.at <= to)
      .flatMap((seriesRun) => view.levelOf(seriesRun) ?? []);
    const [average, spread, last] = [mean(levels), sampleSd(levels), levels.at(-1)];
    return {
      key,
      label,
      dash,
      n: String(levels.length),
      mean: average === undefined ? '–' : view.average(average),
      sd: spread === undefined ? '–' : view.sd(spread),
      last: last === undefined ? '–' : view.average(last),
    };
  });
}
