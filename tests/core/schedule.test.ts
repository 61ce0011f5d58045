import { describe, expect, it } from 'vitest';
import {
  addInterval,
  type CheckHistory,
  type CheckPlan,
  checkDue,
  usualPlans,
} from '../../src/core/index.ts';

const source = 'Made up.';
const weekly: CheckPlan = { kind: 'simulation', every: { unit: 'days', count: 7 }, announceDays: 1, source };
const yearly: CheckPlan = {
  kind: 'syringe-leak',
  every: { unit: 'months', count: 12 },
  announceDays: 30,
  source,
};
const expiry: CheckPlan = { kind: 'cylinder-expiry', every: null, announceDays: 30, source };
const at = (instant: string) => Date.parse(instant);
const history = (change: Partial<CheckHistory> = {}): CheckHistory => ({
  plan: weekly,
  since: '2026-01-01',
  // Monday 2 March 2026.
  lastDoneAt: at('2026-03-02T08:00:00Z'),
  pauses: [],
  ...change,
});
const stateOn = (date: string, change: Partial<CheckHistory> = {}) =>
  checkDue(history(change), at(`${date}T12:00:00Z`), 'UTC');

describe('addInterval', () => {
  it('counts days one by one, and months by their number', () => {
    expect(addInterval('2026-02-27', { unit: 'days', count: 7 })).toBe('2026-03-06');
    expect(addInterval('2026-01-31', { unit: 'months', count: 1 })).toBe('2026-02-28');
    expect(() => addInterval('2026-02-30', { unit: 'days', count: 1 })).toThrow(RangeError);
  });
});

describe('checkDue', () => {
  it('counts down to a weekly check and up from it', () => {
    expect(stateOn('2026-03-07')).toEqual({
      kind: 'simulation',
      state: 'later',
      dueOn: '2026-03-09',
      daysOverdue: 0,
    });
    expect(stateOn('2026-03-08').state).toBe('soon');
    expect(stateOn('2026-03-09').state).toBe('today');
    expect(stateOn('2026-03-10')).toMatchObject({ state: 'overdue', daysOverdue: 1 });
    expect(stateOn('2026-03-16')).toMatchObject({ state: 'overdue', daysOverdue: 7 });
  });

  it.each([
    // Clocks go forward on 29 March 2026 in Berlin, on 8 March in New York; back on 25 October and 1 November.
    ['Europe/Berlin', '2026-03-26T22:30:00Z', '2026-04-02'],
    ['Europe/Berlin', '2026-10-22T21:30:00Z', '2026-10-29'],
    ['America/New_York', '2026-03-06T04:30:00Z', '2026-03-12'],
    ['America/New_York', '2026-10-31T03:30:00Z', '2026-11-06'],
  ])('keeps the weekday in %s across a change of clocks', (zone, lastDone, dueOn) => {
    expect(checkDue(history({ lastDoneAt: at(lastDone) }), at(lastDone), zone).dueOn).toBe(dueOn);
  });

  it('is due by the date on the wall, not by hours', () => {
    // Done late on Monday evening, due on the next Monday from its first minute on.
    const late = history({ lastDoneAt: at('2026-03-02T22:59:00Z') });
    expect(checkDue(late, at('2026-03-08T23:01:00Z'), 'Europe/Berlin').state).toBe('today');
  });

  it("of a yearly check ends at the month's end", () => {
    expect(stateOn('2028-03-01', { plan: yearly, lastDoneAt: at('2028-02-29T12:00:00Z') }).dueOn).toBe(
      '2029-02-28',
    );
  });

  it('that was never done is due on the day the equipment came into service', () => {
    expect(stateOn('2026-03-02', { lastDoneAt: null, since: '2026-03-02' }).state).toBe('today');
    expect(stateOn('2026-03-04', { lastDoneAt: null, since: '2026-03-02' })).toMatchObject({
      state: 'overdue',
      daysOverdue: 2,
    });
  });

  it('is not applicable before service begins and after it ends', () => {
    expect(stateOn('2026-03-01', { since: '2026-03-02' }).state).toBe('not-applicable');
    expect(stateOn('2026-03-20', { retiredOn: '2026-03-20' })).toMatchObject({
      state: 'not-applicable',
      dueOn: null,
    });
    expect(stateOn('2026-03-09', { retiredOn: '2026-03-20' }).state).toBe('today');
  });

  describe('with a pause', () => {
    const pauses = [{ from: '2026-03-05', until: '2026-03-20' }];

    it('is neither due nor overdue while it lasts', () => {
      expect(stateOn('2026-03-12', { pauses })).toEqual({
        kind: 'simulation',
        state: 'paused',
        dueOn: '2026-03-20',
        daysOverdue: 0,
      });
      expect(stateOn('2026-03-12', { pauses: [{ from: '2026-03-05', until: null }] })).toMatchObject({
        state: 'paused',
        dueOn: null,
      });
    });

    it('is due on the day of return', () => {
      expect(stateOn('2026-03-20', { pauses }).state).toBe('today');
      expect(stateOn('2026-03-21', { pauses })).toMatchObject({ state: 'overdue', daysOverdue: 1 });
    });

    it('does not count its days when it was overdue before', () => {
      const later = [{ from: '2026-03-11', until: '2026-03-20' }];
      // Due on the 9th; in service on the 10th, 20th and 21st.
      expect(stateOn('2026-03-21', { pauses: later })).toMatchObject({
        state: 'overdue',
        dueOn: '2026-03-09',
        daysOverdue: 3,
      });
    });

    it('does not count a day twice that two of them share, whatever order they come in', () => {
      const long = { from: '2026-03-12', until: '2026-03-22' };
      const within = { from: '2026-03-14', until: '2026-03-16' };
      const across = { from: '2026-03-20', until: '2026-03-24' };
      const none = { from: '2026-03-26', until: '2026-03-26' };
      // Due on the 9th; of the 19 days from the 10th to the 28th, the 12 from the 12th to the 23rd are paused.
      for (const pauses of [
        [long, within, across, none],
        [none, across, within, long],
      ]) {
        expect(stateOn('2026-03-28', { pauses }).daysOverdue).toBe(7);
      }
    });

    it('goes over into another that follows at once', () => {
      const two = [{ from: '2026-03-20', until: '2026-03-25' }, ...pauses];
      expect(stateOn('2026-03-25', { pauses: two })).toMatchObject({ state: 'today', dueOn: '2026-03-25' });
    });

    it('that is over before the check is due changes nothing', () => {
      expect(stateOn('2026-03-09', { pauses: [{ from: '2026-03-03', until: '2026-03-06' }] }).state).toBe(
        'today',
      );
    });
  });

  describe('with a date that was typed', () => {
    it('is due by that date, whatever the interval says', () => {
      expect(stateOn('2026-03-20', { dueOn: '2026-04-30' })).toMatchObject({
        state: 'later',
        dueOn: '2026-04-30',
      });
      expect(stateOn('2026-03-04', { dueOn: '2026-03-03' })).toMatchObject({
        state: 'overdue',
        daysOverdue: 1,
      });
      expect(stateOn('2026-03-09', { dueOn: null }).state).toBe('today');
    });

    it('is good through the day of its expiry, and announced before', () => {
      const cylinder = { plan: expiry, lastDoneAt: null, dueOn: '2026-03-31' };
      expect(stateOn('2026-02-28', cylinder).state).toBe('later');
      expect(stateOn('2026-03-01', cylinder).state).toBe('soon');
      expect(stateOn('2026-03-31', cylinder).state).toBe('today');
      expect(stateOn('2026-04-01', cylinder)).toMatchObject({ state: 'overdue', daysOverdue: 1 });
    });

    it('without one and without an interval is not applicable', () => {
      const undated = { plan: expiry, lastDoneAt: at('2026-03-02T08:00:00Z') };
      expect(stateOn('2026-03-09', undated)).toMatchObject({ state: 'not-applicable', dueOn: null });
    });

    it('from before service began is overdue by the days in service only', () => {
      const late = { dueOn: '2026-01-10', since: '2026-03-01' };
      expect(stateOn('2026-03-01', late)).toMatchObject({ dueOn: '2026-01-10', daysOverdue: 1 });
      expect(stateOn('2026-03-03', late).daysOverdue).toBe(3);
    });
  });

  // ATS laboratory manual, 3rd edition: leak and stop of a syringe are checked after any drop.
  describe('after something that makes it due at once', () => {
    const dropped = { plan: yearly, dueAtOnceSince: at('2026-05-04T10:00:00Z') };

    it('is due on that day, and overdue from the next', () => {
      expect(stateOn('2026-05-04', dropped)).toMatchObject({ state: 'today', dueOn: '2026-05-04' });
      expect(stateOn('2026-05-06', dropped)).toMatchObject({ state: 'overdue', daysOverdue: 2 });
    });

    it('is not, once it was done later', () => {
      const doneAt = (time: string) => ({ ...dropped, lastDoneAt: at(`2026-05-04T${time}Z`) });
      expect(stateOn('2026-05-06', doneAt('10:01:00')).dueOn).toBe('2027-05-04');
      // At the same minute nobody knows which came first.
      expect(stateOn('2026-05-06', doneAt('10:00:00')).dueOn).toBe('2026-05-04');
    });

    it('stays due since it was, when it was overdue before', () => {
      const overdue = { ...dropped, lastDoneAt: at('2025-03-02T08:00:00Z') };
      expect(stateOn('2026-05-06', overdue).dueOn).toBe('2026-03-02');
    });

    it('is due although a certificate runs longer, and without any interval', () => {
      expect(stateOn('2026-05-04', { ...dropped, dueOn: '2026-12-31' }).state).toBe('today');
      expect(stateOn('2026-05-04', { ...dropped, plan: expiry }).state).toBe('today');
    });

    it('waits, out of service, for the day of return', () => {
      const pauses = [{ from: '2026-05-04', until: '2026-05-20' }];
      expect(stateOn('2026-05-06', { ...dropped, pauses })).toMatchObject({
        state: 'paused',
        dueOn: '2026-05-20',
      });
    });
  });

  it('refuses what cannot be', () => {
    expect(() => stateOn('2026-03-09', { dueOn: '2026-02-30' })).toThrow(/date is 2026-02-30/);
    expect(() => stateOn('2026-03-09', { dueAtOnceSince: Number.NaN })).toThrow(/at is NaN ms/);
    expect(() => stateOn('2026-03-09', { pauses: [{ from: '2026-03-05', until: '2026-03-04' }] })).toThrow(
      /until 2026-03-04/,
    );
    expect(() => stateOn('2026-03-09', { plan: { ...weekly, every: { unit: 'days', count: 0 } } })).toThrow(
      /count is 0 days/,
    );
    expect(() => stateOn('2026-03-09', { plan: { ...weekly, announceDays: -1 } })).toThrow(
      /announceDays is -1 days/,
    );
    expect(() => stateOn('2026-03-09', { since: 'March' })).toThrow(/date is March/);
    expect(() => checkDue(history(), Number.NaN, 'UTC')).toThrow(/at is NaN ms/);
    expect(() => checkDue(history(), 0, 'Nowhere/Such')).toThrow(RangeError);
  });
});

describe('usualPlans', () => {
  it('has every kind of check once, the simulation weekly and the volume check daily', () => {
    // ERS/ATS 2017 equipment table; ATS laboratory manual, 3rd edition.
    expect(new Set(usualPlans.map(({ kind }) => kind)).size).toBe(usualPlans.length);
    expect(usualPlans.find(({ kind }) => kind === 'simulation')?.every).toEqual({ unit: 'days', count: 7 });
    expect(usualPlans.find(({ kind }) => kind === 'volume-check')?.every).toEqual({ unit: 'days', count: 1 });
  });

  it('says of each where it comes from, and of what has no source that it has none', () => {
    const unsourced = usualPlans.filter(({ source: words }) => words.includes('common practice, no source'));
    expect(unsourced.map(({ kind }) => kind)).toEqual([
      'linearity',
      'biological-control',
      'simulator',
      'syringe-calibration',
      'barometer',
      'cylinder-expiry',
    ]);
    const published = usualPlans.filter((plan) => !unsourced.includes(plan));
    for (const { source: words } of published)
      expect(words).toMatch(/ERS\/ATS standard 2017|ATS laboratory manual/);
  });

  it('has no interval for what expires by its own date alone', () => {
    const withoutInterval = usualPlans.filter(({ every }) => every === null);
    expect(withoutInterval.map(({ kind }) => kind)).toEqual(['cylinder-expiry']);
  });
});
