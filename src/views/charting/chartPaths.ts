/** Svg paths of the chart's lines from scaled values. */
import type { LimitStep, RailStep } from './controlChartModel.ts';

export type Scale = (value: number) => number;

const point = (x: number, y: number) => `${x.toFixed(1)} ${y.toFixed(1)}`;

/** Straight from point to point, one stroke per stretch. */
export function stretchesPath(
  stretches: readonly (readonly { at: number; value: number }[])[],
  x: Scale,
  y: Scale,
): string {
  return stretches
    .map((stretch) => `M${stretch.map(({ at, value }) => point(x(at), y(value))).join('L')}`)
    .join('');
}

/** A level line for each step, with an upright where two steps meet. */
export function steppedPath<T extends { from: number; to: number }>(
  steps: readonly T[],
  levelOf: (step: T) => number,
  x: Scale,
  y: Scale,
): string {
  return touching(steps)
    .map((group) => `M${corners(group, levelOf, x, y).join('L')}`)
    .join('');
}

/** The area between two stepped lines. */
export function bandPath(
  steps: readonly LimitStep[],
  lowOf: (step: LimitStep) => number,
  highOf: (step: LimitStep) => number,
  x: Scale,
  y: Scale,
): string {
  return touching(steps)
    .map((group) => {
      const outline = [...corners(group, highOf, x, y), ...corners(group, lowOf, x, y).reverse()];
      return `M${outline.join('L')}Z`;
    })
    .join('');
}

/** A rail is drawn where it lies on the axis, and left out where it does not. */
export const railsOnAxis = (
  rails: readonly RailStep[],
  levelOf: (rail: RailStep) => number,
  axis: { from: number; to: number },
) => rails.filter((rail) => levelOf(rail) >= axis.from && levelOf(rail) <= axis.to);

function corners<T extends { from: number; to: number }>(
  steps: readonly T[],
  levelOf: (step: T) => number,
  x: Scale,
  y: Scale,
): string[] {
  return steps.flatMap((step) => {
    const level = y(levelOf(step));
    return [point(x(step.from), level), point(x(step.to), level)];
  });
}

function touching<T extends { from: number; to: number }>(steps: readonly T[]): T[][] {
  const groups: T[][] = [];
  for (const step of steps) {
    const group = groups.at(-1);
    if (group?.at(-1)?.to === step.from) group.push(step);
    else groups.push([step]);
  }
  return groups;
}

interface Placed {
  at: number;
  drawnAt: number;
}

/** A circle around each point, all in one path. */
export function dotsPath(points: readonly Placed[], radius: number, x: Scale, y: Scale): string {
  const half = `a${radius} ${radius} 0 1 0`;
  return points
    .map(
      ({ at, drawnAt }) =>
        `M${point(x(at) - radius, y(drawnAt))}${half} ${2 * radius} 0${half} ${-2 * radius} 0`,
    )
    .join('');
}

/** A slanting stroke through each point. */
export const strokesPath = (points: readonly Placed[], x: Scale, y: Scale): string =>
  points.map(({ at, drawnAt }) => `M${point(x(at) - 6, y(drawnAt) + 4)}l12 -8`).join('');

/** The marks of parts/verdictMark.tsx around a middle, in one path; a test holds them to those. */
const strokesOf = {
  warn: [[0, -6.5, 'v13']],
  fail: [
    [-6, -4, 'h12v8h-12z'],
    [-2, -7, 'v14'],
    [2, -7, 'v14'],
  ],
} as const;

export const marksPath = (
  points: readonly Placed[],
  mark: keyof typeof strokesOf,
  x: Scale,
  y: Scale,
): string =>
  points
    .map(({ at, drawnAt }) =>
      strokesOf[mark]
        .map(([right, down, stroke]) => `M${point(x(at) + right, y(drawnAt) + down)}${stroke}`)
        .join(''),
    )
    .join('');

/** Where a mark of a failure stands, nothing behind it shows through. */
export const clearingsPath = (points: readonly Placed[], x: Scale, y: Scale): string =>
  points.map(({ at, drawnAt }) => `M${point(x(at) - 6, y(drawnAt) - 4)}h12v8h-12z`).join('');
