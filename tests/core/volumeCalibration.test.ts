import { describe, expect, it } from 'vitest';
import {
  expectedVolumeCheckL,
  publishedVolumeCalibration,
  volumeCalibrationCheck,
} from '../../src/core/index.ts';

// ±2.5 % at three flows, ±75 mL of 3 L: ATS laboratory manual, 3rd edition; ERS/ATS 2017.
const { limitFraction, flows } = publishedVolumeCalibration;
const check = (...readL: readonly number[]) =>
  volumeCalibrationCheck({ readL: Object.freeze([...readL]), expectedL: 3, limitFraction });

describe('publishedVolumeCalibration', () => {
  it('is 75 mL of a 3 L syringe, at three flows', () => {
    expect(3 * limitFraction).toBeCloseTo(0.075, 12);
    expect(flows).toBe(3);
  });
});

describe('volumeCalibrationCheck', () => {
  it('includes both ends of the limit, and nothing beyond', () => {
    expect(check(3.075, 2.925, 3).within).toBe(true);
    expect(check(3.076, 2.924, 3).readings.map(({ within }) => within)).toEqual([false, false, true]);
    expect(check(3.076, 3, 3).within).toBe(false);
  });

  it('tells how far each reading and the worst of them lie off', () => {
    // By hand: 30/3000, −60/3000, 15/3000.
    const found = check(3.03, 2.94, 3.015);
    for (const [index, fraction] of [0.01, -0.02, 0.005].entries()) {
      expect(found.readings[index]?.deviationFraction).toBeCloseTo(fraction, 12);
    }
    expect(found.worstFraction).toBeCloseTo(-0.02, 12);
    expect(check(3.075, 3, 2.9).worstFraction).toBeCloseTo(-0.0333, 4);
  });

  it('of one reading, or of equal ones, is that reading', () => {
    expect(check(3).worstFraction).toBe(0);
    expect(check(3.03, 3.03).worstFraction).toBe(check(3.03).worstFraction);
  });

  it('without a reading says neither yes nor no', () => {
    expect(check()).toEqual({ readings: [], worstFraction: null, within: null });
  });

  it('is of readings in BTPS against what the stroke should read in BTPS', () => {
    const ambient = { temperatureC: 22, barometricMmHg: 760 };
    const expectedL = expectedVolumeCheckL({
      strokeL: 3,
      ambient,
      conversion: { kind: 'computed', assumed: 'ATPS' },
    });
    // ATPS to BTPS at 22 °C and 760 mmHg is 1.091 in printed tables (recalled), rounded by hand to ±0.001.
    const { worstFraction } = volumeCalibrationCheck({ readL: [3 * 1.091], expectedL, limitFraction });
    expect(Math.abs(worstFraction ?? 1)).toBeLessThan(0.0011);
  });

  it.each([0, -3, Number.NaN, Number.POSITIVE_INFINITY])('refuses %d', (value) => {
    expect(() => check(3, value)).toThrow(RangeError);
    expect(() => check(3, value)).toThrow(/readL\[1\] is .* L/);
    expect(() => volumeCalibrationCheck({ readL: [], expectedL: value, limitFraction })).toThrow(
      /expectedL is/,
    );
    expect(() => volumeCalibrationCheck({ readL: [], expectedL: 3, limitFraction: value })).toThrow(
      /limitFraction is/,
    );
  });
});
