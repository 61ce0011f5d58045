/** What of a chart's lines lies within the part of the time that is shown, so that nothing need be clipped on paper. */
import type { Span } from './chartWindow.ts';

export interface LinePoint {
  at: number;
  value: number;
}

/** Steps, bars and rails: those that reach into the window, cut at its edges. */
export function cutSpans<T extends Span>(spans: readonly T[], { from, to }: Span): T[] {
  return spans
    .filter((span) => span.to >= from && span.from <= to)
    .map((span) => ({ ...span, from: Math.max(span.from, from), to: Math.min(span.to, to) }));
}

/** Straight lines from point to point: those within, with the value that the line has at an edge it crosses. */
export function cutLine(line: readonly LinePoint[], { from, to }: Span): LinePoint[] {
  const cut: LinePoint[] = [];
  let before: LinePoint | undefined;
  for (const point of line) {
    if (before && before.at < from && point.at > from) cut.push(between(before, point, from));
    if (point.at >= from && point.at <= to) cut.push(point);
    if (before && before.at < to && point.at > to) cut.push(between(before, point, to));
    before = point;
  }
  return cut;
}

function between(one: LinePoint, other: LinePoint, at: number): LinePoint {
  const share = (at - one.at) / (other.at - one.at);
  return { at, value: one.value + (other.value - one.value) * share };
}
