/** Other analyzers' runs of the same quantity and method, to be laid over a chart. */
import type { Logbook } from '../../journal/logbook.ts';
import type { ComparedSeries } from '../charting/overlays.ts';
import {
  type Assessments,
  type ChartSeries,
  coreValue,
  listSeries,
  runsOfSeries,
} from '../charting/runSeries.ts';
import type { SeriesScale } from '../charting/seriesScale.ts';
import { seriesKey } from '../failures.ts';
import { routeWords } from '../parts/words.ts';

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
    items: runsOfSeries(logbook, assessments, series).runs.map((seriesRun) => ({
      ...seriesRun,
      value: scale.inUnit(coreValue(seriesRun.assessment, series.quantity)),
    })),
  }));
}
