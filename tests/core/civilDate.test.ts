import { format, addDays as referenceAddDays, addMonths as referenceAddMonths } from 'date-fns';
import { describe, expect, it } from 'vitest';
import { addDays, addMonths, civilDateOf, daysBetween } from '../../src/core/index.ts';

describe('civilDateOf', () => {
  it.each([
    // Zone rules of the IANA database.
    ['2026-03-01T23:30:00Z', 'Europe/Berlin', '2026-03-02'],
    ['2026-03-01T23:30:00Z', 'UTC', '2026-03-01'],
    ['2026-03-02T04:59:00Z', 'America/New_York', '2026-03-01'],
    ['2026-07-02T04:01:00Z', 'America/New_York', '2026-07-02'],
    ['2026-12-31T11:00:00Z', 'Pacific/Kiritimati', '2027-01-01'],
    ['2026-10-03T15:59:00Z', 'Australia/Lord_Howe', '2026-10-04'],
  ])('of %s in %s is %s', (instant, zone, date) => {
    expect(civilDateOf(Date.parse(instant), zone)).toBe(date);
  });

  it('refuses an instant that is not one and a zone that is none', () => {
    expect(() => civilDateOf(Number.NaN, 'UTC')).toThrow(/at is NaN ms/);
    expect(() => civilDateOf(0, 'Nowhere/Such')).toThrow(RangeError);
  });
});

describe('addDays, addMonths and daysBetween', () => {
  it('agree with date-fns over four years', () => {
    for (let offset = 0; offset < 1462; offset += 17) {
      const date = addDays('2026-01-01', offset);
      const reference = new Date(2026, 0, 1 + offset, 12);
      expect(addDays(date, 10)).toBe(format(referenceAddDays(reference, 10), 'yyyy-MM-dd'));
      expect(addMonths(date, 13)).toBe(format(referenceAddMonths(reference, 13), 'yyyy-MM-dd'));
      expect(daysBetween('2026-01-01', date)).toBe(offset);
    }
  });

  it('end a month where it ends', () => {
    expect(addMonths('2026-01-31', 1)).toBe('2026-02-28');
    expect(addMonths('2028-01-31', 1)).toBe('2028-02-29');
    expect(addMonths('2028-02-29', 12)).toBe('2029-02-28');
    expect(addMonths('2026-11-30', 3)).toBe('2027-02-28');
    expect(addMonths('2026-03-31', -1)).toBe('2026-02-28');
  });

  it.each(['2026-02-30', '2026-13-01', '02.03.2026', '', '2026-3-2'])('refuse the date %j', (date) => {
    expect(() => addDays(date, 1)).toThrow(/date is .*, not a date such as/);
    expect(() => addMonths(date, 1)).toThrow(RangeError);
    expect(() => daysBetween(date, '2026-01-01')).toThrow(RangeError);
  });

  it('refuse half a day and half a month', () => {
    expect(() => addDays('2026-01-01', 0.5)).toThrow(/days is 0.5/);
    expect(() => addMonths('2026-01-01', Number.NaN)).toThrow(/months is NaN/);
  });
});
