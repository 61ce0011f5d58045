/** The whole series in small, on which the part to be shown is chosen. */
import type { Span } from './chartWindow.ts';
import type { ChartFailure } from './controlChartModel.ts';
import { firstNotBefore } from './thinPoints.ts';

/** Paper of 1000 by 100, stretched to whatever room there is. */
export const stripPaper = { width: 1000, height: 100 };
const columns = 250;

export interface Strip {
  path: string;
  /** Of the width, 0 to 1. */
  failures: readonly { key: string; left: number; width: number }[];
}

/** In every column of the paper the lowest and the highest value, joined in their order. */
export function buildStrip(
  items: readonly { at: number; value: number; voided: unknown }[],
  failures: readonly ChartFailure[],
  whole: Span,
): Strip {
  const counted = items.filter(({ voided }) => voided === null);
  const shareOf = (at: number) => (at - whole.from) / (whole.to - whole.from);
  let lowest = Number.POSITIVE_INFINITY;
  let highest = Number.NEGATIVE_INFINITY;
  for (const { value } of counted) {
    lowest = Math.min(lowest, value);
    highest = Math.max(highest, value);
  }
  const spread = highest - lowest || 1;
  const corner = ({ at, value }: { at: number; value: number }) =>
    `${(shareOf(at) * stripPaper.width).toFixed(1)} ${(90 - ((value - lowest) / spread) * 80).toFixed(1)}`;
  const drawn = counted.length <= 2 * columns ? counted : outline(counted, whole);
  return {
    path: drawn.length === 0 ? '' : `M${drawn.map(corner).join('L')}`,
    failures: failures.map(({ id, from, to }) => ({
      key: id,
      left: shareOf(from),
      width: Math.max(shareOf(to) - shareOf(from), 0.003),
    })),
  };
}

function outline<T extends { at: number; value: number }>(points: readonly T[], { from, to }: Span): T[] {
  const kept: T[] = [];
  let start = 0;
  for (let column = 1; column <= columns; column += 1) {
    const end = firstNotBefore(points, from + ((to - from) * column) / columns);
    const part = points.slice(start, end);
    start = end;
    const [first] = part;
    if (first === undefined) continue;
    const low = part.reduce((least, point) => (point.value < least.value ? point : least), first);
    const high = part.reduce((most, point) => (point.value > most.value ? point : most), first);
    kept.push(...(low === high ? [low] : low.at < high.at ? [low, high] : [high, low]));
  }
  return kept;
}
