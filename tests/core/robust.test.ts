import { medianAbsoluteDeviation, median as referenceMedian } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { median, normalQuantile, outlyingIndices, robustSd } from '../../src/core/index.ts';
import { madToSd } from '../../src/core/robust.ts';

const values = Object.freeze([3.12, 3.08, 3.15, 3.11, 3.1, 3.09, 3.14, 3.6]);

describe('median', () => {
  it('agrees with simple-statistics and leaves its input as it was', () => {
    expect(median(values)).toBeCloseTo(referenceMedian([...values]), 14);
    expect(median(values.slice(1))).toBe(referenceMedian(values.slice(1)));
  });
  it('is undefined of none, the value of one, and exact of equal and of huge ones', () => {
    expect(median([])).toBeUndefined();
    expect(median([3.1])).toBe(3.1);
    expect(median([0.1, 0.1])).toBe(0.1);
    expect(median([1.5e308, 1.7e308])).toBeCloseTo(1.6e308, -295);
  });
  it.each([Number.NaN, Number.POSITIVE_INFINITY])('refuses %d', (bad) => {
    expect(() => median([1, bad])).toThrow(/median: values\[1\] is/);
  });
});

describe('robustSd', () => {
  it('is the median absolute deviation of simple-statistics times 1.4826', () => {
    expect(robustSd(values)).toBeCloseTo(medianAbsoluteDeviation([...values]) * 1.4826, 5);
    // R 4.2.2: mad(c(1,2,3,4,1000)) = 1.4826
    expect(robustSd([1, 2, 3, 4, 1000])).toBeCloseTo(1.4826, 4);
  });
  it('scales so that a normal sample gives its SD', () => {
    expect(madToSd).toBeCloseTo(1 / normalQuantile(0.75), 14);
  });
  it('is undefined of none and one, and 0 of equal values', () => {
    expect([robustSd([]), robustSd([1]), robustSd([2, 2, 2])]).toEqual([undefined, undefined, 0]);
  });
});

describe('outlyingIndices', () => {
  it('finds the value that stands apart, and none where all belong together', () => {
    expect(outlyingIndices(values)).toEqual([7]);
    expect(outlyingIndices(values.slice(0, 7))).toEqual([]);
  });
  it('finds none where there is no spread to tell by', () => {
    expect(outlyingIndices([])).toEqual([]);
    expect(outlyingIndices([1, 1, 1, 9])).toEqual([]);
  });
  it('counts 3.5 robust SD as within', () => {
    // Median 0, median deviation 1: the limit is 3.5 · 1.4826 = 5.189.
    expect(outlyingIndices([-1, -1, 0, 1, 1, -1, 5.18])).toEqual([]);
    expect(outlyingIndices([-1, -1, 0, 1, 1, -1, 5.2])).toEqual([6]);
  });
});
