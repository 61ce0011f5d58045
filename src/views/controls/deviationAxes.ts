/** What the charts of deviations in per cent have in common: the limit on either side of 0, and an axis of time. */
import { timeTicks } from '../charting/chartAxes.ts';
import { dayMs } from '../charting/chartWindow.ts';
import { limitPercent } from '../parts/figures.ts';
import type { MarkChartModel } from './markChartModel.ts';

export const percentWords = (percent: number) => limitPercent(percent / 100);

/** `limit` in per cent. */
export const railsAt = (limit: number): MarkChartModel['rails'] =>
  [limit, -limit].map((level) => ({ y: level, text: `${level > 0 ? '+' : '−'}${percentWords(limit)} %` }));

/** From the first mark to the last, in ms, with air at both ends. */
export function timeAxis(first: number, last: number): MarkChartModel['x'] {
  const air = Math.max((last - first) * 0.02, 2 * dayMs);
  const [from, to] = [first - air, last + air];
  return { from, to, ticks: timeTicks(from, to), title: '' };
}
