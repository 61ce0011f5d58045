import { describe, expect, it } from 'vitest';
import { buildStrip } from '../../../src/views/charting/buildStrip.ts';
import { cutLine, cutSpans } from '../../../src/views/charting/cutToWindow.ts';
import { shownSentence } from '../../../src/views/charting/describeSeries.ts';
import { idsBehind, signalChoices, signalStories } from '../../../src/views/charting/signalsShown.ts';
import { chartOf, detailsOf, seriesOf } from '../charts/chart.ts';
import {
  analyzerId,
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

describe('lines cut to the part that is shown', () => {
  const line = [0, 10, 20].map((at) => ({ at, value: at * 2 }));

  it('go on to the edges with the value they have there', () => {
    expect(cutLine(line, { from: 5, to: 15 })).toEqual([
      { at: 5, value: 10 },
      { at: 10, value: 20 },
      { at: 15, value: 30 },
    ]);
    expect(cutLine(line, { from: 12, to: 14 })).toEqual([
      { at: 12, value: 24 },
      { at: 14, value: 28 },
    ]);
    expect(cutLine(line, { from: 0, to: 20 })).toEqual(line);
    expect(cutLine(line, { from: 30, to: 40 })).toEqual([]);
  });

  it('leave out steps beyond the edges', () => {
    const steps = [
      { from: 0, to: 10, level: 1 },
      { from: 10, to: 20, level: 2 },
    ];
    expect(cutSpans(steps, { from: 12, to: 30 })).toEqual([{ from: 12, to: 20, level: 2 }]);
  });
});

describe('a chart of z', () => {
  it('has its limits at ±2 and ±3 and its mean at 0', () => {
    const chart = chartOf(weeklyRuns([...steadyVa, 3.05]), { axis: 'z' });
    expect(chart.limits).toHaveLength(1);
    expect(chart.limits[0]).toMatchObject({ mean: 0, low3: -3, low2: -2, high2: 2, high3: 3 });
    expect(chart.points.at(-1)?.value).toBeCloseTo(0.05 / 0.0189181, 4);
    expect(chart.names.map(({ text }) => text)).toEqual(['+3.0', '0.0', '−3.0']);
    expect([...chart.valueTicks.values()]).toContain('+2');
  });

  it('says how many runs no own limits judged', () => {
    const chart = chartOf(weeklyRuns(steadyVa), { axis: 'z' });
    expect([chart.itemCount, chart.offAxis, chart.points.length]).toEqual([20, 10, 10]);
    expect(shownSentence(chart)).toMatch(/10 runs have no z and cannot stand on it/);
  });

  it('shows the published limits as far away as they were: 0.3 L / 0.0189181 L = 15.9 SD', () => {
    expect(chartOf(weeklyRuns(steadyVa), { axis: 'z' }).outside[0]?.text).toBe('published 15.9 SD away');
    const { rails } = chartOf(weeklyRuns(steadyVa), { axis: 'z', showPublished: true });
    expect(rails.at(-1)?.high).toBeCloseTo(0.3 / 0.0189181, 2);
  });

  it('has no runs where there are no own limits', () => {
    const chart = chartOf(weeklyRuns(steadyVa.slice(0, 3)), { axis: 'z' });
    expect(chart.points).toEqual([]);
    expect(chart.limits).toEqual([]);
  });
});

describe('a chart of part of the time', () => {
  const entries = weeklyRuns([...steadyVa, ...steadyVa, 3.1]);
  const part = { from: week(30) - 1, to: week(35) + 1 };
  const chart = chartOf(entries, { window: part });

  it('has the runs, the axis and the lines of that part', () => {
    expect(chart.points.map(({ id }) => id)).toEqual([30, 31, 32, 33, 34, 35].map(runId));
    expect([chart.from, chart.to]).toEqual([part.from, part.to]);
    expect(chart.stretches[0]).toHaveLength(8);
    expect(chart.valueAxis.to).toBeLessThan(3.1);
    expect(shownSentence(chart)).toMatch(/^Shown: .*, 6 runs\.$/);
  });

  it('names the limits of its own end', () => {
    expect(chart.names.map(({ key }) => key)).toEqual(['high3', 'mean', 'low3']);
    const early = chartOf(entries, { window: { from: week(0), to: week(5) } });
    expect(early.limits).toEqual([]);
    expect(early.names.map(({ key }) => key)).toEqual(['published-high', 'published-low']);
  });

  it('may hold no run at all', () => {
    const gap = chartOf([...weeklyRuns(steadyVa), runEntry({ id: runId(80), at: week(80), vaL: 3 })], {
      window: { from: week(40), to: week(50) },
    });
    expect(gap.points).toEqual([]);
    expect(gap.limits).toHaveLength(1);
    expect(gap.stretches[0]).toHaveLength(2);
  });
});

describe('a run that a failure kept out of the statistics', () => {
  it('is drawn and told apart', () => {
    const chart = chartOf(weeklyRuns([...steadyVa, 3.1, 3.0]));
    const last = chart.points.at(-1);
    expect(last?.dot).toBe('apart');
    expect(detailsOf(last)?.apart).toMatch(/a failure was open/);
    expect(detailsOf(chart.points[0])?.apart).toBe('');
  });
});

describe('the runs behind a signal', () => {
  const { items: runs } = seriesOf(weeklyRuns([...steadyVa, 3.045, 3.045]));
  const last = runs.at(-1);

  it('are named by the run that it fired at, and have places on the chart', () => {
    if (last === undefined) throw new Error('no runs');
    expect(idsBehind(last)).toEqual([runId(21), runId(20)]);
    expect(signalStories(last, 'run').map(({ rule, ids }) => [rule, ids])).toEqual([
      ['1-2s', [runId(21)]],
      ['2-2s', [runId(20), runId(21)]],
    ]);
    const { places } = chartOf(weeklyRuns([...steadyVa, 3.045, 3.045]));
    expect([...places.keys()]).toEqual([runId(20), runId(21)]);
  });

  it('are offered newest first, those of the part shown alone', () => {
    const all = { from: week(0), to: week(99) };
    expect(signalChoices(runs, all).choices.map(({ value }) => value)).toEqual([runId(21), runId(20)]);
    expect(signalChoices(runs, { from: week(0), to: week(20) }).choices.map(({ value }) => value)).toEqual([
      runId(20),
    ]);
  });

  it('are offered for the newest two hundred, and counted for all', () => {
    const outlying = Array.from({ length: 250 }, (_, index) => (index % 2 === 0 ? 3.2 : 2.8));
    const { items: many } = seriesOf(weeklyRuns([...steadyVa, ...outlying]));
    const offered = signalChoices(many, { from: week(0), to: week(999) });
    expect(offered.count).toBe(250);
    expect(offered.choices).toHaveLength(200);
    expect(offered.choices[0]?.value).toBe(runId(269));
  });

  it('are none where the run was voided', () => {
    const voided = entry('run-voided', { runId: runId(20), reason: 'Slipped' }, week(30));
    const { items: kept } = seriesOf([...weeklyRuns([...steadyVa, 3.2]), voided]);
    expect(signalChoices(kept, { from: week(0), to: week(99) })).toEqual({ count: 0, choices: [] });
  });
});

describe('buildStrip', () => {
  const run = (at: number, value: number) => ({ at, value, voided: null });

  it('draws the outline of many runs, every extreme among them', () => {
    const runs = Array.from({ length: 5000 }, (_, index) => run(index, index === 2345 ? 9 : index % 2));
    const { path } = buildStrip(runs, [], { from: 0, to: 5000 });
    // The highest value stands at 10 of 100: 90 − 80.
    expect(path).toContain('469.0 10.0');
    expect(path.split('L').length).toBeLessThanOrEqual(500);
  });

  it('leaves voided runs out and has no line for none', () => {
    const voided = { at: 5, value: 99, voided: {} };
    expect(buildStrip([voided], [], { from: 0, to: 10 }).path).toBe('');
    expect(buildStrip([run(0, 1), voided, run(10, 2)], [], { from: 0, to: 10 }).path).toBe(
      'M0.0 90.0L1000.0 10.0',
    );
  });

  it('shows where a failure was open', () => {
    const failure = { id: 'f', from: 2, to: 5, open: false, word: 'failure' };
    expect(buildStrip([run(0, 1)], [failure], { from: 0, to: 10 }).failures).toEqual([
      { key: 'f', left: 0.2, width: 0.3 },
    ]);
  });
});

describe('a chart of more runs than paper shows', () => {
  const many = weeklyRuns(
    Array.from({ length: 1500 }, (_, index) => (index === 700 ? 3.2 : (steadyVa[index % 20] ?? 3))),
  );
  const chart = chartOf(many);

  it('draws a thousand at most, the signal among them, and says so', () => {
    expect(chart.points.length).toBeLessThanOrEqual(1000);
    expect(chart.points.find(({ id }) => id === runId(700))?.mark).toBe('fail');
    expect(shownSentence(chart)).toMatch(/of 1500 runs are drawn, every signal and extreme among them/);
  });

  it('keeps every step of the limits, though not every run', () => {
    const rolling = entry(
      'policy-set',
      {
        policyId: 'policy-rolling',
        analyzerId,
        policy: policyWith({ limits: 'rolling' }),
        from: instant(week(0)),
        reason: 'Decided at the quality meeting',
      },
      week(0),
    );
    // No two neighbours alike, so that the limits move with every run.
    const values = Array.from({ length: 1500 }, (_, index) => 3 + Math.sin(index * index) / 50);
    const { points, limits, to } = chartOf([...weeklyRuns(values), rolling]);
    expect(points.length).toBeLessThanOrEqual(1000);
    expect(limits).toHaveLength(1490 + 1);
    expect(limits.at(-1)?.to).toBe(to);
  });

  it('draws every run of a part that is small enough', () => {
    const part = chartOf(many, { window: { from: week(100), to: week(100) + 200 * weekMs } });
    expect(part.points).toHaveLength(201);
  });
});
