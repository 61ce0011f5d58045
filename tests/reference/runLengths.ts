import type { RuleId } from '../../src/core/index.ts';

/**
 * Mean runs until the first signal at a shift of 0, 1, 2 and 3 SD, mean and SD known. Found apart from this code by an exact
 * chain, a simulation and R's package spc; to the digits printed. 370.4, 43.9, 6.30 and 2.00 for 1-3s stand in every
 * textbook (Montgomery, Introduction to Statistical Quality Control); 465.4, 10.4 and 4.01 for CUSUM(0.5, 5) in his table 9.3.
 */
export const exactRunLengths: readonly (readonly [
  readonly RuleId[],
  readonly [number, number, number, number],
])[] = [
  [['1-3s'], [370.4, 43.9, 6.3, 2.0]],
  [['2-2s'], [988, 46.0, 6.0, 2.6]],
  [['4-1s'], [937, 30.0, 6.28, 4.24]],
  [['10x'], [1023, 29.2, 11.4, 10.1]],
  [
    ['1-3s', '2-2s', 'R-4s', '4-1s'],
    [184.2, 16.1, 3.45, 1.69],
  ],
  [
    ['1-3s', '2-2s', 'R-4s', '4-1s', '10x'],
    [158.3, 13.0, 3.43, 1.69],
  ],
];

export const ewmaRunLengths = { ewma: { lambda: 0.2, limit: 2.86 }, byShift: [371.1, 9.8, 3.59] };
export const cusumRunLengths = { cusum: { slack: 0.5, decision: 5 }, byShift: [465.4, 10.4, 4.01] };
