import psychrolib from 'psychrolib';
import { describe, expect, it } from 'vitest';
import {
  type Ambient,
  type GasCondition,
  saturatedVaporPressureMmHg,
  volumeFactor,
} from '../../src/core/index.ts';
import { classicVaporPressure, if97SaturationChecks, printedBtpsFactors } from '../reference/gasTables.ts';

const pascalsPerMmHg = 101325 / 760;
const room: Ambient = Object.freeze({ temperatureC: 22, barometricMmHg: 760 });

describe('saturatedVaporPressureMmHg', () => {
  it.each(classicVaporPressure)(
    'agrees with the classic handbook table to 0.12 %% at %d °C',
    (celsius, mmHg) => {
      expect(Math.abs(saturatedVaporPressureMmHg(celsius) / mmHg - 1)).toBeLessThan(0.0012);
    },
  );

  it.each(if97SaturationChecks)('gives the check value of IAPWS R7-97 at %d K', (kelvin, megapascals) => {
    const mmHg = (megapascals * 1e6) / pascalsPerMmHg;
    // Nine printed digits, and the round trip of the temperature through °C.
    expect(Math.abs(saturatedVaporPressureMmHg(kelvin - 273.15) / mmHg - 1)).toBeLessThan(3e-9);
  });

  it('agrees with the ASHRAE equations of psychrolib to 0.05 % from 5 to 40 °C', () => {
    psychrolib.SetUnitSystem(psychrolib.SI);
    for (let celsius = 5; celsius <= 40; celsius += 0.5) {
      const mmHg = psychrolib.GetSatVapPres(celsius) / pascalsPerMmHg;
      expect(Math.abs(saturatedVaporPressureMmHg(celsius) / mmHg - 1), `${celsius} °C`).toBeLessThan(5e-4);
    }
  });

  it.each([Number.NaN, Number.POSITIVE_INFINITY, -0.1, 374])('refuses %d °C by name and unit', (celsius) => {
    expect(() => saturatedVaporPressureMmHg(celsius)).toThrow(RangeError);
    expect(() => saturatedVaporPressureMmHg(celsius)).toThrow(/temperatureC is .*°C/);
  });
});

describe('volumeFactor', () => {
  it.each(printedBtpsFactors)(
    'gives the printed ATPS to BTPS factor at %d °C within its hand rounding',
    (temperatureC, factor) => {
      expect(
        Math.abs(volumeFactor('ATPS', 'BTPS', { temperatureC, barometricMmHg: 760 }) - factor),
      ).toBeLessThan(0.0011);
    },
  );

  it('gives the exact 1.0742 where the printed table says 1.075', () => {
    // By hand from the classic vapour pressure: (760 − 23.756)/713 · 310.15/298.15 = 1.07417. The table's and the
    // equation's vapour pressures differ by 0.1 %, 0.03 mmHg in 713.
    const factor = volumeFactor('ATPS', 'BTPS', { temperatureC: 25, barometricMmHg: 760 });
    expect(Math.abs(factor - 1.0742)).toBeLessThan(1e-4);
  });

  it('takes dry room gas to BTPS as derived by hand', () => {
    // 760/713 · 310.15/295.15 = 1.12010 and 630/583 · 310.15/295.15 = 1.13554.
    expect(volumeFactor('ATPD', 'BTPS', room)).toBeCloseTo(1.1201, 4);
    expect(volumeFactor('ATPD', 'BTPS', { temperatureC: 22, barometricMmHg: 630 })).toBeCloseTo(1.13554, 5);
    expect(volumeFactor('BTPS', 'ATPD', room)).toBeCloseTo(0.8928, 4);
  });

  it('takes BTPS to STPD by the 0.826 of printed tables', () => {
    // From memory of printed tables, to their three digits.
    expect(volumeFactor('BTPS', 'STPD', room)).toBeCloseTo(0.826, 3);
  });

  it('uses 47 mmHg at body temperature by convention, so that saturated 37 °C gas is a hair off 1', () => {
    const atBodyTemperature = volumeFactor('ATPS', 'BTPS', { temperatureC: 37, barometricMmHg: 760 });
    expect(atBodyTemperature).not.toBe(1);
    expect(atBodyTemperature).toBeCloseTo(1, 3);
  });

  it('finds 0.91 to be the factor of saturated gas at 20.5 °C', () => {
    expect(volumeFactor('BTPS', 'ATPS', { temperatureC: 20.5, barometricMmHg: 760 })).toBeCloseTo(0.91, 3);
  });

  it('places ATP between dry and saturated, meeting both', () => {
    const at = (relativeHumidity: number) => volumeFactor('ATP', 'BTPS', { ...room, relativeHumidity });
    expect(at(0)).toBe(volumeFactor('ATPD', 'BTPS', room));
    expect(at(1)).toBe(volumeFactor('ATPS', 'BTPS', room));
    expect(at(0.4)).toBeLessThan(at(0));
    expect(at(0.4)).toBeGreaterThan(at(1));
  });

  const impossible: readonly (readonly [string, GasCondition, Ambient, RegExp])[] = [
    [
      'a temperature that is not a number',
      'ATPD',
      { temperatureC: Number.NaN, barometricMmHg: 760 },
      /temperatureC is NaN °C/,
    ],
    [
      'a temperature below absolute zero',
      'ATPD',
      { temperatureC: -273.15, barometricMmHg: 760 },
      /temperatureC.*°C/,
    ],
    [
      'an infinite temperature',
      'ATPD',
      { temperatureC: Number.POSITIVE_INFINITY, barometricMmHg: 760 },
      /temperatureC/,
    ],
    ['no pressure', 'ATPD', { temperatureC: 22, barometricMmHg: 0 }, /barometricMmHg is 0 mmHg/],
    [
      'a pressure that is not a number',
      'ATPD',
      { temperatureC: 22, barometricMmHg: Number.NaN },
      /barometricMmHg is NaN mmHg/,
    ],
    [
      'an infinite pressure',
      'ATPD',
      { temperatureC: 22, barometricMmHg: Number.POSITIVE_INFINITY },
      /barometricMmHg/,
    ],
    [
      'a pressure that water vapour alone fills',
      'BTPS',
      { temperatureC: 22, barometricMmHg: 47 },
      /barometricMmHg is 47 mmHg/,
    ],
    [
      '7.6 mmHg over wet gas',
      'ATPS',
      { temperatureC: 22, barometricMmHg: 7.6 },
      /barometricMmHg is 7.6 mmHg/,
    ],
    ['ATP without a humidity', 'ATP', room, /relativeHumidity is undefined/],
    ['a humidity in per cent', 'ATP', { ...room, relativeHumidity: 45 }, /relativeHumidity is 45/],
    [
      'a humidity that is not a number',
      'ATPD',
      { ...room, relativeHumidity: Number.NaN },
      /relativeHumidity is NaN/,
    ],
    [
      'saturated gas below freezing',
      'ATPS',
      { temperatureC: -5, barometricMmHg: 760 },
      /temperatureC is -5 °C/,
    ],
  ];
  it.each(impossible)('refuses %s', (_what, condition, ambient, message) => {
    expect(() => volumeFactor(condition, 'STPD', ambient)).toThrow(RangeError);
    expect(() => volumeFactor(condition, 'STPD', ambient)).toThrow(message);
  });
});
