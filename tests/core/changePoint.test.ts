import { describe, expect, it } from 'vitest';
import { changePoint } from '../../src/core/index.ts';
import { nistCusum } from '../reference/controlCharts.ts';

/** ln likelihood of the z for a step at `start` to the mean of the rest, by the density itself. */
function logLikelihood(z: readonly number[], start: number): number {
  const rest = z.slice(start);
  const shift = rest.length === 0 ? 0 : rest.reduce((sum, value) => sum + value, 0) / rest.length;
  return z.reduce((sum, value, index) => sum - (value - (index < start ? 0 : shift)) ** 2 / 2, 0);
}

describe('changePoint', () => {
  it('finds the step in the NIST CUSUM example where its values jump', () => {
    // 6.3.2.3: the 13th of the 20 values is the first of those about 327.6; those before lie about 324.8.
    const z = nistCusum.values.map((value) => value - nistCusum.target);
    const found = changePoint(Object.freeze(z));
    expect(found?.firstChangedIndex).toBe(12);
    // The mean of the last eight, by hand.
    expect(found?.shiftSd).toBeCloseTo(2.696875, 9);
  });

  it('is where the likelihood, computed from the normal density, is greatest', () => {
    const z = [0.3, -1.1, 0.8, -0.2, 1.4, 2.2, 0.9, 1.9, 2.4, 1.2];
    const all = z.map((_, start) => logLikelihood(z, start));
    const found = changePoint(z);
    expect(found?.firstChangedIndex).toBe(all.indexOf(Math.max(...all)));
    expect(found?.logLikelihoodGain).toBeCloseTo(Math.max(...all) - logLikelihood(z, z.length), 12);
    const plausible = all.flatMap((each, start) => (Math.max(...all) - each <= 2 ? [start] : []));
    expect(found?.earliestPlausibleIndex).toBe(plausible[0]);
    expect(found?.latestPlausibleIndex).toBe(plausible.at(-1));
  });

  it('is sharp for a large step and wide for a small one', () => {
    const before = [0.5, -0.5, 0.5, -0.5, 0.5, -0.5, 0.5, -0.5];
    const large = changePoint([...before, 5, 6, 5]);
    expect([large?.earliestPlausibleIndex, large?.firstChangedIndex, large?.latestPlausibleIndex]).toEqual([
      8, 8, 8,
    ]);
    const small = changePoint([...before, 1.2, 1.4, 1.1, 1.3]);
    expect(small?.earliestPlausibleIndex).toBeLessThan(8);
    expect(small?.latestPlausibleIndex).toBeGreaterThan(8);
  });

  it('finds a step down as it finds one up', () => {
    const z = [0.2, -0.4, 0.1, 2.9, 3.2];
    const down = changePoint(z.map((value) => -value));
    expect(down?.firstChangedIndex).toBe(changePoint(z)?.firstChangedIndex);
    expect(down?.shiftSd).toBeCloseTo(-3.05, 12);
  });

  it('claims no step where none explains the runs better', () => {
    expect(changePoint([])).toBeNull();
    expect(changePoint([0])).toBeNull();
    expect(changePoint([1.9])).toBeNull();
    expect(changePoint([0, 0, 0, 0])).toBeNull();
    expect(changePoint([0.5, -0.5, 0.5, -0.5, 0.5])).toBeNull();
  });

  it('of one run far out, or of runs all far out, is the first of them', () => {
    expect(changePoint([4])).toMatchObject({ firstChangedIndex: 0, shiftSd: 4 });
    expect(changePoint([3, 3, 3])).toMatchObject({ firstChangedIndex: 0, shiftSd: 3 });
  });

  it.each([Number.NaN, Number.POSITIVE_INFINITY])('refuses %d', (bad) => {
    expect(() => changePoint([0, bad])).toThrow(RangeError);
    expect(() => changePoint([0, bad])).toThrow(/z\[1\] is .* SD/);
  });
});
