import { describe, expect, it } from 'vitest';
import { type Conversion, mean, publishedLimits2017, reduceRun, sampleSd } from '../../src/core/index.ts';
import { reportOf, type TrueState } from '../../src/demo/analyzerModel.ts';
import { balancedDeviates, seededUniform } from '../../src/demo/chance.ts';

const soundAnalyzer: TrueState = {
  ambient: { temperatureC: 21.4, barometricMmHg: 748 },
  strokeL: 3,
  volumeInsideL: 0,
  syringeDeadSpaceL: 0.11,
  analyzerDeadSpaceL: 0,
  gain: 0,
  leak: 0,
  dlcoOffset: 0,
  breathHoldS: 10,
};
const dry: Conversion = { kind: 'computed', assumed: 'ATPD' };

/** What the laboratory makes of the report, with nothing rounded. */
function reducedOf(state: TrueState) {
  const { vaL, inspiredVolumeL, volumeCheckL, dlcoMlMinMmHg } = reportOf(state);
  const {
    ambient,
    strokeL,
    volumeInsideL,
    syringeDeadSpaceL: deadSpaceL,
    analyzerDeadSpaceL,
    breathHoldS,
  } = state;
  return reduceRun({
    ambient,
    conversion: dry,
    reading: {
      vaL,
      vaReportedAs: 'BTPS',
      dlco: dlcoMlMinMmHg,
      dlcoUnit: 'mL/min/mmHg',
      inspiredVolumeL,
      volumeCheckL,
      breathHoldS,
    },
    syringe: { strokeL, volumeInsideL, deadSpaceL },
    analyzerDeadSpaceL,
    limits: publishedLimits2017,
  });
}

describe('reportOf', () => {
  it.each<[string, Partial<TrueState>]>([
    ['with the plunger home', {}],
    ['with 1 L left inside', { strokeL: 2, volumeInsideL: 1 }],
    ['that subtracts a dead space', { analyzerDeadSpaceL: 0.1 }],
    ['in a cold room high up', { ambient: { temperatureC: 16, barometricMmHg: 610 } }],
  ])('of a sound analyzer %s gives back 3 L and no uptake', (_, difference) => {
    const numbers = reducedOf({ ...soundAnalyzer, ...difference });
    expect(numbers.simulatedVaL).toBeCloseTo(3, 9);
    expect(numbers.dlcoMlMinMmHg).toBeCloseTo(0, 9);
    expect(numbers.volumeCheckFraction).toBeCloseTo(0, 9);
  });

  it('of a leak shows a high VA and a good DLCO and volume check', () => {
    const numbers = reducedOf({ ...soundAnalyzer, leak: 0.02 });
    // 3.11 L in the syringe, seen through a sample that is 2 % room air: 3.11/0.98 − 0.11.
    expect(numbers.simulatedVaL).toBeCloseTo(3.11 / 0.98 - 0.11, 9);
    expect(numbers.dlcoMlMinMmHg).toBeCloseTo(0, 9);
    expect(numbers.volumeCheckFraction).toBeCloseTo(0, 9);
  });

  it('of gas analyzers that disagree shows the DLCO they make up, and a good VA', () => {
    const numbers = reducedOf({ ...soundAnalyzer, dlcoOffset: 0.7 });
    expect(numbers.dlcoMlMinMmHg).toBeCloseTo(0.7, 9);
    expect(numbers.simulatedVaL).toBeCloseTo(3, 9);
  });
});

describe('seededUniform', () => {
  it('gives the same numbers for the same seed, spread evenly over 0 to 1', () => {
    const [one, two] = [seededUniform(7), seededUniform(7)];
    const values = Array.from({ length: 10_000 }, one);
    expect(Array.from({ length: 10_000 }, two)).toEqual(values);
    expect(Math.min(...values)).toBeGreaterThanOrEqual(0);
    expect(Math.max(...values)).toBeLessThan(1);
    // A uniform distribution: mean 1/2, SD 1/√12; five standard errors of 10,000 draws are 0.014 and some 0.007.
    expect(Math.abs((mean(values) ?? 0) - 0.5)).toBeLessThan(0.014);
    expect(Math.abs((sampleSd(values) ?? 0) - 1 / Math.sqrt(12))).toBeLessThan(0.01);
  });
});

describe('balancedDeviates', () => {
  it('have mean 0 and SD 1 and stay within 2 SD', () => {
    const deviates = balancedDeviates(8000, seededUniform(3));
    expect(Math.abs(mean(deviates) ?? 1)).toBeLessThan(0.01);
    expect(Math.abs((sampleSd(deviates) ?? 0) - 1)).toBeLessThan(0.01);
    expect(Math.max(...deviates.map(Math.abs))).toBeLessThan(2);
  });

  it('hold four of every eight on each side of 0', () => {
    const deviates = balancedDeviates(800, seededUniform(5));
    for (let start = 0; start < deviates.length; start += 8) {
      expect(deviates.slice(start, start + 8).filter((deviate) => deviate > 0)).toHaveLength(4);
    }
  });
});
