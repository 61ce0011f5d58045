/** From the runs that are shown to the dots, marks and lines of a chart. */
import type { ValueAxis } from '../parts/valueAxis.ts';
import type { AxisView } from './axisView.ts';
import type { SeriesRun } from './chartSeries.ts';
import type { ChartPoint } from './controlChartModel.ts';
import type { LinePoint } from './cutToWindow.ts';
import { isApart } from './describePoint.ts';
import { firedRules, rulesLabel } from './ruleNames.ts';
import { thinRuns } from './thinRuns.ts';

/** A run that has a place on the value axis. */
export interface PlacedRun {
  seriesRun: SeriesRun;
  level: number;
}

export function placedRuns(runs: readonly SeriesRun[], { levelOf }: AxisView): PlacedRun[] {
  return runs.flatMap((seriesRun) => {
    const level = levelOf(seriesRun);
    return level === null ? [] : [{ seriesRun, level }];
  });
}

/** Not all of them where they are too many to be told apart: see thinRuns. */
export function chartPoints(
  placed: readonly PlacedRun[],
  view: AxisView,
  axis: ValueAxis,
  instants: readonly number[],
): readonly ChartPoint[] {
  const axisMiddle = (axis.from + axis.to) / 2;
  let labelBefore = '';
  const points = placed.map(({ seriesRun, level }, index): ChartPoint & { keep: boolean } => {
    const { run, at, evaluation, word } = seriesRun;
    const voided = run.voided !== null;
    const label = rulesLabel(seriesRun, voided ? [] : firedRules(seriesRun));
    const saidBefore = label === labelBefore;
    if (!voided) labelBefore = label;
    const mark = voided || run.setAside !== null || word === 'pass' ? null : word;
    const middle = evaluation.mean === null ? axisMiddle : view.meanOf(seriesRun);
    return {
      id: run.id,
      at,
      value: level,
      drawnAt: Math.min(Math.max(level, axis.from), axis.to),
      dot: dotOf(seriesRun),
      mark,
      label: label === '' || saidBefore ? null : label,
      labelSide: level >= middle ? 'above' : 'below',
      seriesRun,
      keep: mark !== null || voided || run.setAside !== null || isEndOfEpoch(placed, index),
    };
  });
  return thinRuns(points, instants);
}

function dotOf(seriesRun: SeriesRun): ChartPoint['dot'] {
  if (seriesRun.run.voided !== null) return 'struck';
  if (isApart(seriesRun)) return 'apart';
  return seriesRun.evaluation.z === null ? 'open' : 'filled';
}

const epochAt = (placed: readonly PlacedRun[], index: number) =>
  placed[index]?.seriesRun.run.simulation.epoch;

const isEndOfEpoch = (placed: readonly PlacedRun[], index: number) =>
  epochAt(placed, index) !== epochAt(placed, index - 1) ||
  epochAt(placed, index) !== epochAt(placed, index + 1);

/** No line reaches across a new baseline: what stands before it and after it are not one series. */
export function stretchesOf(placed: readonly PlacedRun[]): LinePoint[][] {
  const stretches: LinePoint[][] = [];
  let epoch: number | null = null;
  for (const { seriesRun, level } of placed) {
    const { simulation } = seriesRun.run;
    if (simulation.epoch !== epoch) stretches.push([]);
    epoch = simulation.epoch;
    stretches.at(-1)?.push({ at: seriesRun.at, value: level });
  }
  return stretches;
}

/** Where the runs lie that a signal rests on, also those that are not drawn themselves. */
export function placesBehind(
  placed: readonly PlacedRun[],
  axis: ValueAxis,
): ReadonlyMap<string, { at: number; drawnAt: number }> {
  const behind = new Set<string>();
  for (const { seriesRun } of placed) {
    for (const { ids } of seriesRun.evaluation.signals) for (const id of ids) behind.add(id);
  }
  const places = new Map<string, { at: number; drawnAt: number }>();
  if (behind.size === 0) return places;
  for (const { seriesRun, level } of placed) {
    if (!behind.has(seriesRun.run.id)) continue;
    places.set(seriesRun.run.id, {
      at: seriesRun.at,
      drawnAt: Math.min(Math.max(level, axis.from), axis.to),
    });
  }
  return places;
}
