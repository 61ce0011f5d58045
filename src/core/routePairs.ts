import { type CivilDate, civilDateOf } from './civilDate.ts';
import { defaultControlPolicy } from './controlPolicy.ts';
import { tQuantile } from './quantiles.ts';
import type { Route } from './simulationRun.ts';
import { RunningMoments } from './statistics.ts';
import type { Quantity } from './verdict.ts';

/** A run as the comparison of routes sees it. */
export interface RouteRun {
  id: string;
  /** When the run was made, in ms. */
  at: number;
  route: Route;
  epoch: number;
  /** Simulated VA, in L. */
  va: RouteReading;
  /** In mL/min/mmHg. */
  dlco: RouteReading;
  /** Voided, or taken out of the statistics: it takes part in nothing. */
  excluded?: boolean | undefined;
}

export interface RouteReading {
  value: number;
  /** It may enter the mean of its own series; a fault of one route is no history of both. */
  accepted: boolean;
}

/** One run of each route, of one day and one epoch. */
export interface RoutePair {
  date: CivilDate;
  /** When the second of the two was made, in ms: from then on the pair is known. */
  at: number;
  epoch: number;
  patientTestId: string;
  builtInId: string;
  va: RouteDifference;
  dlco: RouteDifference;
}

/** Patient test less built-in, in the unit of the reading, against the earlier accepted pairs of the epoch. */
export interface RouteDifference {
  value: number;
  /** Earlier accepted pairs of the epoch. */
  n: number;
  /** Nulls, as are `sd` and `z`, with fewer than ten such pairs or where their SD is 0. */
  mean: number | null;
  sd: number | null;
  z: number | null;
  /** It may enter the mean of later pairs: both runs were accepted, and the routes have not parted in it. */
  accepted: boolean;
}

/** The mean difference over the accepted pairs of the newest epoch. */
export interface RouteOffset {
  n: number;
  mean: number;
  /** In which the true mean difference lies with 95 % confidence. Null for fewer than two pairs, or where their SD is 0. */
  interval: { lower: number; upper: number } | null;
}

export interface RoutePairs {
  /** Oldest first. */
  pairs: readonly RoutePair[];
  /** Runs that found no partner, oldest first. */
  alone: readonly { id: string; at: number; date: CivilDate; route: Route }[];
  /** Null where the newest pair's epoch has no accepted one. */
  offset: Readonly<Record<Quantity, RouteOffset | null>>;
}

/** Beyond so many SD of the earlier differences the routes have parted. Common practice, no source, as for 1-3s. */
export const partedBeyondSd = 3;

/**
 * Readings have three decimals at the most: what differs by less, in L or in mL/min/mmHg, is binary rounding of the
 * subtraction, and an SD made of it would turn equal differences into signals.
 */
const binaryNoise = 1e-9;

/**
 * The runs of one analyzer and one method, paired by the day on the laboratory's wall, and how far the two routes lie apart.
 *
 * Of several runs on a day the two of different routes that lie nearest in time make the first pair (the earlier two, where
 * gaps are equal), then the two nearest of those left, and so on: each run is in one pair at the most, and the room and the
 * syringe of a pair are as equal as the day allows. Runs of two epochs make none.
 *
 * A pair is judged by the earlier pairs of its epoch, as a run is by the earlier runs: n − 1 in the SD, nothing below ten. A
 * pair with a run that was not accepted, or beyond 3 SD, is judged but does not enter the history of later ones: a fault of
 * one route would make itself usual.
 *
 * Sources: paired differences and their mean, Bland & Altman, Lancet 1986;327:307–310; its interval `mean ± t · SD / √n`, t of
 * n − 1 degrees of freedom, NIST/SEMATECH e-Handbook 7.2.2.1; what is accepted, domain rules of this project.
 * @throws {RangeError} if an instant, an epoch or a reading is not finite, or the zone is unknown.
 * @example patient test 3.02 L at 08:00, built-in 3.00 L at 08:10: one pair, va.value 0.02 L
 */
export function routePairs(runs: readonly RouteRun[], zone: string): RoutePairs {
  const days = new Map<string, { date: CivilDate; waiting: RouteRun[] }>();
  for (const run of runs) {
    requireNumbers(run);
    if (run.excluded === true) continue;
    const date = civilDateOf(run.at, zone);
    const key = `${date} ${run.epoch}`;
    const day = days.get(key);
    if (day === undefined) days.set(key, { date, waiting: [run] });
    else day.waiting.push(run);
  }
  const found: FoundPair[] = [];
  const alone: RoutePairs['alone'][number][] = [];
  for (const { date, waiting } of days.values()) {
    waiting.sort(byTime);
    for (let pair = takeNearest(waiting); pair !== null; pair = takeNearest(waiting)) {
      found.push({ date, ...pair, at: Math.max(pair.patientTest.at, pair.builtIn.at) });
    }
    for (const { id, at, route } of waiting) alone.push({ id, at, date, route });
  }
  found.sort((one, other) => one.at - other.at || byTime(one.first, other.first));
  let epoch = found[0]?.patientTest.epoch;
  let va = new EarlierPairs();
  let dlco = new EarlierPairs();
  const pairs = found.map(({ date, at, patientTest, builtIn }): RoutePair => {
    if (patientTest.epoch !== epoch) {
      epoch = patientTest.epoch;
      va = new EarlierPairs();
      dlco = new EarlierPairs();
    }
    return {
      date,
      at,
      epoch,
      patientTestId: patientTest.id,
      builtInId: builtIn.id,
      va: va.judge(patientTest.va, builtIn.va),
      dlco: dlco.judge(patientTest.dlco, builtIn.dlco),
    };
  });
  return { pairs, alone: alone.sort(byTime), offset: { va: va.offset, dlco: dlco.offset } };
}

interface FoundPair {
  date: CivilDate;
  at: number;
  first: RouteRun;
  patientTest: RouteRun;
  builtIn: RouteRun;
}

/** Of runs in time order: two of different routes with the smallest gap are always neighbours. */
function takeNearest(waiting: RouteRun[]): Omit<FoundPair, 'date' | 'at'> | null {
  let nearest = -1;
  let smallestGap = Number.POSITIVE_INFINITY;
  for (const [index, run] of waiting.entries()) {
    const before = waiting[index - 1];
    if (before === undefined || before.route === run.route) continue;
    const gap = run.at - before.at;
    if (gap < smallestGap) {
      smallestGap = gap;
      nearest = index - 1;
    }
  }
  if (nearest < 0) return null;
  const [first, second] = waiting.splice(nearest, 2);
  if (first === undefined || second === undefined) return null;
  return first.route === 'patient-test'
    ? { first, patientTest: first, builtIn: second }
    : { first, patientTest: second, builtIn: first };
}

/** The differences of one epoch in one quantity, in the order in which the pairs became known. */
class EarlierPairs {
  readonly #moments = new RunningMoments();

  /** By the pairs before it, which it then joins if it is accepted. */
  judge(patientTest: RouteReading, builtIn: RouteReading): RouteDifference {
    const { count: n, mean, sd, anchor, meanDeviation } = this.#moments;
    const value = patientTest.value - builtIn.value;
    const canJudge = n >= defaultControlPolicy.minimumSize && sd > binaryNoise;
    const z = canJudge ? (value - anchor - meanDeviation) / sd : null;
    const hasParted = z !== null && Math.abs(z) > partedBeyondSd;
    const accepted = patientTest.accepted && builtIn.accepted && !hasParted;
    if (accepted) this.#moments.add(value);
    return { value, n, mean: canJudge ? mean : null, sd: canJudge ? sd : null, z, accepted };
  }

  get offset(): RouteOffset | null {
    const { count: n, mean, sd } = this.#moments;
    if (n === 0) return null;
    if (n === 1 || !(sd > binaryNoise)) return { n, mean, interval: null };
    const half = (-tQuantile(0.025, n - 1) * sd) / Math.sqrt(n);
    return { n, mean, interval: { lower: mean - half, upper: mean + half } };
  }
}

function byTime(one: Pick<RouteRun, 'at' | 'id'>, other: Pick<RouteRun, 'at' | 'id'>): number {
  if (one.at !== other.at) return one.at - other.at;
  return one.id < other.id ? -1 : Number(one.id > other.id);
}

function requireNumbers({ id, at, epoch, va, dlco }: RouteRun): void {
  const numbers = { 'at in ms': at, epoch, 'va in L': va.value, 'dlco in mL/min/mmHg': dlco.value };
  for (const [name, value] of Object.entries(numbers)) {
    if (!Number.isFinite(value)) throw new RangeError(`routePairs: ${name} of run ${id} is ${value}`);
  }
}
