import { TZDate } from '@date-fns/tz';
import { describe, expect, it } from 'vitest';
import { wallClockOf } from '../../src/core/index.ts';

describe('wallClockOf', () => {
  it.each([
    // Zone rules of the IANA database. Midnight is hour 0, never 24.
    ['2026-03-01T23:30:00Z', 'Europe/Berlin', { year: 2026, month: 3, day: 2, hour: 0, minute: 30 }],
    ['2026-03-02T00:00:00Z', 'UTC', { year: 2026, month: 3, day: 2, hour: 0, minute: 0 }],
    ['2026-12-31T11:00:00Z', 'Pacific/Kiritimati', { year: 2027, month: 1, day: 1, hour: 1, minute: 0 }],
    ['2026-07-02T03:59:59Z', 'America/New_York', { year: 2026, month: 7, day: 1, hour: 23, minute: 59 }],
    ['2026-01-15T12:00:00Z', 'Asia/Kathmandu', { year: 2026, month: 1, day: 15, hour: 17, minute: 45 }],
    ['0999-06-01T12:00:00Z', 'UTC', { year: 999, month: 6, day: 1, hour: 12, minute: 0 }],
  ])('at %s in %s', (instant, zone, clock) => {
    expect(wallClockOf(Date.parse(instant), zone)).toEqual(clock);
  });

  it('agrees with date-fns in three zones, hour by hour through the changes to and from summer time', () => {
    const hourMs = 3_600_000;
    for (const zone of ['Europe/Oslo', 'America/New_York', 'Australia/Lord_Howe']) {
      for (const near of [
        Date.UTC(2026, 2, 1),
        Date.UTC(2026, 2, 28),
        Date.UTC(2026, 9, 3),
        Date.UTC(2026, 9, 31),
      ]) {
        for (let at = near; at < near + 9 * 24 * hourMs; at += hourMs / 2) {
          const reference = new TZDate(at, zone);
          expect(wallClockOf(at, zone), `${new Date(at).toISOString()} ${zone}`).toEqual({
            year: reference.getFullYear(),
            month: reference.getMonth() + 1,
            day: reference.getDate(),
            hour: reference.getHours(),
            minute: reference.getMinutes(),
          });
        }
      }
    }
  });

  it('refuses an instant that is not one and a zone that is none', () => {
    expect(() => wallClockOf(Number.NaN, 'UTC')).toThrow(/wallClockOf: at is NaN ms/);
    expect(() => wallClockOf(0, 'Nowhere/Such')).toThrow(RangeError);
  });
});
