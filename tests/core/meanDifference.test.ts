import { tTestTwoSample } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { confidenceOfEach, meanDifference } from '../../src/core/index.ts';

/** The extra sleep of ten patients under each of two drugs: Student, Biometrika 6 (1908); as R 4.2.2 carries it (`sleep`). */
const firstDrug = Object.freeze([0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0, 2]);
const secondDrug = Object.freeze([1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4]);

/** Values with exactly this count, mean and sample SD. */
function sampleOf(count: number, mean: number, sd: number): readonly number[] {
  const steps = Array.from({ length: count }, (_, index) => index - (count - 1) / 2);
  const spread = Math.sqrt(steps.reduce((sum, step) => sum + step * step, 0) / (count - 1));
  return steps.map((step) => mean + (step / spread) * sd);
}

describe('meanDifference', () => {
  it('gives the interval that R gives', () => {
    // R 4.2.2: t.test(extra ~ group, data = sleep)
    const found = meanDifference(firstDrug, secondDrug);
    expect(found?.difference).toBeCloseTo(-1.58, 12);
    expect(found?.standardError).toBeCloseTo(0.849091017238762, 12);
    expect(found?.degreesOfFreedom).toBeCloseTo(17.776473516178498, 10);
    expect(found?.lower).toBeCloseTo(-3.36548323071171, 10);
    expect(found?.upper).toBeCloseTo(0.20548323071171, 10);
  });

  it('gives what R gives for unequal numbers and another confidence', () => {
    // R 4.2.2: t.test(sleep$extra[1:6], sleep$extra[11:20], conf.level = 1 - 0.05/3)
    const found = meanDifference(firstDrug.slice(0, 6), secondDrug, 1 - 0.05 / 3);
    expect(found?.degreesOfFreedom).toBeCloseTo(11.695190346011803, 10);
    expect(found?.lower).toBeCloseTo(-4.857782466990287, 10);
    expect(found?.upper).toBeCloseTo(0.53111580032362, 10);
  });

  it('gives the printed figures of the NIST example of two unequal samples', () => {
    // NIST/SEMATECH e-Handbook 1.3.5.3, mileage of 249 and 79 cars (recalled); six to seven digits are printed.
    const found = meanDifference(sampleOf(249, 20.14458, 6.4147), sampleOf(79, 30.48101, 6.10771));
    expect(found?.standardError).toBeCloseTo(0.7984, 4);
    expect((found?.difference ?? 0) / (found?.standardError ?? 1)).toBeCloseTo(-12.946, 2);
    expect(found?.degreesOfFreedom).toBeCloseTo(136.875, 2);
  });

  it('has the t of the pooled test where both are equally many, as simple-statistics computes it', () => {
    const found = meanDifference(firstDrug, secondDrug);
    const pooled = tTestTwoSample([...firstDrug], [...secondDrug]) ?? 0;
    expect((found?.difference ?? 0) / (found?.standardError ?? 1)).toBeCloseTo(pooled, 12);
  });

  it('turns round when the samples change places, and does not see what is added to both', () => {
    const found = meanDifference(firstDrug, secondDrug);
    const turned = meanDifference(secondDrug, firstDrug);
    expect(turned?.lower).toBeCloseTo(-(found?.upper ?? 0), 12);
    const far = (values: readonly number[]) => values.map((value) => value + 1e6);
    expect(meanDifference(far(firstDrug), far(secondDrug))?.upper).toBeCloseTo(found?.upper ?? 0, 6);
  });

  it('keeps its degrees of freedom for a spread whose square has hardly any digits', () => {
    const tiny = (values: readonly number[]) => values.map((value) => value * 1e-140);
    expect(meanDifference(tiny(firstDrug), tiny(secondDrug))?.degreesOfFreedom).toBeCloseTo(17.776473516, 6);
  });

  it('takes its width from the other where one does not scatter', () => {
    // R 4.2.2: t.test(c(3, 3, 3), c(3.1, 3.2, 3.4, 3.3)): 3 degrees of freedom, −0.455426 to −0.044574.
    const found = meanDifference([3, 3, 3], [3.1, 3.2, 3.4, 3.3]);
    expect(found?.degreesOfFreedom).toBeCloseTo(3, 12);
    expect(found?.lower).toBeCloseTo(-0.4554260256760519, 10);
    expect(found?.upper).toBeCloseTo(-0.0445739743239481, 10);
  });

  it('is unknown for fewer than two values of either, and where neither scatters', () => {
    expect(meanDifference([], [1, 2])).toBeUndefined();
    expect(meanDifference([1, 2], [3])).toBeUndefined();
    expect(meanDifference([1, 1], [2, 2])).toBeUndefined();
  });

  it('has the figures of its own example', () => {
    const found = meanDifference([3.1, 3.12, 3.14], [3.07, 3.08, 3.09]);
    expect(found?.difference).toBeCloseTo(0.04, 12);
    expect(found?.lower).toBeCloseTo(-0.00155399503182504, 10);
    expect(found?.upper).toBeCloseTo(0.0815539950318251, 10);
  });

  it('refuses what is no number and no confidence', () => {
    expect(() => meanDifference([1, Number.NaN], [1, 2])).toThrow(/first\[1\] is NaN/);
    expect(() => meanDifference([1, 2], [Number.POSITIVE_INFINITY, 2])).toThrow(/second\[0\] is Infinity/);
    expect(() => meanDifference([1, 2], [3, 4], 1)).toThrow(/confidence is 1/);
    expect(() => meanDifference([1, 2], [3, 4], Number.NaN)).toThrow(RangeError);
  });
});

describe('confidenceOfEach', () => {
  it('shares the chance of a miss out evenly', () => {
    expect(confidenceOfEach(0.95, 1)).toBeCloseTo(0.95, 15);
    expect(confidenceOfEach(0.95, 3)).toBeCloseTo(0.983333333333, 12);
    expect(confidenceOfEach(0.95, 10)).toBeCloseTo(0.995, 15);
  });

  it('refuses no interval and no confidence', () => {
    expect(() => confidenceOfEach(0.95, 0)).toThrow(/intervals is 0/);
    expect(() => confidenceOfEach(0.95, 1.5)).toThrow(RangeError);
    expect(() => confidenceOfEach(1, 2)).toThrow(/joint is 1/);
  });
});
