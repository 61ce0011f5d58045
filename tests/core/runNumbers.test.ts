import { describe, expect, it } from 'vitest';
import { type RunInputs, type RunReading, reduceRun, volumeFactor } from '../../src/core/index.ts';
import { goodRun } from './runFixtures.ts';

const withReading = (change: Partial<RunReading>): RunInputs => ({
  ...goodRun,
  reading: { ...goodRun.reading, ...change },
});

describe('reduceRun', () => {
  it('shows every step from 3.45 L BTPS to 2.970 L and its distance from the target', () => {
    const numbers = reduceRun(goodRun);
    expect(numbers.factor).toBeCloseTo(0.8928, 4);
    expect(numbers.ambientVaL).toBeCloseTo(3.08, 3);
    expect(numbers.totalVolumeL).toBeCloseTo(3.08, 3);
    expect(numbers.deadSpaceTakenOffL).toBe(0.11);
    expect(numbers.simulatedVaL).toBeCloseTo(2.97, 3);
    expect(numbers.targetVaL).toBe(3);
    expect(Math.round(numbers.vaOffTargetMl)).toBe(-30);
  });

  it('shows what the fixed 0.91 would have given, and under a fixed factor what the computed dry one would', () => {
    expect(reduceRun(goodRun).otherConversion).toMatchObject({
      conversion: { kind: 'fixed', factor: 0.91 },
      factor: 0.91,
    });
    expect(reduceRun(goodRun).otherConversion?.simulatedVaL).toBeCloseTo(3.0295, 10);
    const fixed = reduceRun({ ...goodRun, conversion: { kind: 'fixed', factor: 0.9 } });
    expect(fixed.simulatedVaL).toBeCloseTo(3.45 * 0.9 - 0.11, 12);
    expect(fixed.otherConversion).toMatchObject({ conversion: { kind: 'computed', assumed: 'ATPD' } });
    expect(fixed.otherConversion?.simulatedVaL).toBeCloseTo(2.97, 3);
  });

  it('has no other conversion and no disagreement for a VA that was not reported in BTPS', () => {
    const numbers = reduceRun(withReading({ vaL: 3.08, vaReportedAs: 'ATPD' }));
    expect(numbers.otherConversion).toBeNull();
    expect(numbers.coTracerDisagreement).toBeNull();
    expect(numbers.simulatedVaL).toBeCloseTo(2.97, 12);
  });

  it('aims at 3 L also when 2 L are drawn into a syringe that holds 1 L', () => {
    const numbers = reduceRun({ ...goodRun, syringe: { strokeL: 2, volumeInsideL: 1, deadSpaceL: 0.11 } });
    expect(numbers.targetVaL).toBe(3);
    expect(numbers.inspiredVolumeL).toBe(2);
  });

  it('converts a recorded inspired volume by the factor of VA, and keeps the target nominal', () => {
    const numbers = reduceRun({ ...withReading({ inspiredVolumeL: 3.3 }), analyzerDeadSpaceL: 0.1 });
    const inspired = 3.3 * volumeFactor('BTPS', 'ATPD', goodRun.ambient);
    expect(numbers.inspiredVolumeL).toBeCloseTo(inspired, 12);
    expect(numbers.totalVolumeL).toBeCloseTo((numbers.ambientVaL * inspired) / (inspired - 0.1), 12);
    expect(numbers.targetVaL).toBe(3);
  });

  it('puts the DLCO series in mL/min/mmHg and judges the limit in the unit reported', () => {
    const numbers = reduceRun(withReading({ dlco: 0.166, dlcoUnit: 'mmol/min/kPa' }));
    expect(numbers.dlcoMlMinMmHg).toBeCloseTo(0.496, 3);
    expect(numbers.dlcoWithinPublished).toBe(false);
    expect(reduceRun(withReading({ dlco: 0.496 })).dlcoWithinPublished).toBe(true);
  });

  it('takes a breath-hold of 10 s when none was recorded, and says so', () => {
    // 2.16 % for 0.5 mL/min/mmHg at 3.3 L and 10 s, derived by hand in singleBreath.test.ts.
    const assumed = reduceRun(withReading({ vaL: 3.3, dlco: 0.5 }));
    expect(assumed.coTracerDisagreement).toBeCloseTo(0.0216, 4);
    expect([assumed.breathHoldS, assumed.breathHoldAssumed]).toEqual([10, true]);
    const recorded = reduceRun(withReading({ vaL: 3.3, dlco: 0.5, breathHoldS: 10.4 }));
    expect([recorded.breathHoldS, recorded.breathHoldAssumed]).toEqual([10.4, false]);
    expect(recorded.coTracerDisagreement).toBeGreaterThan(assumed.coTracerDisagreement ?? Number.NaN);
  });

  it('expects of the volume check the whole stroke in BTPS', () => {
    const none = reduceRun(goodRun);
    expect(none.expectedVolumeCheckL).toBeCloseTo(3 * 1.1201, 3);
    expect(none.volumeCheckFraction).toBeNull();
    expect(
      reduceRun(withReading({ volumeCheckL: none.expectedVolumeCheckL * 0.96 })).volumeCheckFraction,
    ).toBeCloseTo(-0.04, 12);
    const withAirInside = { ...goodRun, syringe: { strokeL: 2, volumeInsideL: 1, deadSpaceL: 0.11 } };
    expect(reduceRun(withAirInside).expectedVolumeCheckL).toBe(none.expectedVolumeCheckL);
  });

  const impossible: readonly (readonly [string, RunInputs, RegExp])[] = [
    ['a VA that is not a number', withReading({ vaL: Number.NaN }), /reportedVaL is NaN L/],
    ['a DLCO that is not a number', withReading({ dlco: Number.NaN }), /NaN mL\/min\/mmHg/],
    ['a volume check of 0', withReading({ volumeCheckL: 0 }), /volumeCheckL is 0 L/],
    [
      'an infinite breath-hold',
      withReading({ breathHoldS: Number.POSITIVE_INFINITY }),
      /breathHoldS is Infinity s/,
    ],
    [
      'an inspired volume no greater than what is subtracted',
      { ...withReading({ inspiredVolumeL: 0.1 }), analyzerDeadSpaceL: 0.15 },
      /inspiredVolumeL is .* not greater than analyzerDeadSpaceL/,
    ],
  ];
  it.each(impossible)('refuses %s', (_what, run, message) => {
    expect(() => reduceRun(run)).toThrow(RangeError);
    expect(() => reduceRun(run)).toThrow(message);
  });
});
