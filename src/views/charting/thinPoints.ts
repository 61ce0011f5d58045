/** Fewer points to draw where there are more than paper can show, without losing what somebody would look for. */

export interface Thinnable {
  at: number;
  /** Where it lies on the value axis. */
  drawnAt: number;
  /** It must stay: a signal, a failure, an end of a stretch. */
  keep: boolean;
}

/** Beyond so many points a chart draws a choice of them. */
export const mostPoints = 1000;

/**
 * At most `most` of the points in their order, or those that must stay where they are more. What must stay does: the first,
 * the last, all with `keep`, and the nearest on either side of each of `instants`, at which something happened. Of the
 * rest each of equal parts of the time keeps its lowest and its highest, so that the outline of the scatter is that of all.
 */
export function thinPoints<T extends Thinnable>(
  points: readonly T[],
  instants: readonly number[],
  most = mostPoints,
): readonly T[] {
  if (points.length <= most) return points;
  const kept = new Uint8Array(points.length);
  kept[0] = 1;
  kept[points.length - 1] = 1;
  for (const [index, { keep }] of points.entries()) if (keep) kept[index] = 1;
  for (const instant of instants) {
    const after = firstNotBefore(points, instant);
    if (after < points.length) kept[after] = 1;
    if (after > 0) kept[after - 1] = 1;
  }
  // The lowest and the highest of all stay even where what must stay has used up the room.
  keepExtremes(points, kept, 0, points.length);
  const room = most - kept.reduce((sum, each) => sum + each, 0);
  const parts = Math.floor(room / 2);
  const [first] = points;
  const last = points.at(-1);
  if (parts >= 1 && first && last) {
    const length = (last.at - first.at) / parts;
    let start = 0;
    for (let part = 1; part <= parts; part += 1) {
      const end = part === parts ? points.length : firstNotBefore(points, first.at + part * length);
      keepExtremes(points, kept, start, end);
      start = end;
    }
  }
  return points.filter((_point, index) => kept[index] === 1);
}

function keepExtremes(points: readonly Thinnable[], kept: Uint8Array, start: number, end: number): void {
  if (start >= end) return;
  let lowest = start;
  let highest = start;
  for (let index = start + 1; index < end; index += 1) {
    const value = points[index]?.drawnAt ?? Number.NaN;
    if (value < (points[lowest]?.drawnAt ?? Number.NaN)) lowest = index;
    if (value > (points[highest]?.drawnAt ?? Number.NaN)) highest = index;
  }
  kept[lowest] = 1;
  kept[highest] = 1;
}

/** The place of the first point at or behind an instant; their number where there is none. */
export function firstNotBefore(points: readonly { at: number }[], instant: number): number {
  let low = 0;
  let high = points.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if ((points[middle]?.at ?? Number.POSITIVE_INFINITY) < instant) low = middle + 1;
    else high = middle;
  }
  return low;
}
