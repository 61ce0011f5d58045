import { describe, expect, it } from 'vitest';
import { normalQuantile, tQuantile } from '../../src/core/index.ts';
import { normalUpperQuantiles, tUpperQuantiles } from '../reference/quantiles.ts';

describe('normalQuantile', () => {
  it.each(normalUpperQuantiles)(
    'agrees with 40-digit arithmetic to 1e-14 at an upper tail of %d',
    (tail, z) => {
      expect(Math.abs(-normalQuantile(tail) / z - 1)).toBeLessThan(1e-14);
    },
  );

  it('gives the 1.959964 and 2.575829 of every printed table', () => {
    // Abramowitz & Stegun, table 26.5; six printed decimals.
    expect(normalQuantile(0.975)).toBeCloseTo(1.959964, 6);
    expect(normalQuantile(0.995)).toBeCloseTo(2.575829, 6);
    expect(normalQuantile(0.5)).toBe(0);
  });

  it.each([0, 1, -0.1, 1.1, Number.NaN, Number.POSITIVE_INFINITY])('refuses p = %d', (p) => {
    expect(() => normalQuantile(p)).toThrow(RangeError);
    expect(() => normalQuantile(p)).toThrow(/p is /);
  });
});

describe('tQuantile', () => {
  it.each(tUpperQuantiles)(
    'agrees with 40-digit arithmetic to 1e-11 at an upper tail of %d and %d degrees',
    (tail, degrees, t) => {
      expect(Math.abs(-tQuantile(tail, degrees) / t - 1)).toBeLessThan(1e-11);
    },
  );

  it('gives the closed forms of 1 and 2 degrees of freedom', () => {
    // Cauchy: tan(π(p − ½)); two degrees: (2p − 1)/√(2p(1 − p)). Both by integrating the density.
    for (const p of [0.01, 0.3, 0.45]) {
      expect(tQuantile(p, 1) / Math.tan(Math.PI * (p - 0.5))).toBeCloseTo(1, 12);
      expect(tQuantile(p, 2) / ((2 * p - 1) / Math.sqrt(2 * p * (1 - p)))).toBeCloseTo(1, 12);
    }
  });

  it('gives what R gives', () => {
    // R 4.2.2: qt(0.975, 9) = 2.262157162798, qt(0.00135, 9) * sqrt(1.1) = -4.294038220961.
    expect(tQuantile(0.975, 9)).toBeCloseTo(2.262157162798, 11);
    expect(tQuantile(0.00135, 9) * Math.sqrt(1.1)).toBeCloseTo(-4.294038220961, 11);
  });

  it('is odd about one half and 0 there', () => {
    expect(tQuantile(0.5, 4)).toBe(0);
    expect(tQuantile(0.75, 4)).toBe(-tQuantile(0.25, 4));
  });

  it('tends to the normal quantile', () => {
    expect(tQuantile(0.01, 1e9)).toBeCloseTo(normalQuantile(0.01), 8);
  });

  it.each([
    [0, 9, /p is 0/],
    [1, 9, /p is 1/],
    [Number.NaN, 9, /p is NaN/],
    [0.1, 0, /degreesOfFreedom is 0/],
    [0.1, Number.NaN, /degreesOfFreedom is NaN/],
    [0.1, Number.POSITIVE_INFINITY, /degreesOfFreedom is Infinity/],
  ])('refuses p = %d at %d degrees', (p, degrees, message) => {
    expect(() => tQuantile(p, degrees)).toThrow(RangeError);
    expect(() => tQuantile(p, degrees)).toThrow(message);
  });
});
