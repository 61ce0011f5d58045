/** From what is shown of a series to the dots, marks and lines of a chart. */
import type { ValueAxis } from '../parts/valueAxis.ts';
import type { AxisView } from './axisView.ts';
import type { ChartPoint } from './controlChartModel.ts';
import type { LinePoint } from './cutToWindow.ts';
import { firedRules, rulesLabel } from './ruleNames.ts';
import { isApart, isCounted, type SeriesItem } from './seriesItem.ts';
import { thinPoints } from './thinPoints.ts';

/** One that has a place on the value axis. */
export interface PlacedItem {
  item: SeriesItem;
  level: number;
}

export function placedItems(items: readonly SeriesItem[], { levelOf }: AxisView): PlacedItem[] {
  return items.flatMap((item) => {
    const level = levelOf(item);
    return level === null ? [] : [{ item, level }];
  });
}

/** Not all of them where they are too many to be told apart: see thinPoints. */
export function chartPoints(
  placed: readonly PlacedItem[],
  view: AxisView,
  axis: ValueAxis,
  instants: readonly number[],
): readonly ChartPoint[] {
  const axisMiddle = (axis.from + axis.to) / 2;
  let labelBefore = '';
  const points = placed.map(({ item, level }, index): ChartPoint & { keep: boolean } => {
    const { id, at, evaluation, word, setAside } = item;
    const voided = !isCounted(item);
    const label = rulesLabel(item, voided ? [] : firedRules(item));
    const saidBefore = label === labelBefore;
    if (!voided) labelBefore = label;
    const mark = voided || setAside !== null || word === 'pass' ? null : word;
    const middle = evaluation.mean === null ? axisMiddle : view.meanOf(item);
    return {
      id,
      at,
      value: level,
      drawnAt: Math.min(Math.max(level, axis.from), axis.to),
      dot: dotOf(item),
      mark,
      label: label === '' || saidBefore ? null : label,
      labelSide: level >= middle ? 'above' : 'below',
      item,
      keep: mark !== null || voided || setAside !== null || isEndOfEpoch(placed, index),
    };
  });
  return thinPoints(points, instants);
}

function dotOf(item: SeriesItem): ChartPoint['dot'] {
  if (!isCounted(item)) return 'struck';
  if (isApart(item)) return 'apart';
  return item.evaluation.z === null ? 'open' : 'filled';
}

const epochAt = (placed: readonly PlacedItem[], index: number) => placed[index]?.item.epoch;

const isEndOfEpoch = (placed: readonly PlacedItem[], index: number) =>
  epochAt(placed, index) !== epochAt(placed, index - 1) ||
  epochAt(placed, index) !== epochAt(placed, index + 1);

/** No line reaches across a new baseline: what stands before it and after it are not one series. */
export function stretchesOf(placed: readonly PlacedItem[]): LinePoint[][] {
  const stretches: LinePoint[][] = [];
  let epoch: number | null = null;
  for (const { item, level } of placed) {
    if (item.epoch !== epoch) stretches.push([]);
    epoch = item.epoch;
    stretches.at(-1)?.push({ at: item.at, value: level });
  }
  return stretches;
}

/** Where those lie that a signal rests on, also those that are not drawn themselves. */
export function placesBehind(
  placed: readonly PlacedItem[],
  axis: ValueAxis,
): ReadonlyMap<string, { at: number; drawnAt: number }> {
  const behind = new Set<string>();
  for (const { item } of placed) {
    for (const { ids } of item.evaluation.signals) for (const id of ids) behind.add(id);
  }
  const places = new Map<string, { at: number; drawnAt: number }>();
  if (behind.size === 0) return places;
  for (const { item, level } of placed) {
    if (!behind.has(item.id)) continue;
    places.set(item.id, {
      at: item.at,
      drawnAt: Math.min(Math.max(level, axis.from), axis.to),
    });
  }
  return places;
}
