import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type ControlPolicy,
  defaultControlPolicy,
  evaluateSeries,
  mean,
  type PointEvaluation,
  type SeriesPoint,
  sampleSd,
} from '../../../src/core/index.ts';
import { arbitraryPolicy, arbitrarySeries } from './arbitraries.ts';
import { referenceEvaluation } from './referenceEvaluation.ts';

const runs = { numRuns: 300 };

describe('evaluateSeries', () => {
  it('gives what a plain evaluation from the definitions gives', () => {
    fc.assert(
      fc.property(arbitrarySeries, arbitraryPolicy, ({ points, closures }, policy) => {
        const found = evaluateSeries(points, policy, closures);
        const expected = referenceEvaluation(points, () => policy, closures);
        expect(found.map(roundedOff)).toEqual(expected.map(roundedOff));
      }),
      { numRuns: 1000 },
    );
  });

  it('judges a run by the runs and closures before it alone, whatever comes later', () => {
    fc.assert(
      fc.property(arbitrarySeries, arbitraryPolicy, fc.nat(60), ({ points, closures }, policy, length) => {
        const until = points[length]?.at ?? Number.POSITIVE_INFINITY;
        const known = closures.filter((closure) => closure < until);
        expect(evaluateSeries(points.slice(0, length), policy, known)).toEqual(
          evaluateSeries(points, policy, closures).slice(0, length),
        );
      }),
      runs,
    );
  });

  it('changes nothing else when an excluded point is added', () => {
    fc.assert(
      fc.property(arbitrarySeries, arbitraryPolicy, fc.nat(60), ({ points, closures }, policy, place) => {
        const at = points[place]?.at ?? points.at(-1)?.at ?? 0;
        const added: SeriesPoint = { id: 'added', at, value: 1e6, epoch: 99, excluded: true, breached: true };
        const withIt = [...points.slice(0, place), added, ...points.slice(place)];
        const found = evaluateSeries(withIt, policy, closures);
        expect(found.filter(({ id }) => id !== 'added')).toEqual(evaluateSeries(points, policy, closures));
        const own = found.find(({ id }) => id === 'added');
        expect(own).toMatchObject({ z: null, mean: null, sd: null, signals: [], accepted: false });
      }),
      runs,
    );
  });

  it('judges alike when all values are moved and stretched', () => {
    fc.assert(
      fc.property(
        arbitrarySeries,
        arbitraryPolicy,
        fc.integer({ min: -8, max: 8 }),
        ({ points, closures }, policy, power) => {
          // Powers of two and whole offsets of the quarters in the series are exact in binary: not a digit may differ.
          const scale = 2 ** power;
          const moved = points.map((point) => ({ ...point, value: point.value * scale }));
          const z = (found: readonly PointEvaluation[]) =>
            found.map((each) => [each.z, each.signals, each.accepted]);
          expect(z(evaluateSeries(moved, policy, closures))).toEqual(
            z(evaluateSeries(points, policy, closures)),
          );
        },
      ),
      runs,
    );
  });

  it('judges alike on a huge mean with a tiny spread', () => {
    fc.assert(
      fc.property(arbitrarySeries, arbitraryPolicy, ({ points, closures }, policy) => {
        // 2^40 plus quarters is exact in binary.
        const far = points.map((point) => ({ ...point, value: point.value + 2 ** 40 }));
        const rest = (found: readonly PointEvaluation[]) =>
          found.map(({ z, sd, signals, accepted }) => ({
            z: digits(z, 9),
            sd: digits(sd, 9),
            signals,
            accepted,
          }));
        expect(rest(evaluateSeries(far, policy, closures))).toEqual(
          rest(evaluateSeries(points, policy, closures)),
        );
      }),
      runs,
    );
  });

  it('mirrors when all values change sign', () => {
    fc.assert(
      fc.property(arbitrarySeries, arbitraryPolicy, ({ points, closures }, policy) => {
        const mirrored = evaluateSeries(
          points.map((point) => ({ ...point, value: -point.value })),
          policy,
          closures,
        );
        for (const [index, found] of evaluateSeries(points, policy, closures).entries()) {
          const other = mirrored[index];
          expect(other?.signals.map(({ rule }) => rule)).toEqual(found.signals.map(({ rule }) => rule));
          expect([other?.cusumHigh, other?.cusumLow]).toEqual([found.cusumLow, found.cusumHigh]);
        }
      }),
      runs,
    );
  });

  it('refuses every impossible number by name', () => {
    const bad = fc.constantFrom(Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY);
    fc.assert(
      fc.property(
        arbitrarySeries,
        fc.nat(59),
        bad,
        fc.constantFrom('value', 'at', 'epoch'),
        ({ points }, place, value, name) => {
          fc.pre(place < points.length);
          const spoilt = points.map((point, index) =>
            index === place ? { ...point, [name]: value } : point,
          );
          expect(() => evaluateSeries(spoilt, defaultControlPolicy)).toThrow(RangeError);
          expect(() => evaluateSeries(spoilt, defaultControlPolicy)).toThrow(new RegExp(`${name} of point`));
        },
      ),
      runs,
    );
  });
});

describe('rolling limits', () => {
  it('have the mean and SD of the last accepted runs, to the last digits, however long the series', () => {
    const policy: ControlPolicy = { ...defaultControlPolicy, limits: 'rolling', severity: allOff };
    const values = fc.array(
      fc.integer({ min: -1e9, max: 1e9 }).map((thousandths) => thousandths / 1000),
      {
        minLength: 150,
        maxLength: 200,
      },
    );
    fc.assert(
      fc.property(values, (all) => {
        const points = all.map((value, index) => ({ id: `${index}`, at: index, value, epoch: 0 }));
        for (const [index, found] of evaluateSeries(points, policy).entries()) {
          if (found.mean === null) continue;
          const window = all.slice(Math.max(0, index - 20), index);
          const sd = sampleSd(window) ?? Number.NaN;
          expect(Math.abs(found.mean - (mean(window) ?? Number.NaN))).toBeLessThan(1e-9 * sd);
          expect(Math.abs((found.sd ?? 0) / sd - 1)).toBeLessThan(1e-12);
        }
      }),
      { numRuns: 50 },
    );
  });
});

const allOff = {
  '1-2s': 'off',
  '1-3s': 'off',
  '2-2s': 'off',
  'R-4s': 'off',
  '4-1s': 'off',
  '10x': 'off',
  '7T': 'off',
  EWMA: 'off',
  CUSUM: 'off',
} as const;

function digits(value: number | null, places: number): string | null {
  return value === null ? null : value.toFixed(places).replace(/^-(0\.0*)$/, '$1');
}

/** Ten places: the reference adds up in another order. */
function roundedOff(evaluation: PointEvaluation) {
  const { mean: middle, sd, z, ewma, cusumHigh, cusumLow } = evaluation;
  const places = 9;
  return {
    ...evaluation,
    mean: digits(middle, places),
    sd: digits(sd, places),
    z: digits(z, places),
    ewma: digits(ewma, places),
    cusumHigh: digits(cusumHigh, places),
    cusumLow: digits(cusumLow, places),
  };
}
