import { getISODay, getQuarter, parseISO, startOfISOWeek } from 'date-fns';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  addDays,
  type CompletenessInput,
  completeness,
  daysBetween,
  dueDates,
  mondayOf,
  quarterOf,
} from '../../src/core/index.ts';

const weekly = { unit: 'days', count: 7 } as const;
/** March 2026 up to Sunday the 22nd; the 2nd is a Monday. In use since that day. */
const march = (over: Partial<CompletenessInput> = {}): CompletenessInput => ({
  madeOn: [],
  every: weekly,
  formerly: [],
  since: '2026-03-02',
  retiredOn: null,
  pauses: [],
  today: '2026-03-22',
  from: '2026-03-01',
  to: '2026-03-22',
  explanations: [],
  ...over,
});
const dates = (over: Partial<CompletenessInput>) =>
  dueDates(march(over)).map(({ dueOn, madeOn, state }) => [dueOn.slice(8), madeOn?.slice(8) ?? null, state]);
const states = (over: Partial<CompletenessInput>) =>
  completeness(march(over)).weeks.map(({ state }) => state);
const inMarch = (...days: readonly number[]) => days.map((day) => `2026-03-${String(day).padStart(2, '0')}`);

describe('mondayOf and quarterOf', () => {
  it('are what date-fns says', () => {
    fc.assert(
      fc.property(fc.integer({ min: -30_000, max: 60_000 }), (days) => {
        const date = addDays('1970-01-01', days);
        const local = parseISO(date);
        const monday = startOfISOWeek(local);
        expect(mondayOf(date)).toBe(addDays(date, 1 - getISODay(local)));
        expect(getISODay(monday)).toBe(1);
        expect(quarterOf(date)).toBe(`${date.slice(0, 4)}-Q${getQuarter(local)}`);
      }),
      { numRuns: 200 },
    );
    expect(mondayOf('2026-03-01')).toBe('2026-02-23');
    expect(quarterOf('2026-05-14')).toBe('2026-Q2');
  });

  it('refuse what is no date', () => {
    expect(() => mondayOf('2026-02-30')).toThrow(RangeError);
    expect(() => quarterOf('2026-13-01')).toThrow(RangeError);
  });
});

describe('dueDates', () => {
  it('falls due an interval after the run before, and is late the day after', () => {
    expect(dates({ madeOn: inMarch(2, 9, 17) })).toEqual([
      ['09', '09', 'on-time'],
      ['16', '17', 'late'],
    ]);
  });

  it('falls due first an interval after coming into use, or after a first run that was before that', () => {
    expect(dates({ madeOn: inMarch(9), today: '2026-03-10' })).toEqual([['09', '09', 'on-time']]);
    expect(dates({ madeOn: inMarch(10), today: '2026-03-10' })).toEqual([['09', '10', 'late']]);
    expect(dates({ madeOn: ['2026-02-27', ...inMarch(6)], today: '2026-03-06' })).toEqual([
      ['06', '06', 'on-time'],
    ]);
  });

  it('falls due again while it is not made: the last is late, the ones before it are missed', () => {
    expect(dates({ madeOn: inMarch(2, 20) })).toEqual([
      ['09', null, 'missed'],
      ['16', '20', 'late'],
    ]);
    // On the very day of the second it is on time for that.
    expect(dates({ madeOn: inMarch(2, 16) })).toEqual([
      ['09', null, 'missed'],
      ['16', '16', 'on-time'],
    ]);
  });

  it('takes a run ahead of its date as its answer, and counts from it', () => {
    expect(dates({ madeOn: inMarch(2, 6, 13), today: '2026-03-13' })).toEqual([
      ['09', '06', 'on-time'],
      ['13', '13', 'on-time'],
    ]);
  });

  it('takes one sooner than half the interval after another for a repeat', () => {
    // 2 and 4 March are 2 days apart, 2 and 6 March 4 days; half of 7 is 3.5.
    expect(dates({ madeOn: inMarch(2, 4, 11), today: '2026-03-11' })).toEqual([['11', '11', 'on-time']]);
    expect(dates({ madeOn: inMarch(2, 2, 9), today: '2026-03-09' })).toEqual([['09', '09', 'on-time']]);
  });

  it('counts every fourth run of a weekly check that is made daily, each on time', () => {
    const daily = inMarch(...Array.from({ length: 13 }, (_, index) => index + 2));
    expect(dates({ madeOn: daily, today: '2026-03-14' })).toEqual([
      ['12', '06', 'on-time'],
      ['16', '10', 'on-time'],
      ['20', '14', 'on-time'],
    ]);
  });

  it('does not count a date that is today and unanswered, nor a run that is dated ahead', () => {
    expect(dates({ madeOn: inMarch(2), today: '2026-03-09' })).toEqual([]);
    expect(dates({ madeOn: inMarch(2), today: '2026-03-10' })).toEqual([['09', null, 'missed']]);
    expect(dates({ madeOn: inMarch(2, 9), today: '2026-03-08' })).toEqual([]);
  });

  it('moves a date out of a pause to the day of use again, and falls due no more without an end', () => {
    const pauses = [{ from: '2026-03-08', until: '2026-03-12' }];
    expect(dates({ madeOn: inMarch(2, 12), pauses, today: '2026-03-12' })).toEqual([['12', '12', 'on-time']]);
    expect(dates({ madeOn: inMarch(2, 13), pauses, today: '2026-03-13' })).toEqual([['12', '13', 'late']]);
    expect(dates({ madeOn: inMarch(2), pauses: [{ from: '2026-03-08', until: null }] })).toEqual([]);
  });

  it('falls due no more once it is taken out of use', () => {
    expect(dates({ madeOn: inMarch(2), retiredOn: '2026-03-16' })).toEqual([['09', null, 'missed']]);
    expect(dates({ madeOn: inMarch(2), retiredOn: '2026-03-09' })).toEqual([]);
  });

  it('goes by months where the schedule does', () => {
    // addMonths: 31 January and a month is 28 February.
    const every = { unit: 'months', count: 1 } as const;
    const months = { every, since: '2026-01-31', madeOn: ['2026-01-31', '2026-02-28'], today: '2026-03-22' };
    expect(dueDates(march(months))).toEqual([
      { dueOn: '2026-02-28', madeOn: '2026-02-28', state: 'on-time' },
    ]);
  });

  it('gives every late run, and every day that a weekly reckoning finds unanswered', () => {
    // A second reckoning, day by day: a count-down of seven days that each run sets anew.
    const gaps = fc.array(fc.integer({ min: 4, max: 25 }), { maxLength: 20 });
    fc.assert(
      fc.property(gaps, fc.integer({ min: 0, max: 30 }), (waits, more) => {
        const since = '2026-01-05';
        const madeOn = [since];
        for (const wait of waits) madeOn.push(addDays(madeOn.at(-1) ?? since, wait));
        const today = addDays(madeOn.at(-1) ?? since, more);
        const expected: string[] = [];
        let left = 7;
        let isOpen = false;
        for (let date = addDays(since, 1); date <= today; date = addDays(date, 1)) {
          left -= 1;
          const isMade = madeOn.includes(date);
          if (left === 0) {
            if (isOpen) expected.push('missed');
            isOpen = true;
            if (!isMade) left = 7;
          }
          if (!isMade) continue;
          const isDueToday = left === 0;
          expected.push(isOpen && !isDueToday ? 'late' : 'on-time');
          isOpen = false;
          left = 7;
        }
        if (isOpen && left !== 7) expected.push('missed');
        const found = dueDates(march({ madeOn, since, today })).map(({ state }) => state);
        expect(found).toEqual(expected);
      }),
      { numRuns: 300 },
    );
  });

  it('does not depend on the order of the runs, nor on one of a day being counted twice', () => {
    const madeOn = inMarch(2, 9, 17);
    expect(dates({ madeOn: [...madeOn, ...madeOn].reverse() })).toEqual(dates({ madeOn }));
  });

  it('refuses what is no date', () => {
    expect(() => dueDates(march({ madeOn: ['2026-02-30'] }))).toThrow(RangeError);
  });
});

describe('completeness: the weeks', () => {
  it('are those from Monday to Sunday that have a day in the period', () => {
    const { weeks, whole } = completeness(march({ madeOn: inMarch(2, 9, 17) }));
    expect(
      weeks.map(({ monday, sunday, state, madeOn, dueOn }) => [monday, sunday, state, madeOn, dueOn]),
    ).toEqual([
      ['2026-02-23', '2026-03-01', 'not-in-use', null, null],
      ['2026-03-02', '2026-03-08', 'made', '2026-03-02', null],
      ['2026-03-09', '2026-03-15', 'made', '2026-03-09', null],
      ['2026-03-16', '2026-03-22', 'late', '2026-03-17', '2026-03-16'],
    ]);
    expect(whole).toEqual({ due: 2, onTime: 1, late: 1, missed: 0, explained: 0, rate: 0.5 });
  });

  it('with no run are a gap where a date passed in them', () => {
    expect(states({ madeOn: inMarch(2, 16) })).toEqual(['not-in-use', 'made', 'gap', 'made']);
    // Due on Sunday the 15th and made on Monday the 16th: the date passed in the week before.
    expect(states({ madeOn: inMarch(8, 16), since: '2026-03-08' })).toEqual([
      'not-in-use',
      'made',
      'gap',
      'late',
    ]);
  });

  it('with no run are no gap where none was due', () => {
    const fortnightly = { unit: 'days', count: 14 } as const;
    expect(states({ every: fortnightly, madeOn: inMarch(2, 16) })).toEqual([
      'not-in-use',
      'made',
      'not-due',
      'made',
    ]);
  });

  it('out of service are paused, and a gap only where a date passed before the pause', () => {
    const pauses = [{ from: '2026-03-10', until: null }];
    expect(states({ madeOn: inMarch(3), pauses })).toEqual(['not-in-use', 'made', 'paused', 'paused']);
    expect(states({ madeOn: inMarch(2), pauses })).toEqual(['not-in-use', 'made', 'gap', 'paused']);
  });

  it('that are not over, or lie ahead, are to come; a retired analyzer has none', () => {
    expect(states({ madeOn: inMarch(2, 9), today: '2026-03-16', to: '2026-03-29' })).toEqual([
      'not-in-use',
      'made',
      'made',
      'to-come',
      'to-come',
    ]);
    expect(states({ madeOn: inMarch(2, 9), retiredOn: '2026-03-16' }).at(-1)).toBe('not-in-use');
  });

  it('that want one carry the explanations that lie on any of their days', () => {
    const explanation = { id: 'gap-1', from: '2026-03-08', to: '2026-03-09', reason: 'Nobody was there.' };
    const { weeks, whole } = completeness(
      march({
        madeOn: inMarch(2, 16),
        explanations: [explanation, { ...explanation, id: 'gap-2', to: '2026-03-08' }],
      }),
    );
    expect(weeks.map(({ explanations }) => explanations.map(({ id }) => id))).toEqual([
      [],
      [],
      ['gap-1'],
      [],
    ]);
    // It is missed all the same.
    expect(whole).toEqual({ due: 2, onTime: 1, late: 0, missed: 1, explained: 1, rate: 0.5 });
  });
});

describe('completeness: a schedule that was changed', () => {
  const fortnightly = { unit: 'days', count: 14 } as const;
  const whole = (over: Partial<CompletenessInput>) => completeness(march(over)).whole;

  it('does not reach back: each date is of the interval that held on its day', () => {
    // Fortnightly up to the 15th, weekly from the 16th on. By hand: due on the 16th, which is the new schedule's as well.
    const formerly = [{ until: '2026-03-16', every: fortnightly }];
    const madeOn = inMarch(2, 16);
    expect(whole({ madeOn, formerly })).toMatchObject({ due: 1, onTime: 1, missed: 0 });
    expect(whole({ madeOn })).toMatchObject({ due: 2, onTime: 1, missed: 1 });
    expect(states({ madeOn, formerly })).toEqual(['not-in-use', 'made', 'not-due', 'made']);
    // The other way round: weekly up to the 15th, so that the 9th was missed.
    const loosened = { every: fortnightly, formerly: [{ until: '2026-03-16', every: weekly }] };
    expect(whole({ madeOn, ...loosened })).toMatchObject({ due: 2, onTime: 1, missed: 1 });
  });

  it('has no date while the check was not made by an interval', () => {
    const formerly = [{ until: '2026-03-16', every: null }];
    expect(whole({ madeOn: inMarch(2, 17), formerly })).toMatchObject({ due: 1, late: 1, missed: 0 });
  });

  it('lets a run answer one date, of the one interval or of the other', () => {
    // Due on the 9th, made late on the 12th, fortnightly since the 10th: it is not ahead of the 16th as well.
    const changed = { every: fortnightly, formerly: [{ until: '2026-03-10', every: weekly }] };
    expect(whole({ madeOn: inMarch(2, 12), ...changed })).toMatchObject({ due: 1, late: 1, onTime: 0 });
  });

  it('that says the same again changes nothing', () => {
    const days = fc.uniqueArray(fc.integer({ min: 0, max: 200 }), { maxLength: 30 });
    fc.assert(
      fc.property(days, fc.integer({ min: 1, max: 199 }), (made, changed) => {
        const on = (day: number) => addDays('2026-01-01', day);
        const input = march({
          madeOn: made.map(on),
          since: on(0),
          today: on(200),
          from: on(0),
          to: on(200),
        });
        const again = { ...input, formerly: [{ until: on(changed), every: weekly }] };
        expect(completeness(again)).toEqual(completeness(input));
      }),
      { numRuns: 200 },
    );
  });
});

describe('completeness: the quarters', () => {
  it('count each date where it fell, or where its run came before it', () => {
    const input = march({
      from: '2026-01-01',
      to: '2026-06-30',
      since: '2026-03-16',
      // Due on 30 March: late in April, of the first quarter; then due on 9 April and made ahead, on 6 April.
      madeOn: ['2026-03-16', '2026-03-23', '2026-04-02', '2026-04-06'],
      today: '2026-04-08',
    });
    expect(completeness(input).quarters).toEqual([
      { quarter: '2026-Q1', due: 2, onTime: 1, late: 1, missed: 0, explained: 0, rate: 0.5 },
      { quarter: '2026-Q2', due: 1, onTime: 1, late: 0, missed: 0, explained: 0, rate: 1 },
    ]);
  });

  it('sum to the whole, whose dates all lie in the period', () => {
    const days = fc.uniqueArray(fc.integer({ min: 0, max: 300 }), { maxLength: 40 });
    const bounds = fc.tuple(fc.integer({ min: 0, max: 300 }), fc.integer({ min: 0, max: 100 }));
    fc.assert(
      fc.property(days, bounds, (made, [start, length]) => {
        const on = (day: number) => addDays('2026-01-01', day);
        const input = march({
          madeOn: made.map(on),
          since: on(0),
          today: on(300),
          from: on(start),
          to: on(start + length),
        });
        const { quarters, whole, weeks } = completeness(input);
        for (const key of ['due', 'onTime', 'late', 'missed'] as const) {
          expect(quarters.reduce((sum, quarter) => sum + quarter[key], 0)).toBe(whole[key]);
        }
        expect(whole.onTime + whole.late + whole.missed).toBe(whole.due);
        // Each week once, from the first day to the last.
        expect(weeks[0]?.monday).toBe(mondayOf(input.from));
        expect(weeks.length).toBe(daysBetween(mondayOf(input.from), mondayOf(input.to)) / 7 + 1);
      }),
      { numRuns: 100 },
    );
  });

  it('has no rate where nothing was due, and refuses a period that ends before it begins', () => {
    expect(completeness(march({ since: '2026-03-20' })).whole).toMatchObject({ due: 0, rate: null });
    expect(() => completeness(march({ to: '2026-02-28' }))).toThrow(
      'completeness: to is 2026-02-28, before from',
    );
  });
});
