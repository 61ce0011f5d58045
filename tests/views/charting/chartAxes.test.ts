import { describe, expect, it } from 'vitest';
import { timeTicks } from '../../../src/views/charting/chartAxes.ts';

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
