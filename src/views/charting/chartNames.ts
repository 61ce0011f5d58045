/** The words at a chart's right end: what its lines are called, and where the published limits are that it does not reach. */
import type { ValueAxis } from '../parts/valueAxis.ts';
import type { AxisView } from './axisView.ts';
import type { LimitStep, LineName, OutsideRail, RailStep } from './controlChartModel.ts';
import { inSd } from './describeSeries.ts';

export interface RailEnd {
  key: 'published-high' | 'published-low';
  value: number;
}

export const railEndsOf = (lastRail: RailStep | undefined): RailEnd[] =>
  lastRail
    ? [
        { key: 'published-high', value: lastRail.high },
        { key: 'published-low', value: lastRail.low },
      ]
    : [];

export const isOn = ({ from, to }: ValueAxis, value: number) => value >= from && value <= to;

/** `atTheEnd`: the own limits that reach the right edge. */
export function lineNames(
  railEnds: readonly RailEnd[],
  axis: ValueAxis,
  view: AxisView,
  atTheEnd: LimitStep | undefined,
): LineName[] {
  const published = railEnds
    .filter(({ value }) => isOn(axis, value))
    .map(({ key, value }) => ({ key, name: 'published', value, text: view.rail(value) }));
  if (atTheEnd === undefined) return published;
  const { low3, high3, mean, sd } = atTheEnd;
  const width = `${inSd((high3 - mean) / sd).replace(/[.,]0$/, '')} SD`;
  const own: LineName[] = [
    { key: 'high3', name: `+${width}`, value: high3, text: view.mean(high3) },
    { key: 'mean', name: 'mean', value: mean, text: view.mean(mean) },
    { key: 'low3', name: `−${width}`, value: low3, text: view.mean(low3) },
  ];
  return [...published, ...own.filter(({ value }) => isOn(axis, value))];
}

export function outsideRail(
  { value }: RailEnd,
  axis: ValueAxis,
  view: AxisView,
  atTheEnd: LimitStep | undefined,
): OutsideRail[] {
  if (isOn(axis, value)) return [];
  const side = value > axis.to ? 'above' : 'below';
  if (view.kind === 'z') return [{ side, text: `published ${inSd(value)} SD away` }];
  const distance = atTheEnd ? `, ${inSd((value - atTheEnd.mean) / atTheEnd.sd)} SD away` : '';
  return [{ side, text: `published ${view.rail(value)} ${view.unit}${distance}` }];
}
