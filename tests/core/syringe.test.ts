import { describe, expect, it } from 'vitest';
import {
  type Ambient,
  ambientFactor,
  type Conversion,
  customaryFixedFactor,
  expectedVolumeCheckL,
  type SimulatedVaInput,
  simulatedVa,
} from '../../src/core/index.ts';

const room: Ambient = Object.freeze({ temperatureC: 22, barometricMmHg: 760 });
const computedDry: Conversion = Object.freeze({ kind: 'computed', assumed: 'ATPD' });
const fixed091: Conversion = Object.freeze({ kind: 'fixed', factor: 0.91 });
const usual: SimulatedVaInput = Object.freeze({
  reportedVaL: 3.45,
  reportedAs: 'BTPS',
  ambient: room,
  conversion: computedDry,
  syringeDeadSpaceL: 0.11,
  analyzerDeadSpaceL: 0,
  inspiredVolumeL: 3,
});

describe('simulatedVa', () => {
  it('finds 2.970 L by the computed dry factor and 3.030 L by the fixed 0.91 in the same reading', () => {
    // By hand: 3.45 · 713/760 · 295.15/310.15 − 0.110 = 2.970; 3.45 · 0.91 − 0.110 = 3.0295.
    expect(simulatedVa(usual).simulatedVaL).toBeCloseTo(2.97, 3);
    expect(simulatedVa({ ...usual, conversion: fixed091 }).simulatedVaL).toBeCloseTo(3.0295, 10);
  });

  it('shows the factor and the ambient VA on the way', () => {
    expect(simulatedVa(usual).factor).toBeCloseTo(0.8928, 4);
    expect(simulatedVa(usual).ambientVaL).toBeCloseTo(3.08, 3);
  });

  it('finds the fixed 0.91 about 100 mL high at 630 mmHg', () => {
    const ambient = { temperatureC: 22, barometricMmHg: 630 };
    const computed = simulatedVa({ ...usual, ambient }).simulatedVaL;
    const byConstant = simulatedVa({ ...usual, ambient, conversion: fixed091 }).simulatedVaL;
    // 3.45 · (0.91 − 1/1.1356) = 0.1014 L, by hand.
    expect(byConstant - computed).toBeCloseTo(0.1014, 3);
  });

  it.each([
    [22, 760, 58],
    [18, 600, 155],
  ])(
    'finds the fixed 0.91 on a dry 3.000 L at %d °C and %d mmHg to read %d mL high',
    (temperatureC, barometricMmHg, high) => {
      const ambient = { temperatureC, barometricMmHg };
      const reportedVaL = 3 / ambientFactor('BTPS', ambient, computedDry);
      const input = { ...usual, ambient, reportedVaL, conversion: fixed091, syringeDeadSpaceL: 0 };
      // To the millilitre, as derived by hand from the factors.
      expect(Math.round((simulatedVa(input).simulatedVaL - 3) * 1000)).toBe(high);
    },
  );

  it('recovers the syringe exactly from what an ideal analyzer computes', () => {
    // Mass balance by hand: FA/FI = VI/(VI + V0 + VDs); VA = (VI − VDa) · FI/FA, all dry at room temperature.
    for (const [strokeL, insideL, syringeL, analyzerL] of [
      [3, 0, 0.11, 0],
      [3, 0, 0.1, 0.1],
      [2, 1, 0.08, 0.15],
    ] as const) {
      const reportedVaL = ((strokeL - analyzerL) * (strokeL + insideL + syringeL)) / strokeL;
      const found = simulatedVa({
        ...usual,
        reportedAs: 'ATPD',
        reportedVaL,
        syringeDeadSpaceL: syringeL,
        analyzerDeadSpaceL: analyzerL,
        inspiredVolumeL: strokeL,
      });
      expect(found.simulatedVaL).toBeCloseTo(3, 12);
    }
  });

  it('is 3 mL off the shortcut "nothing to subtract" when the analyzer takes off the syringe\'s own 100 mL', () => {
    const reportedVaL = ((3 - 0.1) * 3.1) / 3;
    // VDs²/VI = 0.01/3 L.
    expect((3 - reportedVaL) * 1000).toBeCloseTo(3.33, 2);
  });

  it('takes a VA that was not reported in BTPS to ambient dry, whatever the conversion says', () => {
    const dry = simulatedVa({ ...usual, reportedAs: 'ATPD', conversion: fixed091 });
    expect(dry.factor).toBe(1);
    expect(dry.simulatedVaL).toBeCloseTo(3.34, 12);
    // 760 mmHg and 0 °C dry to 22 °C dry: 295.15/273.15 by hand.
    expect(simulatedVa({ ...usual, reportedAs: 'STPD' }).factor).toBeCloseTo(295.15 / 273.15, 12);
  });

  it('undoes a saturated assumption with the saturated factor', () => {
    const saturated = simulatedVa({ ...usual, conversion: { kind: 'computed', assumed: 'ATPS' } });
    // Printed table, 22 °C: 1.091, within its hand rounding of 0.001.
    expect(1 / saturated.factor).toBeCloseTo(1.091, 2);
  });

  const impossible: readonly (readonly [string, Partial<SimulatedVaInput>, RegExp])[] = [
    ['no VA', { reportedVaL: 0 }, /reportedVaL is 0 L/],
    ['a VA that is not a number', { reportedVaL: Number.NaN }, /reportedVaL is NaN L/],
    ['an infinite VA', { reportedVaL: Number.POSITIVE_INFINITY }, /reportedVaL is Infinity L/],
    ['a negative syringe dead space', { syringeDeadSpaceL: -0.1 }, /syringeDeadSpaceL is -0.1 L/],
    [
      'an analyzer dead space that is not a number',
      { analyzerDeadSpaceL: Number.NaN },
      /analyzerDeadSpaceL is NaN L/,
    ],
    [
      'an infinite inspired volume',
      { inspiredVolumeL: Number.POSITIVE_INFINITY },
      /inspiredVolumeL is Infinity L/,
    ],
    [
      'an inspired volume no greater than what is subtracted',
      { inspiredVolumeL: 0.15, analyzerDeadSpaceL: 0.15 },
      /inspiredVolumeL is 0.15 L, not greater than analyzerDeadSpaceL/,
    ],
    ['a fixed factor of 0', { conversion: { kind: 'fixed', factor: 0 } }, /conversion.factor is 0/],
    [
      'a fixed factor that is not a number',
      { conversion: { kind: 'fixed', factor: Number.NaN } },
      /conversion.factor is NaN/,
    ],
    [
      'an impossible room under a fixed factor',
      { conversion: { kind: 'fixed', factor: 0.91 }, ambient: { temperatureC: 22, barometricMmHg: -760 } },
      /barometricMmHg is -760 mmHg/,
    ],
  ];
  it.each(impossible)('refuses %s', (_what, change, message) => {
    expect(() => simulatedVa({ ...usual, ...change })).toThrow(RangeError);
    expect(() => simulatedVa({ ...usual, ...change })).toThrow(message);
  });
});

describe('expectedVolumeCheckL', () => {
  it('makes a 3.00 L syringe read about 3.3 L BTPS', () => {
    // Common practice, no source: to the one decimal of the saying.
    for (const conversion of [fixed091, { kind: 'computed', assumed: 'ATPS' } as const]) {
      expect(expectedVolumeCheckL({ strokeL: 3, ambient: room, conversion })).toBeCloseTo(3.3, 1);
    }
    expect(customaryFixedFactor * 1.1).toBeCloseTo(1, 2);
  });

  it('refuses a stroke of 0', () => {
    expect(() => expectedVolumeCheckL({ strokeL: 0, ambient: room, conversion: fixed091 })).toThrow(
      /strokeL is 0 L/,
    );
  });
});
