import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type RoutePairs, type RouteRun, routePairs } from '../../../src/core/index.ts';

const hour = 3_600_000;

/** Values are eighths, so that moving by a whole number is exact; several runs of a day, of one instant, of either route. */
const arbitraryRuns = fc
  .array(
    fc.record({
      wait: fc.constantFrom(0, 0, 1, 1, 6, 24, 24, 48),
      isBuiltIn: fc.boolean(),
      startsEpoch: fc.integer({ min: 0, max: 79 }).map((roll) => roll === 0),
      excluded: fc.integer({ min: 0, max: 11 }).map((roll) => roll === 0),
      accepted: fc.integer({ min: 0, max: 9 }).map((roll) => roll > 0),
      va: fc.integer({ min: -40, max: 40 }),
      dlco: fc.integer({ min: -8, max: 8 }),
    }),
    { maxLength: 120, size: 'max' },
  )
  .map((steps) => {
    let at = Date.UTC(2026, 0, 5);
    let epoch = 0;
    return steps.map(({ wait, isBuiltIn, startsEpoch, excluded, accepted, va, dlco }, index): RouteRun => {
      at += wait * hour;
      if (startsEpoch) epoch += 1;
      return {
        id: `r${String(index).padStart(3, '0')}`,
        at,
        route: isBuiltIn ? 'built-in' : 'patient-test',
        epoch,
        va: { value: 3 + va / 8, accepted },
        dlco: { value: dlco / 8, accepted },
        excluded,
      };
    });
  });

const zone = 'Europe/Lisbon';

describe('routePairs', () => {
  it('moves the mean difference, and no z, with one route', () => {
    let judged = 0;
    fc.assert(
      fc.property(arbitraryRuns, fc.integer({ min: -6, max: 6 }), (runs, shift) => {
        const moved = runs.map((run) =>
          run.route === 'built-in' ? run : { ...run, va: { ...run.va, value: run.va.value + shift } },
        );
        const before = routePairs(runs, zone);
        const after = routePairs(moved, zone);
        for (const [index, pair] of before.pairs.entries()) {
          const other = after.pairs[index];
          expect(other?.va.value).toBe(pair.va.value + shift);
          expect(other?.va.n).toBe(pair.va.n);
          expect(other?.dlco).toEqual(pair.dlco);
          if (pair.va.z === null || pair.va.mean === null) expect(other?.va.z).toBeNull();
          else {
            judged += 1;
            expect(other?.va.z).toBeCloseTo(pair.va.z, 9);
            expect(other?.va.mean).toBeCloseTo(pair.va.mean + shift, 9);
          }
        }
        const [offset, movedOffset] = [before.offset.va, after.offset.va];
        expect(movedOffset?.n).toBe(offset?.n);
        if (offset) expect(movedOffset?.mean).toBeCloseTo(offset.mean + shift, 9);
        if (offset?.interval) {
          expect(movedOffset?.interval?.lower).toBeCloseTo(offset.interval.lower + shift, 9);
        }
      }),
    );
    expect(judged).toBeGreaterThan(50);
  });

  it('turns every sign around with the routes, and nothing else', () => {
    fc.assert(
      fc.property(arbitraryRuns, (runs) => {
        const swapped = runs.map((run): RouteRun => ({ ...run, route: otherRoute(run.route) }));
        const before = routePairs(runs, zone).pairs;
        const after = routePairs(swapped, zone).pairs;
        expect(after.map(({ va }) => va.value)).toEqual(before.map(({ va }) => 0 - va.value));
        expect(after.map(({ patientTestId }) => patientTestId)).toEqual(
          before.map(({ builtInId }) => builtInId),
        );
      }),
    );
  });

  it('does not depend on the order in which the runs come', () => {
    const shuffled = arbitraryRuns.chain((runs) =>
      fc.tuple(fc.constant(runs), fc.shuffledSubarray(runs, { minLength: runs.length })),
    );
    fc.assert(
      fc.property(shuffled, ([runs, other]) => {
        expect(routePairs(other, zone)).toEqual(routePairs(runs, zone));
      }),
    );
  });

  it('puts every run that counts into one pair or among those alone, once', () => {
    fc.assert(
      fc.property(arbitraryRuns, (runs) => {
        const counting = runs.filter(({ excluded }) => excluded !== true).map(({ id }) => id);
        expect(everyId(routePairs(runs, zone)).sort()).toEqual(counting);
      }),
    );
  });

  it('leaves no two runs alone that could have been a pair', () => {
    fc.assert(
      fc.property(arbitraryRuns, (runs) => {
        const epochOf = new Map(runs.map(({ id, epoch }) => [id, epoch]));
        const routes = new Map<string, string>();
        for (const { id, date, route } of routePairs(runs, zone).alone) {
          const key = `${date} ${epochOf.get(id)}`;
          expect(routes.get(key) ?? route).toBe(route);
          routes.set(key, route);
        }
      }),
    );
  });
});

const otherRoute = (route: RouteRun['route']) => (route === 'built-in' ? 'patient-test' : 'built-in');

const everyId = ({ pairs, alone }: RoutePairs) => [
  ...pairs.flatMap(({ patientTestId, builtInId }) => [patientTestId, builtInId]),
  ...alone.map(({ id }) => id),
];
