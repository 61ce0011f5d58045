import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { firstNotBefore, type Thinnable, thinPoints } from '../../../src/views/charting/thinPoints.ts';

const point = (at: number, drawnAt: number, keep = false): Thinnable => ({ at, drawnAt, keep });

/** In time order, some at the same instant, some of which must stay. */
const points = fc
  .array(
    fc.record({
      wait: fc.integer({ min: 0, max: 50 }),
      drawnAt: fc.double({ min: -5, max: 5, noNaN: true }),
      keep: fc.integer({ min: 0, max: 19 }),
    }),
    { maxLength: 400 },
  )
  .map((rows) => {
    let at = 0;
    return rows.map(({ wait, drawnAt, keep }) => {
      at += wait;
      return point(at, drawnAt, keep === 0);
    });
  });
const instants = fc.array(fc.integer({ min: -10, max: 20_000 }), { maxLength: 5 });
const most = fc.integer({ min: 0, max: 200 });

/** What the contract names, found without the function's own means. */
function mustStay(all: readonly Thinnable[], happened: readonly number[]): Set<Thinnable> {
  const stay = new Set(all.filter(({ keep }) => keep));
  for (const end of [all[0], all.at(-1)]) if (end) stay.add(end);
  for (const instant of happened) {
    const before = all.filter(({ at }) => at < instant).at(-1);
    const after = all.find(({ at }) => at >= instant);
    for (const neighbour of [before, after]) if (neighbour) stay.add(neighbour);
  }
  return stay;
}

describe('thinPoints', () => {
  it('leaves few points alone', () => {
    const few = [point(1, 2), point(2, 3)];
    expect(thinPoints(few, [], 2)).toBe(few);
    expect(thinPoints([], [], 0)).toEqual([]);
  });

  it('drops no signal, no end, no neighbour of an event and no extreme of all', () => {
    fc.assert(
      fc.property(points, instants, most, (all, happened, atMost) => {
        const thinned = new Set(thinPoints(all, happened, atMost));
        for (const each of mustStay(all, happened)) expect(thinned.has(each)).toBe(true);
        const values = (some: Iterable<Thinnable>) => [...some].map(({ drawnAt }) => drawnAt);
        expect(Math.min(...values(thinned))).toBe(Math.min(...values(all)));
        expect(Math.max(...values(thinned))).toBe(Math.max(...values(all)));
      }),
    );
  });

  it('keeps to the number given, or to what must stay and the two extremes where that is more', () => {
    fc.assert(
      fc.property(points, instants, most, (all, happened, atMost) => {
        const bound = Math.max(atMost, mustStay(all, happened).size + 2);
        expect(thinPoints(all, happened, atMost).length).toBeLessThanOrEqual(bound);
      }),
    );
  });

  it('keeps their order and makes up none', () => {
    fc.assert(
      fc.property(points, instants, most, (all, happened, atMost) => {
        const thinned = thinPoints(all, happened, atMost);
        const places = thinned.map((each) => all.indexOf(each));
        expect(places.every((place, index) => place >= 0 && place > (places[index - 1] ?? -1))).toBe(true);
      }),
    );
  });

  it('keeps the lowest and the highest of every part of the time', () => {
    // 4,000 points, a spike up and one down in each of 40 stretches of 100: all 80 are found again among 1,000.
    const all = Array.from({ length: 4000 }, (_, index) =>
      point(index, index % 100 === 37 ? 9 : index % 100 === 73 ? -9 : Math.sin(index)),
    );
    const thinned = thinPoints(all, [], 1000);
    expect(thinned.length).toBeLessThanOrEqual(1000);
    expect(thinned.filter(({ drawnAt }) => Math.abs(drawnAt) === 9)).toHaveLength(80);
  });
});

describe('firstNotBefore', () => {
  it('finds the place that a search from the start finds', () => {
    fc.assert(
      fc.property(points, fc.integer({ min: -5, max: 20_000 }), (all, instant) => {
        const found = all.findIndex(({ at }) => at >= instant);
        expect(firstNotBefore(all, instant)).toBe(found < 0 ? all.length : found);
      }),
    );
  });
});
