import fc from 'fast-check';
import { linearRegression } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { linearityCheck, publishedCheckLimits } from '../../src/core/index.ts';
import { carsLine, norris } from '../reference/regressions.ts';

const limitFraction = publishedCheckLimits.linearity.fraction;
const check = (...points: readonly (readonly [expected: number, read: number])[]) =>
  linearityCheck({
    points: Object.freeze(points.map(([expected, read]) => Object.freeze({ expected, read }))),
    fullScale: 0.3,
    limitFraction,
  });
const lineOf = (points: readonly (readonly [number, number])[]) =>
  linearityCheck({
    points: points.map(([expected, read]) => ({ expected, read })),
    fullScale: 1000,
    limitFraction,
  }).line;

describe('publishedCheckLimits of linearity', () => {
  it('is 0.5 % of full scale', () => {
    // ERS/ATS standard 2017, recalled.
    expect(limitFraction).toBe(0.005);
  });
});

describe('linearityCheck: the line', () => {
  it('has the certified digits of the NIST reference dataset Norris', () => {
    const line = lineOf(norris.points);
    expect(Math.abs((line?.slope ?? 0) / norris.slope - 1)).toBeLessThan(1e-13);
    expect(Math.abs((line?.intercept ?? 0) / norris.intercept - 1)).toBeLessThan(1e-11);
    expect(Math.abs((line?.residualSd ?? 0) / norris.residualSd - 1)).toBeLessThan(1e-11);
  });

  it('is what R gives of its dataset cars', () => {
    const line = lineOf(carsLine.points);
    expect(line?.intercept).toBeCloseTo(carsLine.intercept, 10);
    expect(line?.slope).toBeCloseTo(carsLine.slope, 10);
    expect(line?.residualSd).toBeCloseTo(carsLine.residualSd, 9);
  });

  it('is what simple-statistics gives, moves with what is read, and its residuals sum to 0', () => {
    const value = fc.integer({ min: 0, max: 3000 }).map((n) => n / 8);
    const points = fc.uniqueArray(fc.tuple(value, value), {
      minLength: 3,
      maxLength: 12,
      selector: ([x]) => x,
    });
    fc.assert(
      fc.property(points, fc.integer({ min: -80, max: 80 }), (drawn, shift) => {
        const line = lineOf(drawn);
        const { m, b } = linearRegression(drawn.map(([x, y]) => [x, y]));
        expect(line?.slope).toBeCloseTo(m, 8);
        expect(line?.intercept).toBeCloseTo(b, 6);
        const moved = lineOf(drawn.map(([x, y]) => [x, y + shift] as const));
        expect(moved?.slope).toBeCloseTo(line?.slope ?? Number.NaN, 8);
        expect(moved?.intercept).toBeCloseTo((line?.intercept ?? Number.NaN) + shift, 6);
        const residuals = drawn.map(([x, y]) => y - (line?.intercept ?? 0) - (line?.slope ?? 0) * x);
        expect(residuals.reduce((sum, one) => sum + one, 0)).toBeCloseTo(0, 6);
      }),
      { numRuns: 200 },
    );
  });
});

describe('linearityCheck: the verdict', () => {
  it('is by what is expected, in fractions of full scale, both ends in', () => {
    // By hand: 0.5 % of 0.3 is 0.0015.
    const good = check([0, 0.0015], [0.15, 0.1485], [0.3, 0.3]);
    expect(good).toMatchObject({
      within: true,
      points: [{ within: true }, { within: true }, { within: true }],
    });
    expect(Math.abs(good.worstFraction)).toBeCloseTo(0.005, 12);
    const bad = check([0, 0.001], [0.15, 0.152], [0.3, 0.3]);
    expect(bad).toMatchObject({
      within: false,
      points: [{ within: true }, { within: false }, { within: true }],
    });
    expect(bad.worstFraction).toBeCloseTo(0.00667, 5);
    expect(bad.points[1]?.deviation).toBeCloseTo(0.002, 12);
  });

  it('tells an analyzer that is straight but off in gain from one that is bent', () => {
    // 2 % too much everywhere: by hand 0.006 of 0.3 at the top, and nothing from the line.
    const gain = check([0, 0], [0.1, 0.102], [0.2, 0.204], [0.3, 0.306]);
    expect(gain).toMatchObject({ within: false, isStraight: true });
    expect(gain.worstFraction).toBeCloseTo(0.02, 12);
    expect(gain.worstFromLineFraction).toBeCloseTo(0, 12);
    expect(gain.line).toMatchObject({ slope: expect.closeTo(1.02, 12), intercept: expect.closeTo(0, 12) });
    expect(check([0, 0], [0.1, 0.105], [0.2, 0.205], [0.3, 0.3])).toMatchObject({
      within: false,
      isStraight: false,
    });
  });

  it('has no line where nothing is expected apart, and no word on straightness from two points', () => {
    expect(check([0.1, 0.1], [0.1, 0.101])).toMatchObject({
      line: null,
      worstFromLineFraction: null,
      isStraight: null,
    });
    expect(check([0, 0], [0.3, 0.31])).toMatchObject({ line: { residualSd: null }, isStraight: null });
  });

  it.each([
    ['one point', () => check([0, 0]), /1 points, not 2 or more/],
    ['a content below 0', () => check([-0.1, 0], [0.3, 0.3]), /points\[0\].expected is -0.1/],
    ['a reading that is none', () => check([0, 0], [0.3, Number.NaN]), /points\[1\].read is NaN/],
    [
      'no full scale',
      () =>
        linearityCheck({
          points: [
            { expected: 0, read: 0 },
            { expected: 1, read: 1 },
          ],
          fullScale: 0,
          limitFraction,
        }),
      /fullScale is 0/,
    ],
  ])('refuses %s', (_, call, message) => {
    expect(call).toThrow(RangeError);
    expect(call).toThrow(message);
  });
});
