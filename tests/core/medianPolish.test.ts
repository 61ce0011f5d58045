import { describe, expect, it } from 'vitest';
import { medianPolish } from '../../src/core/medianPolish.ts';

const table = [
  [13, 17, 26, 18, 29],
  [42, 48, 57, 41, 59],
  [34, 31, 36, 22, 41],
];

describe('medianPolish', () => {
  it('splits as R does', () => {
    // R 4.2.2: medpolish(matrix(c(13,17,26,18,29, 42,48,57,41,59, 34,31,36,22,41), nrow = 3, byrow = TRUE), eps = 1e-10)
    const { overall, rows, columns, residuals } = medianPolish(table);
    expect(overall).toBe(30);
    expect(rows).toEqual([-12, 18, 0]);
    expect(columns).toEqual([-5, 0, 8, -7, 11]);
    expect(residuals).toEqual([
      [0, -1, 0, 7, 0],
      [-1, 0, 1, 0, 0],
      [9, 1, -2, -1, 0],
    ]);
  });

  it('splits a table with a gap as R does', () => {
    // R 4.2.2: the same with m[2, 3] <- NA, na.rm = TRUE.
    const gap = table.map((row, r) => row.map((value, c) => (r === 1 && c === 2 ? null : value)));
    const { overall, rows, columns, residuals } = medianPolish(gap);
    expect(overall).toBe(30.75);
    expect(rows).toEqual([-12, 17.25, 0]);
    expect(columns).toEqual([-5.75, 0, 6.25, -7, 10.25]);
    expect(residuals[1]).toEqual([-0.25, 0, null, 0, 0.75]);
  });

  it('leaves a far value in its residual and the rest where they are', () => {
    const spoilt = table.map((row, r) => row.map((value, c) => (r === 2 && c === 4 ? 1000 : value)));
    expect(medianPolish(spoilt).residuals[2]?.[4]).toBeGreaterThan(900);
  });

  it('of nothing is nothing, and refuses ragged rows and what is not a number', () => {
    expect(medianPolish([])).toEqual({ overall: 0, rows: [], columns: [], residuals: [] });
    expect(() => medianPolish([[1, 2], [1]])).toThrow(/table\[1\] has 1 values, not 2/);
    expect(() => medianPolish([[1, Number.NaN]])).toThrow(RangeError);
  });
});
