import { describe, expect, it } from 'vitest';
import {
  isDlcoWithinPublished,
  isVaWithinPublished,
  isWithinTolerance,
  publishedLimits2017 as limits,
  mlMinMmHgPerMmolMinKPa,
} from '../../src/core/index.ts';

describe('isVaWithinPublished', () => {
  it('includes both ends of 3 ± 0.3 L, whichever way binary arithmetic falls', () => {
    expect(isVaWithinPublished(3.3, 3, limits)).toBe(true);
    expect(isVaWithinPublished(2.7, 3, limits)).toBe(true);
    // 3.31 − 3.01 is 0.30000000000000027 in binary.
    expect(isVaWithinPublished(3.31, 3.01, limits)).toBe(true);
  });

  it('excludes a hundredth of a millilitre beyond either end', () => {
    expect(isVaWithinPublished(3.30001, 3, limits)).toBe(false);
    expect(isVaWithinPublished(2.69999, 3, limits)).toBe(false);
  });

  it.each([Number.NaN, Number.POSITIVE_INFINITY])('refuses %d L', (value) => {
    expect(() => isVaWithinPublished(value, 3, limits)).toThrow(/simulatedVaL is .* L/);
    expect(() => isVaWithinPublished(3, value, limits)).toThrow(/targetVaL is .* L/);
  });
});

describe('isDlcoWithinPublished', () => {
  it('excludes the limit itself: below 0.5 mL/min/mmHg, below 0.166 mmol/min/kPa', () => {
    expect(isDlcoWithinPublished(0.5, 'mL/min/mmHg', limits)).toBe(false);
    expect(isDlcoWithinPublished(-0.5, 'mL/min/mmHg', limits)).toBe(false);
    expect(isDlcoWithinPublished(0.49, 'mL/min/mmHg', limits)).toBe(true);
    expect(isDlcoWithinPublished(-0.166, 'mmol/min/kPa', limits)).toBe(false);
    expect(isDlcoWithinPublished(0.165, 'mmol/min/kPa', limits)).toBe(true);
  });

  it('judges a value in the unit it was reported in, never in the other', () => {
    // 0.498 mL/min/mmHg passes its own limit and would breach the converted one, 0.166 · 2.987 = 0.496.
    expect(isDlcoWithinPublished(0.498, 'mL/min/mmHg', limits)).toBe(true);
    expect(isDlcoWithinPublished(0.498 / mlMinMmHgPerMmolMinKPa, 'mmol/min/kPa', limits)).toBe(false);
  });

  it.each([Number.NaN, Number.NEGATIVE_INFINITY])('refuses %d', (value) => {
    expect(() => isDlcoWithinPublished(value, 'mmol/min/kPa', limits)).toThrow(/dlco is .* mmol\/min\/kPa/);
  });
});

describe('isWithinTolerance', () => {
  it('includes 8 and 12 s of 10 ± 2 s and excludes 7.9 and 12.1', () => {
    // From memory of the 2017 ERS/ATS standard.
    const { target, tolerance } = limits.breathHoldS;
    expect([7.9, 8, 12, 12.1].map((held) => isWithinTolerance(held, target, tolerance))).toEqual([
      false,
      true,
      true,
      false,
    ]);
  });
});
