import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { timeTicks, valueAxis } from '../../../src/views/charts/chartAxes.ts';

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

describe('timeTicks', () => {
  const local = (year: number, month: number, dayOfMonth: number) =>
    new Date(year, month - 1, dayOfMonth).getTime();

  it('names every second month over eighteen months', () => {
    const ticks = timeTicks(local(2025, 1, 3), local(2026, 7, 2));
    expect(ticks.map(({ text }) => text)).toEqual([
      'Mar 2025',
      'May 2025',
      'Jul 2025',
      'Sep 2025',
      'Nov 2025',
      'Jan 2026',
      'Mar 2026',
      'May 2026',
      'Jul 2026',
    ]);
    expect(ticks[0]?.at).toBe(local(2025, 3, 1));
  });

  it('names Mondays over six weeks and days over one', () => {
    const weeks = timeTicks(local(2026, 5, 7), local(2026, 6, 18));
    expect(weeks.map(({ text }) => text)).toEqual(['11 May', '18 May', '25 May', '1 Jun', '8 Jun', '15 Jun']);
    expect(timeTicks(local(2026, 5, 7), local(2026, 5, 9)).map(({ text }) => text)).toEqual([
      '7 May',
      '8 May',
      '9 May',
    ]);
  });

  it('names years over decades, and thirteen of anything at most', () => {
    const years = timeTicks(local(2000, 6, 1), local(2030, 6, 1)).map(({ text }) => text);
    expect(years.slice(0, 3)).toEqual(['2003', '2006', '2009']);
    for (const days of [1, 10, 30, 76, 77, 200, 400, 800, 2000, 4000, 20_000]) {
      const ticks = timeTicks(local(2025, 1, 15), local(2025, 1, 15) + days * 86_400_000);
      expect(ticks.length, `${days} days`).toBeLessThanOrEqual(13);
      expect(ticks.length, `${days} days`).toBeGreaterThanOrEqual(1);
    }
  });
});
