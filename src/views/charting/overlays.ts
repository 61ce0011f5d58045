/** Other series laid over a chart, each with a stroke of its own, and what each came to in the part shown. */
import { mean, sampleSd } from '../../core/index.ts';
import type { AxisView } from './axisView.ts';
import type { Span } from './chartWindow.ts';
import { cutLine, type LinePoint } from './cutToWindow.ts';
import { isCounted, type SeriesItem } from './seriesItem.ts';
import { thinPoints } from './thinPoints.ts';

export interface ComparedSeries {
  key: string;
  label: string;
  /** For the end of its line, where room is short. */
  name: string;
  dash: string;
  /** Their values in the unit of the chart's own scale. */
  items: readonly SeriesItem[];
}

export interface Overlay {
  key: string;
  label: string;
  name: string;
  dash: string;
  stretches: readonly (readonly LinePoint[])[];
}

/** Voided ones left out; a line ends where a new baseline begins. */
export function overlayOf(
  { key, label, name, dash, items }: ComparedSeries,
  view: AxisView,
  span: Span,
): Overlay {
  const epochs = new Map<number, { at: number; drawnAt: number; keep: boolean }[]>();
  for (const item of items.filter(isCounted)) {
    const level = view.levelOf(item);
    if (level === null) continue;
    const points = epochs.get(item.epoch) ?? [];
    points.push({ at: item.at, drawnAt: level, keep: false });
    epochs.set(item.epoch, points);
  }
  return {
    key,
    label,
    name,
    dash,
    stretches: [...epochs.values()]
      .map((points) =>
        cutLine(
          thinPoints(points, []).map(({ at, drawnAt }) => ({ at, value: drawnAt })),
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
  series: readonly { key: string; label: string; dash: string; items: readonly SeriesItem[] }[],
  view: AxisView,
  { from, to }: Span,
): ComparedRow[] {
  return series.map(({ key, label, dash, items }) => {
    const levels = items
      .filter((item) => isCounted(item) && item.at >= from && item.at <= to)
      .flatMap((item) => view.levelOf(item) ?? []);
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
