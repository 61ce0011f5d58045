import { describe, expect, it } from 'vitest';
import type { Entry } from '../../../src/journal/entries.ts';
import { buildMemoryPanels } from '../../../src/views/charting/buildMemoryPanels.ts';
import { seriesOf } from '../charts/chart.ts';
import { analyzerId, entry, instant, runId, steadyVa, week, weeklyRuns } from '../charts/madeUpLogbook.ts';
import { policyWith } from '../settingDrafts.ts';

const all = { from: week(-1), to: week(99) };

function panelsOf(entries: readonly Entry[], span = all) {
  return buildMemoryPanels(seriesOf(entries), span);
}

const policyFrom = (from: number, changes: Parameters<typeof policyWith>[0]) =>
  entry(
    'policy-set',
    {
      policyId: `policy-${from}`,
      analyzerId,
      policy: policyWith(changes),
      from: instant(from),
      reason: 'Decided at the quality meeting',
    },
    from,
  );

describe('EWMA and CUSUM below the chart', () => {
  it('are none before own limits judge', () => {
    expect(panelsOf(weeklyRuns(steadyVa.slice(0, 9)))).toEqual([]);
  });

  it('have the limits of the policy: 2.86 · √(0.2 / 1.8) = 0.9533 SD, and 4.77 SD', () => {
    const [ewma, cusum] = panelsOf(weeklyRuns(steadyVa));
    expect(ewma?.limits).toMatchObject([{ from: week(10), to: all.to }]);
    expect(ewma?.limits[0]?.level).toBeCloseTo(0.9533, 4);
    expect(cusum?.limits.map(({ level }) => level)).toEqual([4.77]);
    expect(ewma?.limitText).toBe('limit 0.95');
  });

  it('draw the sums of both directions apart, and mark where a rule fired', () => {
    const [ewma, cusum] = panelsOf(weeklyRuns([...steadyVa, 3.03, 3.03, 3.03, 3.03, 3.03, 3.03]));
    // 0.03 L / 0.0189181 L = 1.586 SD a run: by hand from E = 0.2 z + 0.8 E and S = S + z − 0.5.
    const before = ewma?.lines[0]?.stretches[0]?.find(({ at }) => at === week(19))?.value ?? 0;
    const next = ewma?.lines[0]?.stretches[0]?.find(({ at }) => at === week(20))?.value ?? 0;
    expect(next).toBeCloseTo(0.2 * (0.03 / 0.0189181) + 0.8 * before, 4);
    expect(cusum?.lines.map(({ key }) => key)).toEqual(['cusumHigh', 'cusumLow']);
    const low = cusum?.lines[1]?.stretches.flat().map(({ value }) => value) ?? [];
    expect(Math.max(...low)).toBeLessThanOrEqual(0);
    expect(ewma?.signals.length).toBeGreaterThan(0);
    expect(ewma?.signals.at(-1)).toMatchObject({ id: runId(25), mark: 'warn' });
    expect(ewma?.words).toMatch(/^EWMA \+1\.\d\d, beyond its limit of 0\.95\.$/);
  });

  it('begin anew with a new baseline', () => {
    const start = week(19) + 1;
    const anew = entry(
      'baseline-started',
      { baselineId: 'baseline-one', analyzerId, from: instant(start), reason: 'Valve' },
      start,
    );
    const [ewma] = panelsOf([...weeklyRuns(steadyVa), anew, ...weeklyRuns(steadyVa, 20)]);
    expect(ewma?.lines[0]?.stretches).toHaveLength(2);
  });

  it('have no limit where the policy switches the rule off, and say so', () => {
    const off = policyFrom(week(15), { severity: { EWMA: 'off' } });
    const [ewma, cusum] = panelsOf([...weeklyRuns(steadyVa), off]);
    expect(ewma?.limits.at(-1)?.to).toBe(week(15));
    expect(ewma?.words).toMatch(/The policy in force does not judge by it/);
    expect(cusum?.limits.at(-1)?.to).toBe(all.to);
  });

  it('are cut to the part that is shown', () => {
    const [ewma] = panelsOf(weeklyRuns(steadyVa), { from: week(12), to: week(14) });
    expect(ewma?.lines[0]?.stretches[0]?.map(({ at }) => at)).toEqual([12, 13, 14].map(week));
    expect(panelsOf(weeklyRuns(steadyVa), { from: week(0), to: week(5) })[0]?.words).toMatch(/no judged run/);
  });
});
