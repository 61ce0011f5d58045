import { describe, expect, it } from 'vitest';
import { chiSquareQuantile, normalTail } from '../../src/core/index.ts';
import { chiSquareQuantiles, normalTails } from '../reference/probabilities.ts';

describe('normalTail', () => {
  it.each(normalTails)('agrees with 40-digit arithmetic to 1e-13 at z = %d', (z, tail) => {
    expect(Math.abs(normalTail(z) / tail - 1)).toBeLessThan(1e-13);
    // Absolute below the mean: the other side is 1 less a number.
    expect(normalTail(-z)).toBeCloseTo(1 - tail, 15);
  });

  it('is 0 and 1 at the ends, and refuses what is not a number', () => {
    expect([normalTail(Number.POSITIVE_INFINITY), normalTail(Number.NEGATIVE_INFINITY)]).toEqual([0, 1]);
    expect(() => normalTail(Number.NaN)).toThrow(/z is NaN/);
  });
});

describe('chiSquareQuantile', () => {
  it.each(chiSquareQuantiles)(
    'agrees with 40-digit arithmetic to 1e-11 at p = %d and %d degrees',
    (p, degrees, x) => {
      // p next to 1 is known to 1e-16 only, 1e-10 of a tail of 1e-6.
      const tolerance = p > 0.99 ? 1e-10 : 1e-11;
      expect(Math.abs(chiSquareQuantile(p, degrees) / x - 1)).toBeLessThan(tolerance);
    },
  );

  it.each([
    [0, 9, /p is 0/],
    [1, 9, /p is 1/],
    [Number.NaN, 9, /p is NaN/],
    [0.5, 0, /degreesOfFreedom is 0/],
    [0.5, Number.NaN, /degreesOfFreedom is NaN/],
    [0.5, Number.POSITIVE_INFINITY, /degreesOfFreedom is Infinity/],
  ])('refuses p = %d at %d degrees', (p, degrees, message) => {
    expect(() => chiSquareQuantile(p, degrees)).toThrow(RangeError);
    expect(() => chiSquareQuantile(p, degrees)).toThrow(message);
  });
});
