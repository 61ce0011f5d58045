/** Where the marks of a chart are found: their outlines, the mark that a key or a pointer leads to, the ticks there is room for. */
import type { Scale } from '../charting/chartPaths.ts';
import type { Mark, Shape } from './markChartModel.ts';

/** How near a pointer must be, in pixels. */
const reach = 24;

/** Every so many ticks, so that no word runs into the next. */
export function spaced<T extends { at: number; text: string }>(ticks: readonly T[], x: Scale): readonly T[] {
  const [first, second] = ticks;
  if (first === undefined || second === undefined) return ticks;
  const longest = ticks.reduce((most, { text }) => Math.max(most, text.length), 0);
  const every = Math.max(1, Math.ceil((longest * 7 + 12) / Math.max(x(second.at) - x(first.at), 1)));
  return ticks.filter((_tick, index) => index % every === 0);
}

/** Around 0, 0. */
export const pathOf: Record<Shape, (size: number) => string> = {
  triangle: (size) => `M0 ${-size}L${size} ${size * 0.8}H${-size}Z`,
  circle: (size) => `M${-size} 0a${size} ${size} 0 1 0 ${2 * size} 0a${size} ${size} 0 1 0 ${-2 * size} 0`,
  square: (size) => `M${-size * 0.85} ${-size * 0.85}h${size * 1.7}v${size * 1.7}h${-size * 1.7}Z`,
  diamond: (size) => `M0 ${-size * 1.2}L${size * 1.2} 0L0 ${size * 1.2}L${-size * 1.2} 0Z`,
};

/** Which mark a key leads to; undefined for a key that does nothing here. */
export function afterKey(key: string, active: number | null, count: number): number | null | undefined {
  if (count === 0) return undefined;
  switch (key) {
    case 'ArrowRight':
      return active === null ? 0 : Math.min(active + 1, count - 1);
    case 'ArrowLeft':
      return active === null ? count - 1 : Math.max(active - 1, 0);
    case 'Home':
      return 0;
    case 'End':
      return count - 1;
    case 'Escape':
      return null;
    default:
      return undefined;
  }
}

/** The mark under a pointer; null where none is near enough. */
export function nearest(
  marks: readonly Mark[],
  at: { x: number; y: number },
  x: Scale,
  y: Scale,
): number | null {
  let best: { index: number; distance: number } | null = null;
  for (const [index, mark] of marks.entries()) {
    const distance = Math.hypot(x(mark.x) - at.x, y(mark.y) - at.y);
    if (distance <= reach && (best === null || distance < best.distance)) best = { index, distance };
  }
  return best?.index ?? null;
}
