import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { valueAxis } from '../../../src/views/parts/valueAxis.ts';

describe('valueAxis', () => {
  it('has round ticks around the values', () => {
    const { ticks, step, from, to } = valueAxis([2.93, 3.11], 0.01);
    expect(step).toBeCloseTo(0.05, 12);
    expect(ticks.map((tick) => tick.toFixed(2))).toEqual(['2.95', '3.00', '3.05', '3.10']);
    expect(from).toBeLessThan(2.93);
    expect(to).toBeGreaterThan(3.11);
  });

  it('opens around one value, around equal values and around none', () => {
    for (const values of [[3], [3, 3, 3], []]) {
      const { from, to, ticks } = valueAxis(values, 0.01);
      expect(to - from).toBeCloseTo(0.04, 12);
      expect(ticks.length).toBeGreaterThan(1);
    }
  });

  it('keeps every value inside and between two and eleven ticks on the axis, whatever the values', () => {
    const value = fc.double({ min: -20, max: 20, noNaN: true });
    fc.assert(
      fc.property(fc.array(value, { minLength: 1, maxLength: 40 }), (values) => {
        const { from, to, ticks, step } = valueAxis(values, 0.001);
        expect(Math.min(...values)).toBeGreaterThan(from);
        expect(Math.max(...values)).toBeLessThan(to);
        expect(ticks.length).toBeGreaterThanOrEqual(2);
        expect(ticks.length).toBeLessThanOrEqual(11);
        for (const tick of ticks) expect(tick >= from - 1e-9 && tick <= to + 1e-9).toBe(true);
        expect(['1', '2', '5']).toContain(step.toExponential(6).charAt(0));
      }),
    );
  });

  it('does not spread thousands of values over arguments', () => {
    expect(() => valueAxis(new Array<number>(300_000).fill(3), 0.01)).not.toThrow();
  });
});
