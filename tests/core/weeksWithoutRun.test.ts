import { describe, expect, it } from 'vitest';
import { weeksWithoutRun } from '../../src/core/index.ts';

describe('weeksWithoutRun', () => {
  const march = { from: '2026-03-01', to: '2026-03-31' };
  // 2 March 2026 is a Monday.
  it('counts whole weeks from Monday to Sunday only', () => {
    expect(weeksWithoutRun(['2026-03-08', '2026-03-09', '2026-03-22'], march)).toEqual([
      { from: '2026-03-23', to: '2026-03-29', weeks: 1, isOutOfService: false },
    ]);
  });

  it('joins weeks in a row, but not those out of service to those in it', () => {
    const isOut = (from: string) => from >= '2026-03-16';
    expect(weeksWithoutRun([], march, isOut)).toEqual([
      { from: '2026-03-02', to: '2026-03-15', weeks: 2, isOutOfService: false },
      { from: '2026-03-16', to: '2026-03-29', weeks: 2, isOutOfService: true },
    ]);
  });

  it('finds none in a period shorter than a week', () => {
    expect(weeksWithoutRun([], { from: '2026-03-03', to: '2026-03-08' })).toEqual([]);
  });

  it('refuses a period that is none', () => {
    expect(() => weeksWithoutRun([], { from: '2026-02-30', to: '2026-03-08' })).toThrow(RangeError);
  });
});
