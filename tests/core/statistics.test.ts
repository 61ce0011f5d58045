import { mean as referenceMean, sampleStandardDeviation } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import {
  mean,
  movingRangeSigma,
  predictionFactor,
  sampleSd,
  sdConfidenceInterval,
} from '../../src/core/index.ts';
import { nistIndividuals } from '../reference/controlCharts.ts';
import { certifiedDatasets } from '../reference/strd.ts';

describe('mean and sampleSd', () => {
  it.each(certifiedDatasets)('of the NIST reference dataset $name have the certified digits', (dataset) => {
    expect(Math.abs((mean(dataset.values) ?? 0) / dataset.mean - 1)).toBeLessThan(2e-15);
    expect(Math.abs((sampleSd(dataset.values) ?? 0) / dataset.sd - 1)).toBeLessThan(10 ** -dataset.sdDigits);
  });
});

describe('mean', () => {
  it('gives the mean of the NIST individuals example', () => {
    expect(mean(Object.freeze(nistIndividuals.values))).toBeCloseTo(nistIndividuals.mean, 12);
  });

  it('is undefined of no values, the value of one, and exact of equal ones', () => {
    expect(mean([])).toBeUndefined();
    expect(mean([3.1])).toBe(3.1);
    expect(mean([3.1, 3.1, 3.1])).toBe(3.1);
    expect(mean([1, 2])).toBe(1.5);
  });

  it.each([Number.NaN, Number.POSITIVE_INFINITY])('refuses %d and says where it stands', (bad) => {
    expect(() => mean([1, bad])).toThrow(RangeError);
    expect(() => mean([1, bad])).toThrow(/mean: values\[1\] is/);
  });
});

describe('sampleSd', () => {
  it('has n − 1 in the denominator, as simple-statistics names it', () => {
    const values = Object.freeze([3.12, 3.08, 3.15, 3.11, 3.1, 3.09, 3.14]);
    expect(sampleSd(values)).toBeCloseTo(sampleStandardDeviation([...values]), 14);
    expect(mean(values)).toBeCloseTo(referenceMean([...values]), 14);
    // By hand: squares of −2 −1 0 1 2 sum to 10; 10/4.
    expect(sampleSd([1, 2, 3, 4, 5])).toBeCloseTo(Math.sqrt(2.5), 15);
  });

  it('is undefined of none and one, and exactly 0 of equal values', () => {
    expect(sampleSd([])).toBeUndefined();
    expect(sampleSd([3.1])).toBeUndefined();
    expect(sampleSd([0.1, 0.1, 0.1, 0.1])).toBe(0);
    expect(sampleSd([1, 3])).toBeCloseTo(Math.SQRT2, 15);
  });

  it('keeps its digits where the mean is huge against the spread', () => {
    // Whole numbers near 2^52 are exact: 1 and 3 about 2^52, SD as of 1, 3, 1, 3.
    const far = 2 ** 52;
    expect(sampleSd([far + 1, far + 3, far + 1, far + 3])).toBe(sampleSd([1, 3, 1, 3]));
  });

  it.each([Number.NaN, Number.NEGATIVE_INFINITY])('refuses %d and says where it stands', (bad) => {
    expect(() => sampleSd([bad])).toThrow(RangeError);
    expect(() => sampleSd([bad])).toThrow(/sampleSd: values\[0\] is/);
  });
});

describe('movingRangeSigma', () => {
  it('gives the limits of the NIST individuals example', () => {
    const sigma = movingRangeSigma(nistIndividuals.values) ?? Number.NaN;
    // Four printed decimals of the mean moving range; six of the limits' digits.
    expect(sigma * nistIndividuals.d2).toBeCloseTo(nistIndividuals.meanMovingRange, 4);
    expect(nistIndividuals.mean + 3 * sigma).toBeCloseTo(nistIndividuals.upper, 3);
    expect(nistIndividuals.mean - 3 * sigma).toBeCloseTo(nistIndividuals.lower, 3);
  });

  it('is undefined of none and one, and 0 of equal values', () => {
    expect(movingRangeSigma([])).toBeUndefined();
    expect(movingRangeSigma([3])).toBeUndefined();
    expect(movingRangeSigma([3, 3, 3])).toBe(0);
  });

  it('refuses what is not a number', () => {
    expect(() => movingRangeSigma([1, Number.NaN])).toThrow(/movingRangeSigma: values\[1\] is NaN/);
  });
});

describe('predictionFactor', () => {
  it.each([
    // scipy 1.17.1: t.isf(norm.sf(s), n - 1) * sqrt(1 + 1/n); R 4.2.2: -qt(pnorm(-s), n - 1) * sqrt(1 + 1/n).
    [10, 3, 4.294091192],
    [20, 3, 3.532362837],
    [100, 3, 3.092898585],
    [10, 2, 2.433032952],
    [20, 2, 2.193353379],
    [100, 2, 2.035670606],
  ] as const)('of %d runs and %d SD agrees with scipy and R', (n, sigmas, factor) => {
    expect(predictionFactor(n, sigmas)).toBeCloseTo(factor, 8);
  });

  it('keeps the promised rate: 4.294, 3.532 and 3.093 for a tail of 0.00135', () => {
    // The tail of 3 SD is 0.00134990; rounding it to 0.00135 moves no printed digit.
    expect([10, 20, 100].map((n) => predictionFactor(n, 3).toFixed(3))).toEqual(['4.294', '3.532', '3.093']);
  });

  it('tends to the number of SD', () => {
    expect(predictionFactor(1_000_000, 3)).toBeCloseTo(3, 4);
    expect(predictionFactor(1_000_000, 2)).toBeCloseTo(2, 4);
  });

  it.each([0, 1, 2.5, Number.NaN, Number.POSITIVE_INFINITY])('refuses n = %d', (n) => {
    expect(() => predictionFactor(n, 3)).toThrow(RangeError);
    expect(() => predictionFactor(n, 3)).toThrow(/n is .* runs/);
  });
});

describe('sdConfidenceInterval', () => {
  it('agrees with R', () => {
    // R 4.2.2: 0.036 * sqrt(19 / qchisq(c(.975, .025), 19))
    const { lower, upper } = sdConfidenceInterval(0.036, 20);
    expect(lower).toBeCloseTo(0.0273776542, 9);
    expect(upper).toBeCloseTo(0.0525805789, 9);
  });

  it('narrows as runs are added and widens with the confidence asked for', () => {
    expect(sdConfidenceInterval(1, 1000).upper).toBeLessThan(sdConfidenceInterval(1, 20).upper);
    expect(sdConfidenceInterval(1, 20, 0.99).upper).toBeGreaterThan(sdConfidenceInterval(1, 20).upper);
    expect(sdConfidenceInterval(0, 20)).toEqual({ lower: 0, upper: 0 });
  });

  it.each([
    [-1, 20, 0.95, /sd is -1/],
    [Number.NaN, 20, 0.95, /sd is NaN/],
    [1, 1, 0.95, /n is 1 runs/],
    [1, 2.5, 0.95, /n is 2.5 runs/],
    [1, 20, 1, /confidence is 1/],
    [1, 20, Number.NaN, /confidence is NaN/],
  ])('refuses sd %d, n %d, confidence %d', (sd, n, confidence, message) => {
    expect(() => sdConfidenceInterval(sd, n, confidence)).toThrow(RangeError);
    expect(() => sdConfidenceInterval(sd, n, confidence)).toThrow(message);
  });
});
