import { describe, expect, it } from 'vitest';
import { withoutBinaryNoise } from '../../src/journal/binaryNoise.ts';

describe('withoutBinaryNoise', () => {
  it('gives the decimal result of decimal numbers', () => {
    // By hand: 0.07 · 100 = 7; 0.0625 · 1000 = 62.5; 0.1 + 0.2 = 0.3.
    expect(withoutBinaryNoise(0.07 * 100)).toBe(7);
    expect(withoutBinaryNoise(0.0625 * 1000)).toBe(62.5);
    expect(withoutBinaryNoise(0.1 + 0.2)).toBe(0.3);
  });

  it('keeps twelve digits and the sign', () => {
    expect(withoutBinaryNoise(-123456.789012)).toBe(-123456.789012);
  });

  it('leaves what is not finite to whoever judges it', () => {
    expect(withoutBinaryNoise(Number.POSITIVE_INFINITY)).toBe(Number.POSITIVE_INFINITY);
    expect(withoutBinaryNoise(Number.NaN)).toBeNaN();
  });
});
