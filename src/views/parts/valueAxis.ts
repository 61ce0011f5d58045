/** Domain and ticks of a chart's value axis. */
export interface ValueAxis {
  from: number;
  to: number;
  ticks: readonly number[];
  step: number;
}

/** An axis around `values` with some air, and ticks at round values. `resolution` opens an axis without any spread. */
export function valueAxis(values: readonly number[], resolution: number): ValueAxis {
  let lowest = Number.POSITIVE_INFINITY;
  let highest = Number.NEGATIVE_INFINITY;
  for (const value of values) {
    if (value < lowest) lowest = value;
    if (value > highest) highest = value;
  }
  if (lowest > highest) return valueAxis([0], resolution);
  const air = Math.max((highest - lowest) * 0.1, resolution * 2);
  const from = lowest - air;
  const to = highest + air;
  const step = roundStep((to - from) / 5);
  const first = Math.ceil(from / step);
  const last = Math.floor(to / step);
  const ticks = Array.from({ length: last - first + 1 }, (_, index) => (first + index) * step);
  return { from, to, ticks, step };
}

/** The nearest step of 1, 2 or 5 times a power of ten that is not below `rough`. */
function roundStep(rough: number): number {
  const power = 10 ** Math.floor(Math.log10(rough));
  const multiple = [1, 2, 5].find((candidate) => candidate * power >= rough * (1 - 1e-9)) ?? 10;
  return multiple * power;
}
