/** A series on its value axis: in its own unit, or in SD from the mean that each was judged by. */
import type { PolicyStep } from '../../core/index.ts';
import { zInTable, zOnChart } from '../parts/figures.ts';
import type { LimitStep, RailStep } from './controlChartModel.ts';
import { limitSteps, publishedRails } from './limitSteps.ts';
import type { LimitsInForce } from './limitsInForce.ts';
import type { SeriesItem } from './seriesItem.ts';
import type { SeriesScale } from './seriesScale.ts';

export type AxisKind = 'value' | 'z';

export interface AxisView {
  kind: AxisKind;
  /** Null where it cannot stand on this axis: on that of z, one that no own limits judged. */
  levelOf: (item: SeriesItem) => number | null;
  /** Where the mean lies that it was judged by; NaN where there was none. */
  meanOf: (item: SeriesItem) => number;
  /** Of `items`, which are those that count, to the instant `to`. */
  limits: (items: readonly SeriesItem[], to: number) => LimitStep[];
  rails: (items: readonly SeriesItem[], span: { from: number; to: number }) => RailStep[];
  resolution: number;
  unit: string;
  /** Of a line, beside its name. */
  mean: (level: number) => string;
  /** Of some of them, in a sentence or a table. */
  average: (level: number) => string;
  /** With its sign. */
  difference: (levels: number) => string;
  sd: (spread: number) => string;
  rail: (level: number) => string;
  tick: (level: number, step: number) => string;
}

export interface AxisSource {
  axis: AxisKind;
  scale: SeriesScale;
  inForce: LimitsInForce;
  policySteps: readonly PolicyStep[];
}

export const axisView = (source: AxisSource): AxisView =>
  source.axis === 'value' ? onValues(source) : onZ(source);

function onValues({ scale, inForce, policySteps }: AxisSource): AxisView {
  const { own } = inForce;
  const inUnit = (mean: number, sd: number) => ({ mean: scale.inUnit(mean), sd: scale.inUnit(sd) });
  return {
    kind: 'value',
    levelOf: ({ value }) => value,
    meanOf: ({ evaluation }) => scale.inUnit(evaluation.mean ?? Number.NaN),
    limits: (items, to) => limitSteps(items, inUnit, { inForce, own, policySteps }, to),
    rails: (items, span) => publishedRails(items, inForce.published, span),
    resolution: scale.resolution,
    unit: scale.unit,
    mean: scale.mean,
    average: scale.mean,
    difference: (levels) => (levels > 0 ? `+${scale.mean(levels)}` : scale.mean(levels)),
    sd: scale.sd,
    rail: scale.limit,
    tick: scale.tick,
  };
}

/** Each one's own mean is 0 here and its SD 1, so that the limits stand still and the published ones move. */
const unitLimits = { mean: 0, sd: 1 };

function onZ({ scale, inForce, policySteps }: AxisSource): AxisView {
  const own = inForce.own === null ? null : unitLimits;
  return {
    kind: 'z',
    levelOf: ({ evaluation }) => evaluation.z,
    meanOf: () => 0,
    limits: (items, to) => limitSteps(items, () => unitLimits, { inForce, own, policySteps }, to),
    rails: (items, span) => railsInSd(items, scale, inForce, span),
    resolution: 0.1,
    unit: '',
    mean: zOnChart,
    average: zInTable,
    difference: zInTable,
    sd: (spread) => zInTable(spread).replace('+', ''),
    rail: zOnChart,
    tick: (level, step) =>
      Number.isInteger(step) ? zOnChart(level).replace(/[.,]\d$/, '') : zOnChart(level),
  };
}

/** The published limits as far from each mean as they were on its day; nowhere while there was none. */
function railsInSd(
  items: readonly SeriesItem[],
  scale: SeriesScale,
  { own, published: next }: LimitsInForce,
  span: { from: number; to: number },
): RailStep[] {
  const steps: RailStep[] = [];
  const add = (from: number, to: number, low: number, high: number) => {
    const last = steps.at(-1);
    if (last && last.to === from && last.low === low && last.high === high) last.to = to;
    else steps.push({ from, to, low, high });
  };
  let before: SeriesItem | null = null;
  for (const item of items) {
    const { evaluation, published } = item;
    const { mean, sd } = evaluation;
    if (mean !== null && sd !== null && published !== null) {
      const sameEpoch = before?.epoch === item.epoch;
      const { low, high } = published;
      const [middle, one] = [scale.inUnit(mean), scale.inUnit(sd)];
      const from = before && sameEpoch ? before.at : item.at;
      add(from, item.at, (low - middle) / one, (high - middle) / one);
    }
    before = item;
  }
  if (before && own && next) {
    const { low, high } = next;
    add(before.at, span.to, (low - own.mean) / own.sd, (high - own.mean) / own.sd);
  }
  return steps;
}
