import { describe, expect, it } from 'vitest';
import {
  coTracerDisagreement,
  disagreementAtLimit,
  dlcoFromMlMinMmHg,
  dlcoInMlMinMmHg,
  dlcoOfDisagreement,
  publishedLimits2017,
  type SingleBreathInput,
  singleBreathDlco,
} from '../../src/core/index.ts';

/** A syringe without uptake: both gases diluted alike by 3.11/3. */
const noUptake: SingleBreathInput = Object.freeze({
  vaBtpsL: 3.3,
  breathHoldS: 10,
  barometricMmHg: 760,
  inspired: Object.freeze({ co: 0.003, tracer: 0.003 }),
  alveolar: Object.freeze({ co: (0.003 * 3) / 3.11, tracer: (0.003 * 3) / 3.11 }),
});
const withCo = (share: number): SingleBreathInput => ({
  ...noUptake,
  alveolar: { ...noUptake.alveolar, co: noUptake.alveolar.co * share },
});

describe('singleBreathDlco', () => {
  it('finds no uptake where both gases are diluted alike', () => {
    expect(singleBreathDlco(noUptake)).toBeCloseTo(0, 12);
  });

  it('follows the published equation, step by step', () => {
    // ERS/ATS 2017 single-breath equation by hand: VA 5 L BTPS at 760 mmHg is 5 · 713/760 · 273.15/310.15 = 4.13119 L STPD;
    // 4131.19 · 60/10/713 · ln(0.05/0.1 · 0.003/0.0009) = 34.7646 · 0.5108256 = 17.7586.
    const patient = {
      vaBtpsL: 5,
      breathHoldS: 10,
      barometricMmHg: 760,
      inspired: { co: 0.003, tracer: 0.1 },
      alveolar: { co: 0.0009, tracer: 0.05 },
    };
    expect(singleBreathDlco(patient)).toBeCloseTo(17.7586, 4);
  });

  it('reads 0.5 mL/min/mmHg when CO reads 2.16 % low or the tracer 2.20 % high', () => {
    expect(singleBreathDlco(withCo(1 - 0.0216))).toBeCloseTo(0.5, 2);
    const highTracer = {
      ...noUptake,
      alveolar: { ...noUptake.alveolar, tracer: noUptake.alveolar.tracer * 1.022 },
    };
    expect(singleBreathDlco(highTracer)).toBeCloseTo(0.5, 2);
  });

  it('does not depend on the pressure at a given VA in BTPS', () => {
    const atSea = singleBreathDlco(withCo(0.97));
    expect(singleBreathDlco({ ...withCo(0.97), barometricMmHg: 560 })).toBe(atSea);
  });

  const impossible: readonly (readonly [string, Partial<SingleBreathInput>, RegExp])[] = [
    ['no volume', { vaBtpsL: 0 }, /vaBtpsL is 0 L/],
    ['a time that is not a number', { breathHoldS: Number.NaN }, /breathHoldS is NaN s/],
    ['a pressure of 47 mmHg', { barometricMmHg: 47 }, /barometricMmHg is 47 mmHg/],
    ['an infinite pressure', { barometricMmHg: Number.POSITIVE_INFINITY }, /barometricMmHg/],
    ['no CO left', { alveolar: { co: 0, tracer: 0.1 } }, /alveolar.co is 0/],
    ['a fraction in per cent', { inspired: { co: 0.003, tracer: 10 } }, /inspired.tracer is 10/],
    [
      'an inspired CO that is not a number',
      { inspired: { co: Number.NaN, tracer: 0.1 } },
      /inspired.co is NaN/,
    ],
    ['a negative tracer', { alveolar: { co: 0.001, tracer: -0.1 } }, /alveolar.tracer is -0.1/],
  ];
  it.each(impossible)('refuses %s', (_what, change, message) => {
    expect(() => singleBreathDlco({ ...noUptake, ...change })).toThrow(RangeError);
    expect(() => singleBreathDlco({ ...noUptake, ...change })).toThrow(message);
  });
});

describe('coTracerDisagreement', () => {
  it('finds CO 2.16 % low in 0.5 mL/min/mmHg at 3.3 L and 10 s', () => {
    // Derived by hand: 1 − exp(−0.5 · 10 · 760 · 310.15 / (60000 · 273.15 · 3.3)).
    expect(coTracerDisagreement({ dlcoMlMinMmHg: 0.5, vaBtpsL: 3.3, breathHoldS: 10 })).toBeCloseTo(
      0.0216,
      4,
    );
    const tracerHigh =
      1 / (1 - coTracerDisagreement({ dlcoMlMinMmHg: 0.5, vaBtpsL: 3.3, breathHoldS: 10 })) - 1;
    expect(tracerHigh).toBeCloseTo(0.022, 4);
  });

  it('finds in a DLCO the disagreement that made it', () => {
    const dlcoMlMinMmHg = singleBreathDlco(withCo(0.98));
    expect(coTracerDisagreement({ dlcoMlMinMmHg, vaBtpsL: 3.3, breathHoldS: 10 })).toBeCloseTo(0.02, 12);
  });

  it('is negative where CO reads high, and 0 where the analyzers agree', () => {
    expect(coTracerDisagreement({ dlcoMlMinMmHg: -0.5, vaBtpsL: 3.3, breathHoldS: 10 })).toBeCloseTo(
      -0.022,
      4,
    );
    expect(coTracerDisagreement({ dlcoMlMinMmHg: 0, vaBtpsL: 3.3, breathHoldS: 10 })).toBeCloseTo(0, 15);
  });

  it('refuses what cannot be', () => {
    const usual = { dlcoMlMinMmHg: 0.5, vaBtpsL: 3.3, breathHoldS: 10 };
    expect(() => coTracerDisagreement({ ...usual, dlcoMlMinMmHg: Number.NaN })).toThrow(
      /dlcoMlMinMmHg is NaN mL\/min\/mmHg/,
    );
    expect(() => coTracerDisagreement({ ...usual, vaBtpsL: 0 })).toThrow(/vaBtpsL is 0 L/);
    expect(() => coTracerDisagreement({ ...usual, breathHoldS: -1 })).toThrow(/breathHoldS is -1 s/);
  });
});

describe('dlcoOfDisagreement', () => {
  it('undoes coTracerDisagreement', () => {
    const breath = { vaBtpsL: 3.3, breathHoldS: 10 };
    for (const disagreement of [-0.05, 0, 0.0216, 0.5]) {
      const dlcoMlMinMmHg = dlcoOfDisagreement({ ...breath, disagreement });
      expect(coTracerDisagreement({ ...breath, dlcoMlMinMmHg })).toBeCloseTo(disagreement, 14);
    }
  });

  it.each([1, Number.NaN, Number.NEGATIVE_INFINITY])('refuses a disagreement of %d', (disagreement) => {
    expect(() => dlcoOfDisagreement({ disagreement, vaBtpsL: 3.3, breathHoldS: 10 })).toThrow(
      /disagreement is/,
    );
  });
});

describe('disagreementAtLimit', () => {
  it('is 2.16 % low or 2.20 % high at the limit in mL/min/mmHg, and a little less at the one in SI units', () => {
    // Derived by hand at 3.3 L and 10 s: 1 − e^∓0.02179; 0.166 · 2.987 is 0.4958 of the 0.5.
    const breath = { vaBtpsL: 3.3, breathHoldS: 10, limits: publishedLimits2017 };
    const plain = disagreementAtLimit({ ...breath, unit: 'mL/min/mmHg' });
    expect(plain.low).toBeCloseTo(0.0216, 4);
    expect(plain.high).toBeCloseTo(-0.022, 4);
    const si = disagreementAtLimit({ ...breath, unit: 'mmol/min/kPa' });
    expect(si.low / plain.low).toBeCloseTo(0.4958 / 0.5, 3);
  });
});

describe('DLCO units', () => {
  it('takes 1 mmol/min/kPa to be 2.987 mL/min/mmHg', () => {
    // From memory of the 2017 ERS/ATS standard; ideal gas: 22.414 L/mol · 0.133322 kPa/mmHg = 2.988.
    expect(dlcoInMlMinMmHg(1, 'mmol/min/kPa')).toBe(2.987);
    expect(Math.abs(22.414 * 0.133322 - dlcoInMlMinMmHg(1, 'mmol/min/kPa'))).toBeLessThan(0.002);
    expect(dlcoFromMlMinMmHg(2.987, 'mmol/min/kPa')).toBe(1);
    expect(dlcoInMlMinMmHg(0.42, 'mL/min/mmHg')).toBe(0.42);
    expect(dlcoFromMlMinMmHg(0.42, 'mL/min/mmHg')).toBe(0.42);
  });

  it('refuses a value that is not a number', () => {
    expect(() => dlcoInMlMinMmHg(Number.NaN, 'mmol/min/kPa')).toThrow(/value is NaN mmol\/min\/kPa/);
    expect(() => dlcoFromMlMinMmHg(Number.NaN, 'mmol/min/kPa')).toThrow(/dlcoMlMinMmHg is NaN/);
  });
});
