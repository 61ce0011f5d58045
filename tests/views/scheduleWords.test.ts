import { afterEach, describe, expect, it } from 'vitest';
import type { CheckDue } from '../../src/core/index.ts';
import { setWriting, usualWriting } from '../../src/views/parts/writing.ts';
import type { DueCheck } from '../../src/views/schedule.ts';
import {
  checkWords,
  dayByName,
  dayByNameAt,
  dueSentence,
  intervalWords,
} from '../../src/views/scheduleWords.ts';

afterEach(() => setWriting(usualWriting));

const today = '2026-11-25';
const check = (
  kind: DueCheck['check'],
  due: Partial<CheckDue>,
  changes: Partial<DueCheck> = {},
): DueCheck => ({
  check: kind,
  about: { kind: 'analyzer', id: 'analyzer-room-2', fittedTo: [] },
  plan: { kind, every: { unit: 'days', count: 7 }, announceDays: 1, source: 'Decided here.' },
  isUsual: false,
  due: { kind, state: 'later', dueOn: null, daysOverdue: 0, ...due },
  hasOwnDate: false,
  last: null,
  datedAhead: null,
  failed: null,
  droppedAt: null,
  ...changes,
});
const sentence = (...given: Parameters<typeof check>) => dueSentence(check(...given), today, 'Europe/Oslo');

describe('a day by its name', () => {
  // 25 November 2026 is a Wednesday; 29 February 2028 is a Tuesday: any calendar.
  it.each([
    ['2026-11-25', 'Wed 25 Nov'],
    ['2026-11-23', 'Mon 23 Nov'],
    ['2027-02-28', 'Sun 28 Feb'],
    ['2028-02-29', 'Tue 29 Feb 2028'],
    ['2025-11-25', 'Tue 25 Nov 2025'],
  ])('%s is %s, with its year where that is far off', (date, words) => {
    expect(dayByName(date, today)).toBe(words);
  });

  it('is written in the laboratory’s own form', () => {
    setWriting({ ...usualWriting, dateForm: 'dd.mm.yyyy' });
    expect(dayByName('2026-11-23', today)).toBe('Mon 23.11.');
    expect(dayByName('2025-11-23', today)).toBe('Sun 23.11.2025');
  });

  it('is that of the zone it was written in, or of UTC where this browser does not know that', () => {
    const at = Date.parse('2026-11-23T23:30:00Z');
    expect(dayByNameAt(at, 'Europe/Oslo', today)).toBe('Tue 24 Nov');
    expect(dayByNameAt(at, 'Mars/Olympus', today)).toBe('Mon 23 Nov UTC');
  });
});

describe('the sentence of a check', () => {
  it.each([
    [{ state: 'later', dueOn: '2027-03-01' }, 'Simulation due Mon 1 Mar'],
    [{ state: 'later', dueOn: '2026-12-01' }, 'Simulation due in 6 days, Tue 1 Dec'],
    [{ state: 'soon', dueOn: '2026-11-26' }, 'Simulation due tomorrow, Thu 26 Nov'],
    [{ state: 'today', dueOn: today }, 'Simulation due today'],
    [
      { state: 'overdue', dueOn: '2026-11-24', daysOverdue: 1 },
      'Simulation overdue by 1 day, was due Tue 24 Nov',
    ],
    [{ state: 'paused' }, 'Simulation due once it is back in service'],
    [{ state: 'later' }, 'Simulation has no date'],
  ] as const)('of %j', (due, words) => {
    expect(sentence('simulation', due)).toBe(words);
  });

  it.each([
    [{ state: 'overdue', dueOn: '2026-11-24', daysOverdue: 1 }, 'Expired 1 day ago: last day was Tue 24 Nov'],
    [{ state: 'today', dueOn: today }, 'Expires today: its last day'],
    [{ state: 'soon', dueOn: '2026-12-05' }, 'Expires in 10 days, Sat 5 Dec'],
    [{ state: 'later', dueOn: '2028-02-29' }, 'Expires Tue 29 Feb 2028'],
  ] as const)('of a cylinder at %j', (due, words) => {
    expect(sentence('cylinder-expiry', due, { hasOwnDate: true })).toBe(words);
  });

  it('of a usual check that was never noted says how often it is usual, and no date', () => {
    const due = { state: 'overdue', dueOn: '2026-01-01', daysOverdue: 328 } as const;
    expect(sentence('linearity', due, { isUsual: true })).toBe(`${checkWords.linearity} usually every week`);
  });
});

it('writes intervals as the laboratory set them', () => {
  expect(intervalWords({ unit: 'days', count: 1 })).toBe('every day');
  expect(intervalWords({ unit: 'days', count: 7 })).toBe('every week');
  expect(intervalWords({ unit: 'days', count: 14 })).toBe('every 2 weeks');
  expect(intervalWords({ unit: 'days', count: 10 })).toBe('every 10 days');
  expect(intervalWords({ unit: 'months', count: 1 })).toBe('every month');
  expect(intervalWords({ unit: 'months', count: 12 })).toBe('every 12 months');
  expect(intervalWords(null)).toBe('by a date of its own');
});
