import { describe, expect, it } from 'vitest';
import {
  type DateOrder,
  dateKindOf,
  instantsIn,
  noon,
  readDate,
  readTime,
} from '../../src/exchange/importDates.ts';

const dayOf = (text: string, order: DateOrder | null) => {
  const read = readDate(text, order);
  if (read.state === 'wrong') return read.message;
  const { year, month, day } = read.parts;
  return `${year}-${month}-${day}`;
};

describe('readDate', () => {
  // ISO 8601 and the customs of the countries; common practice, no source.
  it.each<[string, DateOrder | null, string]>([
    ['2026-03-02', null, '2026-3-2'],
    ['2026/3/2', 'DMY', '2026-3-2'],
    ['20260302', null, '2026-3-2'],
    ['2026-03-02T08:45:00.000+01:00', null, '2026-3-2'],
    ['02.03.2026', 'DMY', '2026-3-2'],
    ['02.03.2026', 'MDY', '2026-2-3'],
    ['2/3/26', 'DMY', '2026-3-2'],
    ['3-2-2026', 'MDY', '2026-3-2'],
    ['26/03/02', 'YMD', '2026-3-2'],
    ['2 Mar 2026', null, '2026-3-2'],
    ['02-mar-26', null, '2026-3-2'],
    ['Mon 2 March 2026', null, '2026-3-2'],
    ['March 2nd, 2026', null, '2026-3-2'],
    ['2. mai 2026', null, '2026-5-2'],
    ['29.02.2024', 'DMY', '2024-2-29'],
  ])('reads %s in the order %s as %s', (text, order, expected) => {
    expect(dayOf(text, order)).toBe(expected);
  });

  it.each<[string, DateOrder | null, RegExp]>([
    ['02.03.2026', null, /which number is the day has not been chosen/],
    ['13.14.2026', 'DMY', /no date in the order day, month, year/],
    ['31.12.2026', 'MDY', /no date in the order month, day, year/],
    ['02.03.2026', 'YMD', /no date in the order year, month, day/],
    ['29.02.2026', 'DMY', /no day of the calendar/],
    ['2026-00-10', null, /no day of the calendar/],
    ['0012-01-01', null, /no day of the calendar/],
    ['2 Foo 2026', null, /no day of the calendar/],
    ['45000', 'DMY', /spreadsheet’s number for a day/],
    ['yesterday', 'DMY', /not a date/],
    ['2026-03-02 25:00', null, /not a date/],
    ['2026-03-02 13:00 pm', null, /not a date/],
    ['=NOW()', 'DMY', /not a date/],
    ['9'.repeat(10_000_000), 'DMY', /not a date/],
  ])('says of %s in the order %s what is wrong', (text, order, message) => {
    expect(dayOf(text, order)).toMatch(message);
  });
});

describe('dateKindOf', () => {
  it.each([
    ['2026-03-02', 'clear'],
    ['2 Mar 2026', 'clear'],
    ['13.03.2026', 'dayFirst'],
    ['03/13/2026', 'monthFirst'],
    ['03/02/2026', 'either'],
    ['13/13/2026', 'other'],
    ['weekly', 'other'],
  ])('counts %s as %s', (text, kind) => {
    expect(dateKindOf(text)).toBe(kind);
  });
});

describe('readTime', () => {
  it.each([
    ['8:45', { hour: 8, minute: 45 }],
    ['08.45', { hour: 8, minute: 45 }],
    ['08h45', { hour: 8, minute: 45 }],
    ['8:45 pm', { hour: 20, minute: 45 }],
    ['12:05 AM', { hour: 0, minute: 5 }],
    ['12:05 p.m.', { hour: 12, minute: 5 }],
  ])('reads %s', (text, expected) => {
    expect(readTime(text)).toMatchObject(expected);
  });

  it.each(['24:00', '8:60', '13:00 pm', '0:30 am', 'noon', '', '8'])(
    'takes %j for no time of day',
    (text) => {
      expect(readTime(text)).toBeNull();
    },
  );
});

describe('instantsIn', () => {
  const at = (zone: string, text: string) => {
    const read = readDate(text, null);
    if (read.state === 'wrong') throw new Error(read.message);
    const { ms, exists } = instantsIn(zone)(read.parts, read.parts.time ?? noon);
    return { instant: new Date(ms).toISOString(), exists };
  };

  // Offsets in force on the day and the hours at which clocks change: IANA time zone database.
  it.each([
    ['Europe/Oslo', '2026-03-28 08:45', '2026-03-28T07:45:00.000Z'],
    ['Europe/Oslo', '2026-03-29 01:59', '2026-03-29T00:59:00.000Z'],
    ['Europe/Oslo', '2026-03-29 03:00', '2026-03-29T01:00:00.000Z'],
    ['Europe/Oslo', '2026-03-29 08:45', '2026-03-29T06:45:00.000Z'],
    ['Europe/Oslo', '2026-03-30 08:45', '2026-03-30T06:45:00.000Z'],
    ['Europe/Oslo', '2026-10-25 02:30', '2026-10-25T00:30:00.000Z'],
    ['Europe/Oslo', '2026-10-25 03:30', '2026-10-25T02:30:00.000Z'],
    ['Asia/Kathmandu', '2026-03-02 13:30', '2026-03-02T07:45:00.000Z'],
    ['America/St_Johns', '2026-07-01 22:45:30.250', '2026-07-02T01:15:30.250Z'],
    ['Pacific/Kiritimati', '2027-01-01 00:00', '2026-12-31T10:00:00.000Z'],
    ['America/New_York', '2026-03-08 12:00', '2026-03-08T16:00:00.000Z'],
    ['Europe/Oslo', '2026-03-02', '2026-03-02T11:00:00.000Z'],
    ['Europe/Oslo', '2026-03-02T08:45:00+05:45', '2026-03-02T03:00:00.000Z'],
    ['Europe/Oslo', '2026-03-02T08:45:00Z', '2026-03-02T08:45:00.000Z'],
  ])('in %s makes of %s %s', (zone, text, instant) => {
    expect(at(zone, text)).toEqual({ instant, exists: true });
  });

  it('says so of an hour that the clocks jumped over', () => {
    expect(at('Europe/Oslo', '2026-03-29 02:30')).toEqual({
      instant: '2026-03-29T01:30:00.000Z',
      exists: false,
    });
  });
});
