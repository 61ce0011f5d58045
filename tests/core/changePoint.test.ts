import { linearRegression } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { changePoint, driftStart } from '../../src/core/index.ts';
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

/** ln likelihood of the z for a line from 0 that begins at `start`, by the density itself and the least-squares slope. */
function logLikelihoodOfDrift(z: readonly number[], start: number): number {
  const place = (index: number) => Math.max(0, index - start + 1);
  const slope = linearRegressionSlope(z.map((value, index) => [place(index), value]));
  return z.reduce((sum, value, index) => sum - (value - slope * place(index)) ** 2 / 2, 0);
}

/** Of a line through the origin, which simple-statistics has none of: each point and its mirror image fit one there. */
function linearRegressionSlope(points: readonly (readonly [number, number])[]): number {
  return linearRegression(
    points.flatMap(([x, y]) => [
      [x, y],
      [-x, -y],
    ]),
  ).m;
}

describe('driftStart', () => {
  it('finds a drift without scatter exactly, up and down', () => {
    // By hand: (1 + 4 + 9)² / (2 · (1 + 4 + 9)) = 7.
    expect(driftStart([0, 0, 0, 1, 2, 3])).toEqual({
      firstChangedIndex: 3,
      slopeSd: 1,
      logLikelihoodGain: 7,
    });
    expect(driftStart([0, 0, 0, -1, -2, -3])).toMatchObject({ firstChangedIndex: 3, slopeSd: -1 });
  });

  it('is where the likelihood, computed from the normal density and a least-squares line, is greatest', () => {
    const z = Object.freeze([0.3, -1.1, 0.8, -0.2, 0.1, 1.2, 0.9, 1.9, 2.4, 2.2]);
    const all = z.map((_, start) => logLikelihoodOfDrift(z, start));
    const found = driftStart(z);
    expect(found?.firstChangedIndex).toBe(all.indexOf(Math.max(...all)));
    const none = z.reduce((sum, value) => sum - value ** 2 / 2, 0);
    expect(found?.logLikelihoodGain).toBeCloseTo(Math.max(...all) - none, 12);
  });

  it('dates a drift earlier than a step through the same runs, and a sudden change alike', () => {
    const slow = [0.2, -0.3, 0.1, 0.4, 0.9, 1.3, 1.5, 2.1, 2.4];
    expect(driftStart(slow)?.firstChangedIndex).toBeLessThan(changePoint(slow)?.firstChangedIndex ?? 0);
    const sudden = [0.2, -0.3, 0.1, 8];
    expect(driftStart(sudden)?.firstChangedIndex).toBe(3);
    expect(changePoint(sudden)?.firstChangedIndex).toBe(3);
  });

  it('claims no drift where none explains the runs better', () => {
    for (const z of [[], [0], [1.9], [0, 0, 0, 0], [0.5, -0.5, 0.5, -0.5, 0.5]])
      expect(driftStart(z)).toBeNull();
  });

  it('refuses what is no number', () => {
    expect(() => driftStart([0, Number.NaN])).toThrow(RangeError);
    expect(() => driftStart([Number.POSITIVE_INFINITY])).toThrow('z[0] is Infinity SD');
  });
});
