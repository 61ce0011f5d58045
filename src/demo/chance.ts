import { normalQuantile } from '../core/index.ts';

/** Numbers in [0, 1) from a seed, the same on every machine. Source: mulberry32 (T. Ettinger), from memory. */
export function seededUniform(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** Ids like those of the app in length, but from the seed. */
export function idSource(uniform: () => number): () => string {
  const word = () =>
    Math.floor(uniform() * 2 ** 32)
      .toString(16)
      .padStart(8, '0');
  return () => `${word()}${word()}${word()}${word()}`;
}

const strata = 8;
/** The part of a stratum that is drawn from: keeps the outermost values within some 2.3 SD. */
const [from, upTo] = [0.25, 0.75];
/** Brings the strata's own spread to 1; by numerical integration over the strata. */
const spread = 0.935;

/**
 * Normal deviates that are balanced: every eight of them hold one from each eighth of the distribution, in random order.
 * A real laboratory sees a chance alarm now and then; in a demonstration it would only hide the planted faults.
 */
export function balancedDeviates(count: number, uniform: () => number): number[] {
  const deviates: number[] = [];
  while (deviates.length < count) {
    const block = Array.from({ length: strata }, (_, stratum) => {
      const within = from + (upTo - from) * uniform();
      return { rank: uniform(), deviate: normalQuantile((stratum + within) / strata) / spread };
    });
    block.sort((a, b) => a.rank - b.rank);
    deviates.push(...block.map(({ deviate }) => deviate));
  }
  return deviates.slice(0, count);
}

/** What chance adds to one run, each in its own SD. */
export interface Deviates {
  va: number;
  dlco: number;
  /** To the volume check and the other readings beside it. */
  check: number;
}

/** The deviates of `count` runs, by index. */
export function deviateSource(count: number, uniform: () => number): (index: number) => Deviates {
  const va = balancedDeviates(count, uniform);
  const dlco = balancedDeviates(count, uniform);
  const check = balancedDeviates(count, uniform);
  const of = (values: readonly number[], index: number) => values[index % count] ?? 0;
  return (index) => ({ va: of(va, index), dlco: of(dlco, index), check: of(check, index) });
}

export interface Room {
  temperatureC: number;
  pressureMmHg: number;
}

/** Weather and air conditioning of each day: pressures wander over days, a room is kept near one temperature. */
export function roomOfDays(days: number, uniform: () => number): Room[] {
  const pressures = balancedDeviates(days, uniform);
  const temperatures = balancedDeviates(days, uniform);
  let anomaly = 0;
  return pressures.map((deviate, day) => {
    anomaly = 0.75 * anomaly + 5 * deviate;
    return { temperatureC: 21.6 + 0.7 * (temperatures[day] ?? 0), pressureMmHg: 752 + anomaly };
  });
}
