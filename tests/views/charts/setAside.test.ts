import { describe, expect, it } from 'vitest';
import type { EntryBody } from '../../../src/journal/entries.ts';
import { buildRunRows } from '../../../src/views/charts/buildRunRows.ts';
import { chartOf, detailsOf, seriesOf } from './chart.ts';
import { entry, runId, steadyVa, vaSeries, week, weeklyRuns } from './madeUpLogbook.ts';

const aside = (index: number, isSetAside = true) => {
  const body: EntryBody<'run-set-aside'> = {
    runId: runId(index),
    isSetAside,
    reason: 'Trial of a new filter.',
  };
  return entry('run-set-aside', body, week(50));
};
const drawn = (entries: Parameters<typeof chartOf>[0], index: number) =>
  chartOf(entries).points.find(({ id }) => id === runId(index));

describe('a run that was set aside', () => {
  // Twelve steady runs, and one of 3.37 L, beyond every limit.
  const runs = weeklyRuns([...steadyVa.slice(0, 12), 3.37]);

  it('stands on the chart as what has no part in the mean, without a mark, and says why', () => {
    expect(drawn(runs, 12)).toMatchObject({ dot: 'filled', mark: 'fail' });
    const point = drawn([...runs, aside(12)], 12);
    expect(point).toMatchObject({ dot: 'apart', mark: null });
    expect(detailsOf(point)?.apart).toBe('Set aside, in no mean and no pattern: Trial of a new filter.');
    expect(drawn([...runs, aside(12), aside(12, false)], 12)).toMatchObject({ dot: 'filled', mark: 'fail' });
  });

  it('has a line under it in the table, with who, when and why', () => {
    const { items: listed, scale, logbook } = seriesOf([...runs, aside(12)]);
    const row = buildRunRows(listed, vaSeries.quantity, scale, logbook).find(({ id }) => id === runId(12));
    expect(row?.amended).toEqual([
      expect.stringMatching(/^Set aside by AB, 22 Dec 2025: Trial of a new filter\.$/),
    ]);
  });
});
