import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Ambient,
  coTracerDisagreement,
  type GasCondition,
  saturatedVaporPressureMmHg,
  simulatedVa,
  singleBreathDlco,
  volumeFactor,
} from '../../../src/core/index.ts';

const condition = fc.constantFrom<GasCondition>('BTPS', 'ATPS', 'ATP', 'ATPD', 'STPD');
const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const ambient: fc.Arbitrary<Ambient> = fc.record({
  temperatureC: between(5, 40),
  barometricMmHg: between(400, 800),
  relativeHumidity: between(0, 1),
});
/** Rounding of a handful of multiplications. */
const rounding = 1e-14;
const impossible = fc.constantFrom(Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, -1e9);

describe('volumeFactor', () => {
  it('from a condition to itself is 1', () => {
    fc.assert(fc.property(condition, ambient, (one, room) => volumeFactor(one, one, room) === 1));
  });

  it('composes and inverts', () => {
    fc.assert(
      fc.property(condition, condition, condition, ambient, (first, second, third, room) => {
        const direct = volumeFactor(first, third, room);
        const composed = volumeFactor(first, second, room) * volumeFactor(second, third, room);
        expect(Math.abs(composed / direct - 1)).toBeLessThan(rounding);
        expect(Math.abs(direct * volumeFactor(third, first, room) - 1)).toBeLessThan(rounding);
      }),
    );
  });

  it('refuses every impossible room by name', () => {
    fc.assert(
      fc.property(
        condition,
        ambient,
        impossible,
        fc.constantFrom('temperatureC', 'barometricMmHg', 'relativeHumidity'),
        (one, room, value, name) => {
          expect(() => volumeFactor(one, 'ATPD', { ...room, [name]: value })).toThrow(RangeError);
          expect(() => volumeFactor(one, 'ATPD', { ...room, [name]: value })).toThrow(name);
        },
      ),
    );
  });
});

describe('saturatedVaporPressureMmHg', () => {
  it('rises with temperature', () => {
    fc.assert(
      fc.property(between(0, 100), between(0.001, 1), (celsius, more) => {
        expect(saturatedVaporPressureMmHg(celsius + more)).toBeGreaterThan(
          saturatedVaporPressureMmHg(celsius),
        );
      }),
    );
  });
});

describe('simulatedVa', () => {
  it('gives back the volume of any syringe from what an ideal analyzer computes of it', () => {
    fc.assert(
      fc.property(
        ambient,
        fc.record({
          stroke: between(1, 4),
          inside: between(0, 1),
          syringe: between(0, 0.3),
          analyzer: between(0, 0.3),
        }),
        (room, { stroke, inside, syringe, analyzer }) => {
          // Mass balance by hand, then into BTPS as an analyzer that takes the gas to be dry does.
          const dryVaL = ((stroke - analyzer) * (stroke + inside + syringe)) / stroke;
          const found = simulatedVa({
            reportedVaL: dryVaL * volumeFactor('ATPD', 'BTPS', room),
            reportedAs: 'BTPS',
            ambient: room,
            conversion: { kind: 'computed', assumed: 'ATPD' },
            syringeDeadSpaceL: syringe,
            analyzerDeadSpaceL: analyzer,
            inspiredVolumeL: stroke,
          });
          expect(found.simulatedVaL).toBeCloseTo(stroke + inside, 11);
        },
      ),
    );
  });

  it('refuses every impossible volume by name', () => {
    const input = {
      reportedVaL: 3.45,
      reportedAs: 'BTPS',
      ambient: { temperatureC: 22, barometricMmHg: 760 },
      conversion: { kind: 'computed', assumed: 'ATPD' },
      syringeDeadSpaceL: 0.11,
      analyzerDeadSpaceL: 0.1,
      inspiredVolumeL: 3,
    } as const;
    const names = ['reportedVaL', 'syringeDeadSpaceL', 'analyzerDeadSpaceL', 'inspiredVolumeL'];
    fc.assert(
      fc.property(fc.constantFrom(...names), impossible, (name, value) => {
        expect(() => simulatedVa({ ...input, [name]: value })).toThrow(RangeError);
        expect(() => simulatedVa({ ...input, [name]: value })).toThrow(name);
      }),
    );
  });
});

describe('singleBreathDlco', () => {
  const fractions = fc.record({ co: between(0.0001, 0.01), tracer: between(0.001, 0.2) });
  const breath = fc.record({
    vaBtpsL: between(0.5, 10),
    breathHoldS: between(4, 15),
    barometricMmHg: between(400, 800),
    inspired: fractions,
    alveolar: fractions,
  });

  it('at a given VA in BTPS does not depend on pressure', () => {
    fc.assert(
      fc.property(breath, between(400, 800), (one, barometricMmHg) => {
        expect(singleBreathDlco({ ...one, barometricMmHg })).toBe(singleBreathDlco(one));
      }),
    );
  });

  it('is in proportion to VA and in inverse proportion to time', () => {
    fc.assert(
      fc.property(breath, (one) => {
        const dlco = singleBreathDlco(one);
        expect(singleBreathDlco({ ...one, vaBtpsL: 2 * one.vaBtpsL })).toBeCloseTo(2 * dlco, 9);
        expect(singleBreathDlco({ ...one, breathHoldS: 2 * one.breathHoldS })).toBeCloseTo(dlco / 2, 9);
      }),
    );
  });

  it('tells in a syringe by how much CO reads low', () => {
    fc.assert(
      fc.property(breath, between(-0.2, 0.2), ({ vaBtpsL, breathHoldS, barometricMmHg, inspired }, low) => {
        // Both gases are diluted alike, and CO is then misread.
        const alveolar = { co: inspired.co * 0.9 * (1 - low), tracer: inspired.tracer * 0.9 };
        const dlcoMlMinMmHg = singleBreathDlco({ vaBtpsL, breathHoldS, barometricMmHg, inspired, alveolar });
        expect(coTracerDisagreement({ dlcoMlMinMmHg, vaBtpsL, breathHoldS })).toBeCloseTo(low, 11);
      }),
    );
  });
});
