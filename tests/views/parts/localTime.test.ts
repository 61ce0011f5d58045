// @vitest-environment node
import { format } from 'date-fns';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { dayAndTime } from '../../../src/views/parts/figures.ts';
import { localClock, localDay, localMinute } from '../../../src/views/parts/localTime.ts';
import { backupFileName, exportFileName } from '../../../src/views/parts/saveFile.ts';

afterEach(() => vi.unstubAllEnvs());

// The zone of the computer itself. The reference is date-fns.
describe.each([
  // Minutes west of Greenwich on 1 January 1970; tz database, recalled.
  ['Europe/Oslo', -60],
  ['America/New_York', 300],
  ['Asia/Kathmandu', -330],
])('on a computer in %s', (zone, minutesWest) => {
  const instants = [
    '2026-03-29T00:59:00Z', // a minute before the clocks of Oslo go forward
    '2026-03-29T01:00:00Z',
    '2026-03-08T06:59:00Z', // New York
    '2026-03-08T07:00:00Z',
    '2026-10-25T00:30:00Z', // an hour that Oslo has twice
    '2026-10-25T01:30:00Z',
    '2026-12-31T23:59:00Z',
    '2028-02-29T12:00:00Z',
  ].map((text) => Date.parse(text));

  it('days and minutes are those of date-fns', () => {
    vi.stubEnv('TZ', zone);
    // The zone is taken: without it the test would pass in any.
    expect(new Date(0).getTimezoneOffset()).toBe(minutesWest);
    for (const at of instants) {
      expect(localDay(at)).toBe(format(at, 'yyyy-MM-dd'));
      expect(localMinute(at)).toBe(format(at, "yyyy-MM-dd'T'HH:mm"));
      expect(dayAndTime(at)).toBe(format(at, 'd MMM yyyy, HH:mm'));
      expect(dayAndTime(at, zone)).toBe(dayAndTime(at));
    }
  });

  it('a year that is not finished yet, as a date field gives it, keeps its four digits', () => {
    vi.stubEnv('TZ', zone);
    for (const text of ['0002-03-02T07:45', '0026-03-02T07:45', '0202-03-02T07:45', '2026-03-02T07:45']) {
      expect(localMinute(new Date(text).getTime())).toBe(text);
    }
  });

  it('files are named by the day there', () => {
    vi.stubEnv('TZ', zone);
    const at = Date.parse('2026-03-02T23:30:00Z');
    expect(backupFileName(at, 500)).toBe(`dlco-qc-backup_${format(at, 'yyyy-MM-dd')}_500-entries.jsonl`);
    expect(exportFileName('Room 2', at)).toBe(`dlco-qc-runs_room-2_${format(at, 'yyyy-MM-dd')}.csv`);
  });
});

describe('a minute that the clocks leave out', () => {
  it('is read as the one an hour later, and is written as that', () => {
    vi.stubEnv('TZ', 'Europe/Oslo');
    expect(localMinute(new Date('2026-03-29T02:30').getTime())).toBe('2026-03-29T03:30');
  });
});

it('what is no instant is refused', () => {
  expect(() => localClock('')).toThrow(RangeError);
  expect(() => localMinute(Number.NaN)).toThrow(/NaN is no instant/);
});
