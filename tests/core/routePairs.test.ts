import { mean as referenceMean, sampleStandardDeviation } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { type Route, type RouteRun, routePairs } from '../../src/core/index.ts';

const minute = 60_000;
const day = 24 * 60 * minute;
/** Monday 5 January 2026, 08:00 UTC. */
const monday = Date.UTC(2026, 0, 5, 8);

function run(id: string, route: Route, at: number, vaL: number, changes: Partial<RouteRun> = {}): RouteRun {
  return Object.freeze({
    id,
    at,
    route,
    epoch: 0,
    va: Object.freeze({ value: vaL, accepted: true }),
    dlco: Object.freeze({ value: 0, accepted: true }),
    ...changes,
  });
}

/** A pair a week: the built-in runs ten minutes after the patient tests. */
function weekly(pairs: readonly (readonly [patientTest: number, builtIn: number])[], epoch = 0, first = 0) {
  return pairs.flatMap(([patientTest, builtIn], index) => {
    const at = monday + (first + index) * 7 * day;
    return [
      run(`p${first + index}`, 'patient-test', at, patientTest, { epoch }),
      run(`b${first + index}`, 'built-in', at + 10 * minute, builtIn, { epoch }),
    ];
  });
}

/** Runs whose difference is that of the values, the built-in ones all at 3 L. */
const apart = (...differences: readonly number[]) => weekly(differences.map((value) => [3 + value, 3]));

const va = (runs: readonly RouteRun[], zone = 'Etc/UTC') =>
  routePairs(runs, zone).pairs.map((pair) => pair.va);
const names = (runs: readonly RouteRun[], zone = 'Etc/UTC') =>
  routePairs(runs, zone).pairs.map(({ patientTestId, builtInId }) => `${patientTestId} ${builtInId}`);

/** The extra sleep of ten patients under two drugs: Student, Biometrika 6 (1908); as R 4.2.2 carries it (`sleep`). */
const sleep = Object.freeze([
  [1.9, 0.7],
  [0.8, -1.6],
  [1.1, -0.2],
  [0.1, -1.2],
  [-0.1, -0.1],
  [4.4, 3.4],
  [5.5, 3.7],
  [1.6, 0.8],
  [4.6, 0],
  [3.4, 2],
] as const);

describe('which runs make a pair', () => {
  it('one of each route on one day of the laboratory’s wall', () => {
    const late = Date.UTC(2026, 2, 1, 22, 50);
    const runs = [run('p', 'patient-test', late, 3), run('b', 'built-in', late + 20 * minute, 3)];
    // 23:50 and 00:10 in Berlin, 22:50 and 23:10 in Lisbon.
    expect(routePairs(runs, 'Europe/Berlin').pairs).toEqual([]);
    expect(routePairs(runs, 'Europe/Berlin').alone.map(({ id, date }) => [id, date])).toEqual([
      ['p', '2026-03-01'],
      ['b', '2026-03-02'],
    ]);
    expect(routePairs(runs, 'Europe/Lisbon').pairs).toMatchObject([
      { date: '2026-03-01', patientTestId: 'p', builtInId: 'b', at: late + 20 * minute },
    ]);
  });

  it('whichever route came first; the difference is patient test less built-in', () => {
    const runs = [run('b', 'built-in', monday, 3.01), run('p', 'patient-test', monday + minute, 3.04)];
    expect(names(runs)).toEqual(['p b']);
    expect(va(runs)[0]?.value).toBeCloseTo(0.03, 12);
  });

  it('of several on a day the two nearest in time, then the nearest of those left, each run once', () => {
    const runs = [
      run('p1', 'patient-test', monday, 3),
      run('b1', 'built-in', monday + 60 * minute, 3),
      run('p2', 'patient-test', monday + 75 * minute, 3),
      run('b2', 'built-in', monday + 300 * minute, 3),
      run('b3', 'built-in', monday + 400 * minute, 3),
    ];
    const { pairs, alone } = routePairs(runs, 'Etc/UTC');
    expect(pairs.map(({ patientTestId, builtInId }) => [patientTestId, builtInId])).toEqual([
      ['p2', 'b1'],
      ['p1', 'b2'],
    ]);
    expect(alone.map(({ id, route }) => [id, route])).toEqual([['b3', 'built-in']]);
  });

  it('of equal gaps the earlier two, and of one instant in the order of their ids', () => {
    const between = [
      run('p1', 'patient-test', monday, 3),
      run('b1', 'built-in', monday + 10 * minute, 3),
      run('p2', 'patient-test', monday + 20 * minute, 3),
    ];
    expect(names(between)).toEqual(['p1 b1']);
    const atOnce = ['p2', 'b2', 'p1', 'b1'].map((id) =>
      run(id, id.startsWith('p') ? 'patient-test' : 'built-in', monday, 3),
    );
    expect(names(atOnce).sort()).toEqual(names(atOnce.toReversed()).sort());
    expect(names(atOnce)).toHaveLength(2);
  });

  it('leaves out voided runs and never pairs two epochs', () => {
    const pair = weekly([[3, 3]]);
    expect(names(pair.map((each) => (each.id === 'b0' ? { ...each, excluded: true } : each)))).toEqual([]);
    const voided = routePairs(
      pair.map((each) => ({ ...each, excluded: true })),
      'Etc/UTC',
    );
    expect(voided).toEqual({ pairs: [], alone: [], offset: { va: null, dlco: null } });
    const split = pair.map((each) => (each.id === 'b0' ? { ...each, epoch: 1 } : each));
    expect(routePairs(split, 'Etc/UTC').pairs).toEqual([]);
    expect(routePairs(split, 'Etc/UTC').alone).toHaveLength(2);
  });
});

describe('the difference of a pair', () => {
  it('has no z under ten earlier pairs, and then their mean and SD', () => {
    const runs = weekly([...sleep, [4, 0]]);
    const found = va(runs);
    expect(found.slice(0, 10).map(({ n, mean, sd, z }) => [n, mean, sd, z])).toEqual(
      sleep.map((_, index) => [index, null, null, null]),
    );
    const differences = sleep.map(([one, other]) => one - other);
    expect(found[10]?.n).toBe(10);
    expect(found[10]?.mean).toBeCloseTo(referenceMean(differences), 12);
    expect(found[10]?.sd).toBeCloseTo(sampleStandardDeviation(differences), 12);
    // R 4.2.2: d <- with(sleep, extra[group == 2] - extra[group == 1]); mean(d); sd(d); (4 - mean(d)) / sd(d)
    expect(found[10]?.mean).toBeCloseTo(1.58, 12);
    expect(found[10]?.sd).toBeCloseTo(1.22999548327987, 12);
    expect(found[10]?.z).toBeCloseTo(1.96748689966478, 12);
  });

  it('judges DLCO by the DLCO of the earlier pairs', () => {
    const runs = weekly([...sleep, [4, 0]]).map((each) => ({
      ...each,
      va: { value: 3, accepted: true },
      dlco: each.va,
    }));
    const newest = routePairs(runs, 'Etc/UTC').pairs.at(-1);
    expect(newest?.dlco.z).toBeCloseTo(1.96748689966478, 12);
    expect(newest?.va).toMatchObject({ value: 0, n: 10, mean: null, sd: null, z: null });
  });

  it('keeps a pair beyond 3 SD out of the history: a fault does not make itself usual', () => {
    // 5.3 less the mean of 1.58, over 1.22999548327987, is 3.0244 (R, as above).
    const found = va(weekly([...sleep, [5.3, 0], [5.3, 0], [5.3, 0]]));
    expect(found.slice(10).map(({ n, accepted }) => [n, accepted])).toEqual([
      [10, false],
      [10, false],
      [10, false],
    ]);
    for (const { z } of found.slice(10)) expect(z).toBeCloseTo(3.02440134989793, 12);
  });

  it('keeps a pair with a run that was not accepted out of the history, in that quantity alone', () => {
    const runs = weekly([...sleep, [4, 0]]).map((each) =>
      each.id === 'p3' ? { ...each, va: { ...each.va, accepted: false } } : each,
    );
    const newest = routePairs(runs, 'Etc/UTC').pairs.at(-1);
    expect(newest?.va).toMatchObject({ n: 9, z: null });
    expect(newest?.dlco.n).toBe(10);
  });

  it('begins anew with an epoch', () => {
    const found = va([...weekly(sleep, 0), ...weekly([[4, 0]], 1, 10)]);
    expect(found[10]).toMatchObject({ n: 0, mean: null, z: null });
  });

  it.each([
    ['none', []],
    ['one', [0.02]],
    ['two', [0.02, 0.03]],
  ])('of %s has no z', (_, differences) => {
    expect(va(apart(...differences)).map(({ z }) => z)).toEqual(differences.map(() => null));
  });

  it('of all equal differences has no z, also where binary rounding makes them unequal', () => {
    const displayed = Array.from({ length: 12 }, (_, index): [number, number] => {
      const builtIn = Number((3.94 + index / 100).toFixed(2));
      return [Number((builtIn + 0.02).toFixed(2)), builtIn];
    });
    const found = va(weekly(displayed));
    expect(new Set(found.map(({ value }) => value)).size).toBeGreaterThan(1);
    expect(found.map(({ z }) => z)).toEqual(displayed.map(() => null));
  });

  it('keeps its digits where the readings are huge against the spread of their differences', () => {
    const steps = [1, 3, 1, 3, 1, 3, 1, 3, 1, 3, 4];
    // Whole numbers near 2^52 are exact. Mean 2, SD √(10/9): z of 4 is 2/√(10/9).
    const found = va(weekly(steps.map((step): [number, number] => [2 ** 52 + step, 2 ** 52])));
    expect(found[10]?.z).toBeCloseTo(2 / Math.sqrt(10 / 9), 12);
  });

  it.each([Number.NaN, Number.POSITIVE_INFINITY])('refuses %d and says of which run', (bad) => {
    const good = run('p', 'patient-test', monday, 3);
    const refused = (changes: Partial<RouteRun>) => () => routePairs([{ ...good, ...changes }], 'Etc/UTC');
    const reading = { value: bad, accepted: true };
    expect(refused({ at: bad })).toThrow(RangeError);
    expect(refused({ at: bad })).toThrow(/routePairs: at in ms of run p is/);
    expect(refused({ epoch: bad })).toThrow(/epoch of run p is/);
    expect(refused({ va: reading })).toThrow(/va in L of run p is/);
    expect(refused({ dlco: reading })).toThrow(/dlco in mL\/min\/mmHg of run p is/);
  });

  it('refuses an unknown zone', () => {
    expect(() => routePairs(weekly([[3, 3]]), 'Nowhere/Here')).toThrow(RangeError);
  });
});

describe('the standing offset', () => {
  it('is the mean difference with its t interval', () => {
    const { offset } = routePairs(weekly(sleep), 'Etc/UTC');
    // R 4.2.2: with(sleep, t.test(extra[group == 2], extra[group == 1], paired = TRUE)$conf.int)
    expect(offset.va?.n).toBe(10);
    expect(offset.va?.mean).toBeCloseTo(1.58, 12);
    expect(offset.va?.interval?.lower).toBeCloseTo(0.700114236723018, 9);
    expect(offset.va?.interval?.upper).toBeCloseTo(2.459885763276982, 9);
  });

  it('rests on the accepted pairs of the newest epoch', () => {
    const { offset } = routePairs([...weekly([[9, 0]], 0), ...weekly(sleep, 1, 1)], 'Etc/UTC');
    expect(offset.va).toMatchObject({ n: 10 });
    expect(offset.va?.mean).toBeCloseTo(1.58, 12);
    const fresh = routePairs([...weekly(sleep), ...weekly([[4, 0]], 1, 10)], 'Etc/UTC');
    expect(fresh.offset.va).toEqual({ n: 1, mean: 4, interval: null });
  });

  it('of none is null; of one has no interval; of two a wide one; of all equal none', () => {
    expect(routePairs([], 'Etc/UTC')).toEqual({ pairs: [], alone: [], offset: { va: null, dlco: null } });
    expect(routePairs(apart(0.5), 'Etc/UTC').offset.va).toEqual({ n: 1, mean: 0.5, interval: null });
    const two = routePairs(apart(0, 1), 'Etc/UTC').offset.va;
    // By hand: SD √½, over √2 is ½; t of 1 degree of freedom at 0.975 is 12.7062 (any t table).
    expect(two?.interval?.lower).toBeCloseTo(0.5 - 12.7062 / 2, 4);
    expect(two?.interval?.upper).toBeCloseTo(0.5 + 12.7062 / 2, 4);
    expect(routePairs(apart(0.25, 0.25, 0.25), 'Etc/UTC').offset.va).toEqual({
      n: 3,
      mean: 0.25,
      interval: null,
    });
  });

  it('of accepted pairs is null where every pair has a failing run', () => {
    const runs = apart(0.1, 0.2).map((each) => ({ ...each, va: { ...each.va, accepted: false } }));
    expect(routePairs(runs, 'Etc/UTC').offset).toMatchObject({ va: null, dlco: { n: 2, mean: 0 } });
  });
});
