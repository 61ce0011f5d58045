import { describe, expect, it } from 'vitest';
import type { Entry } from '../../../src/journal/entries.ts';
import { axisView } from '../../../src/views/charting/axisView.ts';
import { beforeAfter, turnings } from '../../../src/views/charting/beforeAfter.ts';
import { seriesOf } from '../charts/chart.ts';
import { analyzerId, entry, instant, runId, steadyVa, week, weeklyRuns } from '../charts/madeUpLogbook.ts';

const event = (at: number, type: 'cylinder' | 'service' = 'cylinder') =>
  entry(
    'event-recorded',
    { eventId: `event-${at}`, analyzerId, happenedAt: instant(at), type, description: 'As planned' },
    at,
  );

function found(entries: readonly Entry[], axis: 'value' | 'z' = 'value') {
  const source = seriesOf(entries);
  const all = turnings(source.events, source.baselineStarts);
  const last = all[0];
  if (last === undefined) throw new Error('nothing happened');
  return beforeAfter(source.items, last, { others: all, view: axisView({ ...source, axis }), noun: 'run' });
}

/** 3.02 to 3.06 in turns: mean 3.040, SD 0.0158 (Python 3, statistics). */
const moved = [3.02, 3.04, 3.06, 3.03, 3.05];

describe('before and after an event', () => {
  const result = found([...weeklyRuns(steadyVa), event(week(19) + 1), ...weeklyRuns(moved, 20)]);

  it('tells mean, SD, number and days of both sides', () => {
    expect(result.before.words).toBe('mean 3.000 L, SD 0.0189 L, 20 runs, 6 Jan 2025 to 19 May 2025');
    expect(result.after.words).toBe('mean 3.040 L, SD 0.0158 L, 5 runs, 26 May 2025 to 23 Jun 2025');
  });

  // SciPy 1.17: ttest_ind(moved, steadyVa, equal_var=False).confidence_interval(0.95): 0.020615 … 0.059385.
  it('tells the difference with its interval by Welch, and whether that leaves out 0', () => {
    expect(result.difference).toBe(
      'After less before: +0.040 L, 95 % interval +0.021 to +0.059 L. The interval leaves out 0: chance alone seldom does that.',
    );
  });

  it('says where chance is enough', () => {
    const same = found([...weeklyRuns(steadyVa), event(week(9) + 1)]);
    expect(same.difference).toMatch(/The interval takes in 0: it may be chance\.$/);
  });

  it('counts a run made at the instant itself as after', () => {
    const at = found([...weeklyRuns([3, 3.01, 3.02]), event(week(1))]);
    expect([at.before.items.length, at.after.items.length]).toEqual([1, 2]);
    expect(at.difference).toMatch(/^Two runs on either side are needed/);
  });

  it('reaches back and on over twenty runs at most, and leaves voided ones out', () => {
    const voided = entry('run-voided', { runId: runId(30), reason: 'Slipped' }, week(70));
    const { before, after } = found([
      ...weeklyRuns([...steadyVa, ...steadyVa, ...steadyVa]),
      event(week(30) - 1),
      voided,
    ]);
    expect(before.items.map(({ at }) => at)).toEqual(
      Array.from({ length: 20 }, (_, index) => week(10 + index)),
    );
    expect(after.items[0]?.at).toBe(week(31));
    expect(after.items).toHaveLength(20);
  });

  it('names what else happened among these runs', () => {
    const two = found([...weeklyRuns(steadyVa), event(week(5) + 1, 'service'), event(week(9) + 1)]);
    expect(two.alsoWithin).toMatch(/Service: the difference may come from there/);
    expect(result.alsoWithin).toBe('');
  });

  it('compares on the axis of z those that have one', () => {
    const inZ = found([...weeklyRuns(steadyVa), event(week(14) + 1)], 'z');
    expect(inZ.before.items).toHaveLength(5);
    expect(inZ.difference).not.toContain(' L');
  });

  it('has no words for a side without runs but that', () => {
    const late = found([...weeklyRuns(steadyVa), event(week(30))]);
    expect(late.after).toMatchObject({ mean: null, words: 'no run' });
  });
});

describe('what can be looked before and after of', () => {
  it('is every event and new baseline, newest first', () => {
    const start = week(3) + 1;
    const anew = entry(
      'baseline-started',
      { baselineId: 'baseline-one', analyzerId, from: instant(start), reason: 'Valve' },
      start,
    );
    const { events, baselineStarts } = seriesOf([...weeklyRuns(steadyVa), event(week(2)), anew]);
    expect(turnings(events, baselineStarts).map(({ label }) => label)).toEqual([
      '27 Jan 2025: New baseline',
      '20 Jan 2025: Cylinder',
    ]);
  });
});
