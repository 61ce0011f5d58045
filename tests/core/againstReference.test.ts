import { describe, expect, it } from 'vitest';
import { barometerCheck, publishedCheckLimits, syringeVolumeCheck } from '../../src/core/index.ts';

describe('syringeVolumeCheck', () => {
  const { fraction } = publishedCheckLimits.syringe;
  const check = (measuredL: number, nominalL = 3) =>
    syringeVolumeCheck({ nominalL, measuredL, limitFraction: fraction });

  it('allows 0.5 %, which is 15 mL of 3 L, both ends in', () => {
    // ATS laboratory manual, 3rd edition, as the project's domain notes have it.
    expect(fraction).toBe(0.005);
    expect([check(3.015).within, check(2.985).within]).toEqual([true, true]);
    expect([check(3.016).within, check(2.984).within]).toEqual([false, false]);
  });

  it('says how far it lies off, in litres and as a fraction', () => {
    // By hand: 16/3000.
    expect(check(3.016).deviation).toBeCloseTo(0.016, 12);
    expect(check(3.016).deviationFraction).toBeCloseTo(0.00533, 5);
    expect(check(3)).toEqual({ deviation: 0, deviationFraction: 0, within: true });
  });

  it.each([0, -3, Number.NaN, Number.POSITIVE_INFINITY])('refuses %d L', (bad) => {
    expect(() => check(bad)).toThrow(/syringeVolumeCheck: measuredL is/);
    expect(() => check(3, bad)).toThrow(/syringeVolumeCheck: nominalL is/);
  });
});

describe('barometerCheck', () => {
  const { fraction } = publishedCheckLimits.barometer;
  const check = (read: number, reference = 760) =>
    barometerCheck({ reference, read, limitFraction: fraction });

  it('allows 2.5 % of the reference, both ends in', () => {
    // ERS/ATS 2017, as the project's domain notes have it; by hand 19 mmHg of 760.
    expect(fraction).toBe(0.025);
    expect([check(779).within, check(741).within]).toEqual([true, true]);
    expect([check(779.1).within, check(740.9).within]).toEqual([false, false]);
  });

  it('says how far it lies off, in whatever unit both were read', () => {
    expect(check(745).deviationFraction).toBeCloseTo(-0.0197, 4);
    expect(check(100, 101.325).deviation).toBeCloseTo(-1.325, 12);
  });

  it('refuses what is no pressure', () => {
    expect(() => check(0)).toThrow('barometerCheck: read is 0');
    expect(() => check(760, Number.NaN)).toThrow(/reference is NaN/);
  });
});
