import { describe, expect, it } from 'vitest';
import { publishedLimits2017 } from '../../../src/core/index.ts';
import type { Entry } from '../../../src/journal/entries.ts';
import { chartOf, detailsOf } from '../charts/chart.ts';
import {
  analyzerId,
  dlcoSeries,
  entry,
  instant,
  runEntry,
  runId,
  steadyVa,
  week,
  weeklyRuns,
  weekMs,
} from '../charts/madeUpLogbook.ts';
import { policyWith } from '../settingDrafts.ts';

const event = (at: number, description = 'New cylinder') =>
  entry(
    'event-recorded',
    { eventId: `event-${at}`, analyzerId, happenedAt: instant(at), type: 'cylinder', description },
    at,
  );
const baseline = (at: number) =>
  entry(
    'baseline-started',
    { baselineId: `baseline-${at}`, analyzerId, from: instant(at), reason: 'Valve' },
    at,
  );
const voiding = (run: string, at: number) =>
  entry('run-voided', { runId: run, reason: 'Syringe slipped' }, at);
const closure = (openedByRunId: string, at: number) =>
  entry(
    'failure-closed',
    {
      closureId: `closure-${at}`,
      analyzerId,
      failures: [{ method: 'syringe', route: 'patient-test', quantity: 'va', openedByRunId }],
      closedAt: instant(at),
      reason: 'Valve replaced, two passing runs',
      correctiveAction: 'Valve',
      signature: null,
    },
    at,
  );

const policyFrom = (from: number, changes: Parameters<typeof policyWith>[0]) => ({
  policyId: `policy-${from}`,
  analyzerId,
  policy: policyWith(changes),
  from: instant(from),
  reason: 'Decided at the quality meeting',
});

/** Twenty steady runs, then three at 3.10 L: 5.3 SD above the mean, the first of which opens a failure. */
const drifted: readonly Entry[] = weeklyRuns([...steadyVa, 3.1, 3.1, 3.1]);

describe('buildControlChart, before a baseline', () => {
  it('refuses a series without runs', () => {
    expect(() => chartOf([])).toThrow(RangeError);
  });

  it('shows one run as an open dot between the published limits', () => {
    const chart = chartOf(weeklyRuns([3.02]));
    expect(chart.points).toMatchObject([
      { value: 3.02, drawnAt: 3.02, dot: 'open', mark: null, label: null },
    ]);
    expect(chart.limits).toEqual([]);
    expect(chart.names.map(({ key, text }) => [key, text])).toEqual([
      ['published-high', '3.300'],
      ['published-low', '2.700'],
    ]);
    expect(chart.outside).toEqual([]);
    expect(chart.publishedCanBeOutside).toBe(false);
    expect(chart.from).toBeLessThan(week(0));
    expect(chart.to).toBeGreaterThan(week(0));
  });

  it('has no own limits while nine runs are there, and those of the next run once ten are', () => {
    expect(chartOf(weeklyRuns(steadyVa.slice(0, 9))).limits).toEqual([]);
    const [step, ...others] = chartOf(weeklyRuns(steadyVa.slice(0, 10))).limits;
    expect(others).toEqual([]);
    expect(step?.from).toBe(week(9));
    expect(step?.mean).toBeCloseTo(3.0, 9);
    expect(step?.sd).toBeCloseTo(0.0194365, 6); // Python 3, statistics.stdev of the first ten
  });

  it('marks a breached published limit by name although no rule can judge', () => {
    const [point] = chartOf(weeklyRuns([3.4])).points;
    expect(point).toMatchObject({ mark: 'fail', label: 'published limit', dot: 'open' });
  });
});

describe('buildControlChart, own limits', () => {
  it('steps with every run until the baseline is full, then stays', () => {
    const { limits, to } = chartOf(weeklyRuns([...steadyVa, ...steadyVa.slice(0, 5)]));
    expect(limits.map(({ from }) => (from - week(0)) / weekMs)).toEqual([
      9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19,
    ]);
    const last = limits.at(-1);
    expect(last?.to).toBe(to);
    expect(last?.mean).toBeCloseTo(3.0, 9);
    expect(last?.sd).toBeCloseTo(0.0189181, 6); // Python 3, statistics.stdev of all twenty
    expect(last?.high3).toBeCloseTo(3.0 + 3 * 0.0189181, 6);
    expect(last?.low2).toBeCloseTo(3.0 - 2 * 0.0189181, 6);
  });

  // t(n − 1; 1 − α/2)·√(1 + 1/n) for α/2 = 0.00135: 4.294 at n = 10, 3.532 at n = 20 (scipy and R agree).
  it('stand as wide as the policy of their run has it, and are named by that', () => {
    const widenedFrom = (from: number) =>
      entry('policy-set', policyFrom(from, { smallSample: true }), week(0));
    const early = chartOf([...weeklyRuns(steadyVa.slice(0, 10)), widenedFrom(week(0))]);
    expect(early.limits.at(-1)?.high3).toBeCloseTo(3.0 + 4.294 * 0.0194365, 4);
    expect(early.names.find(({ key }) => key === 'high3')?.name).toBe('+4.3 SD');

    const late = chartOf([...weeklyRuns([...steadyVa, 3, 3]), widenedFrom(week(20) + 1)]);
    const high3At = (index: number) => late.limits.find(({ to }) => to >= week(index))?.high3;
    expect(high3At(20)).toBeCloseTo(3.0 + 3 * 0.0189181, 6);
    expect(high3At(21)).toBeCloseTo(3.0 + 3.532 * 0.0189181, 4);
  });

  it('begin with as many runs as the policy has it', () => {
    const policy = entry('policy-set', policyFrom(week(0), { minimumSize: 5 }), week(0));
    expect(chartOf([...weeklyRuns(steadyVa.slice(0, 4)), policy]).limits).toEqual([]);
    expect(chartOf([...weeklyRuns(steadyVa.slice(0, 5)), policy]).limits).toHaveLength(1);
  });

  it('leaves no gap between one step and the next of the same epoch', () => {
    const { limits } = chartOf(weeklyRuns(steadyVa));
    expect(limits.slice(1).map(({ from }) => from)).toEqual(limits.slice(0, -1).map(({ to }) => to));
  });

  it('keeps real distances in time: a missed week is a gap of two weeks', () => {
    const { points, stretches } = chartOf([...weeklyRuns([3, 3.01]), ...weeklyRuns([2.99], 3)]);
    expect(points.map(({ at }) => (at - week(0)) / weekMs)).toEqual([0, 1, 3]);
    expect(stretches).toHaveLength(1);
  });

  it('starts afresh at a new baseline: no line and no limits reach across', () => {
    const start = week(15) + weekMs / 2;
    const chart = chartOf([
      ...weeklyRuns(steadyVa.slice(0, 16)),
      baseline(start),
      ...weeklyRuns(steadyVa, 16),
    ]);
    expect(chart.epochs).toEqual([{ id: `baseline-${start}`, at: start }]);
    expect(chart.stretches.map((stretch) => stretch.length)).toEqual([16, 20]);
    const across = chart.limits.filter(({ from, to }) => from < start && to > start);
    expect(across).toEqual([]);
    expect(chart.limits.find(({ from }) => from > start)?.from).toBe(week(16 + 9));
  });

  it('names no mean after a new baseline without runs', () => {
    const chart = chartOf([...weeklyRuns(steadyVa), baseline(week(20))], { now: week(21) });
    expect(chart.names.some(({ key }) => key === 'mean')).toBe(false);
    expect(chart.limits.at(-1)?.to).toBe(week(19));
    expect(chart.to).toBeGreaterThan(week(20));
  });
});

describe('buildControlChart, published limits', () => {
  it('says beyond the axis how many SD away they stand: 0.3 L / 0.0189181 L = 15.9', () => {
    const chart = chartOf(weeklyRuns(steadyVa));
    expect(chart.outside).toEqual([
      { side: 'above', text: 'published 3.300 L, 15.9 SD away' },
      { side: 'below', text: 'published 2.700 L, 15.9 SD away' },
    ]);
    expect(chart.names.map(({ key }) => key)).toEqual(['high3', 'mean', 'low3']);
    expect(chart.valueAxis.to).toBeLessThan(3.3);
    expect(chart.publishedCanBeOutside).toBe(true);
  });

  it('widens the axis to them when asked', () => {
    const chart = chartOf(weeklyRuns(steadyVa), { showPublished: true });
    expect(chart.outside).toEqual([]);
    expect(chart.valueAxis.from).toBeLessThan(2.7);
    expect(chart.valueAxis.to).toBeGreaterThan(3.3);
    expect(chart.publishedCanBeOutside).toBe(true);
  });

  it('keeps the edition of each run: the rail steps where a narrower one came into force', () => {
    const narrower = { ...publishedLimits2017, edition: 'Invented', vaToleranceL: 0.2 };
    const runs = [0, 1, 2, 3].map((index) =>
      runEntry({
        id: runId(index),
        at: week(index),
        vaL: 3,
        change: index < 2 ? {} : { limits: narrower },
      }),
    );
    const { rails, from, to } = chartOf(runs);
    expect(rails).toHaveLength(2);
    expect(rails[0]).toMatchObject({ from, to: week(1), high: 3.3 });
    expect(rails[1]).toMatchObject({ from: week(1), to, high: 3.2 });
  });

  it('draws DLCO in the unit of the last run, with that unit’s own limit', () => {
    const runs = [0, 1].map((index) =>
      runEntry({
        id: runId(index),
        at: week(index),
        vaL: 3,
        change: { reading: { vaL: 3, vaReportedAs: 'BTPS', dlco: 0.041, dlcoUnit: 'mmol/min/kPa' } },
      }),
    );
    const chart = chartOf(runs, { series: dlcoSeries });
    expect(chart.points[0]?.value).toBeCloseTo(0.041, 12);
    expect(chart.rails).toMatchObject([{ low: -0.166, high: 0.166 }]);
    expect(detailsOf(chart.points[0], 'dlco', 'mmol/min/kPa')?.value).toBe('0.041 mmol/min/kPa');
  });
});

describe('buildControlChart, signals and failures', () => {
  it('marks what fired and names what made the run fail, once while it stays the same', () => {
    const marked = chartOf(drifted).points.filter(({ mark }) => mark !== null);
    expect(marked.map(({ mark, label }) => [mark, label])).toEqual([
      ['fail', '1-3s'],
      ['fail', '1-3s 2-2s'],
      ['fail', null],
    ]);
    expect(detailsOf(marked[0])?.fired).toContain('1-2s, 1-3s');
    expect(detailsOf(marked[0])?.z).toBe('z +5.29'); // 0.1 / 0.0189181
    expect(marked[0]?.labelSide).toBe('above');
  });

  it('freezes the limits while a failure is open', () => {
    const { limits } = chartOf(drifted);
    expect(limits.at(-1)?.from).toBe(week(19));
  });

  it('draws an open failure to the edge and a closed one to its closure', () => {
    const open = chartOf(drifted);
    expect(open.failures).toEqual([
      { id: runId(20), from: week(20), to: open.to, open: true, word: 'failure open' },
    ]);
    const closedAt = week(22) + 3_600_000;
    const closed = chartOf([...drifted, closure(runId(20), closedAt)]);
    expect(closed.failures).toEqual([
      { id: runId(20), from: week(20), to: closedAt, open: false, word: 'failure' },
    ]);
  });

  it('ends a failure where a new baseline put it aside', () => {
    const start = week(22) + 3_600_000;
    const chart = chartOf([...drifted, baseline(start), ...weeklyRuns([3.1], 23)]);
    expect(chart.failures).toMatchObject([{ from: week(20), to: start, open: false }]);
  });
});

describe('buildControlChart, voided runs and events', () => {
  it('strikes a voided run, past which line and limits go', () => {
    const chart = chartOf([...weeklyRuns([...steadyVa, 3.9]), voiding(runId(20), week(21))]);
    const struck = chart.points.at(-1);
    expect(struck).toMatchObject({ dot: 'struck', mark: null, label: null, value: 3.9 });
    expect(struck?.drawnAt).toBe(chart.valueAxis.to);
    expect(detailsOf(struck)).toMatchObject({ verdict: 'Voided', note: 'Syringe slipped' });
    expect(chart.valueAxis.to).toBeLessThan(3.2);
    expect(chart.stretches.map((stretch) => stretch.length)).toEqual([20]);
    expect(chart.failures).toEqual([]);
  });

  it('still draws a series whose every run is voided', () => {
    const chart = chartOf([...weeklyRuns([3.01]), voiding(runId(0), week(1))]);
    expect(chart.points).toMatchObject([{ dot: 'struck' }]);
    expect(chart.stretches).toEqual([]);
    expect(chart.names.map(({ key }) => key)).toEqual(['published-high', 'published-low']);
  });

  it('shows events from the first run on, in time order, and reaches the one after the last run', () => {
    const late = week(8);
    const chart = chartOf([
      event(week(0) - 20 * weekMs),
      ...weeklyRuns([3, 3.01, 3.02]),
      event(late),
      event(week(1) + 1),
    ]);
    expect(chart.events.map(({ at }) => at)).toEqual([week(1) + 1, late]);
    expect(chart.events[0]).toMatchObject({ word: 'Cylinder', description: 'New cylinder' });
    expect(chart.to).toBeGreaterThan(late);
  });
});
