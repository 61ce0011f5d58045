import { describe, expect, it } from 'vitest';
import { publishedLimits2017 } from '../../../src/core/index.ts';
import { publishedSentence, seriesWords } from '../../../src/views/charting/describeSeries.ts';
import { runScale } from '../../../src/views/charting/runScale.ts';
import { seriesHeading } from '../../../src/views/charting/seriesHeading.ts';
import { seriesOf } from '../charts/chart.ts';
import {
  dlcoSeries,
  entry,
  runEntry,
  runId,
  steadyVa,
  vaSeries,
  week,
  weeklyRuns,
} from '../charts/madeUpLogbook.ts';

function wordsOf(entries: Parameters<typeof seriesOf>[0]) {
  return seriesWords({ ...seriesOf(entries), failureIsOpen: false });
}

describe('publishedSentence', () => {
  const reading = { vaL: 3, vaReportedAs: 'BTPS', dlco: 0, dlcoUnit: 'mmol/min/kPa' } as const;
  const publishedOf = (series: typeof vaSeries) => {
    const [run] = seriesOf([runEntry({ id: runId(0), at: week(0), vaL: 3, change: { reading } })], {
      series,
    }).items;
    if (!run?.published) throw new Error('the made-up series has no run with a published limit');
    return { ...run.published, edition: run.run.body.limits.edition };
  };

  // ERS congress poster, 52 weekly simulations (channel.ersnet.org, item 160623): VA mean 3.117, SD 0.036 L.
  it('says of the published VA series that ±0.3 L stands 11.6 SD below and 5.1 SD above', () => {
    const own = { mean: 3.117, sd: 0.036 };
    expect(publishedSentence(publishedOf(vaSeries), runScale('va', 'mL/min/mmHg'), { own })).toBe(
      'Published 2.700 and 3.300 L stand 11.6 SD below and 5.1 SD above this mean.',
    );
  });

  // The same poster: DLCO mean −0.013, SD 0.078 mmol/min/kPa.
  it('says of the published DLCO series that ±0.166 stands 2.0 SD below and 2.3 SD above', () => {
    const own = { mean: -0.013, sd: 0.078 };
    expect(publishedSentence(publishedOf(dlcoSeries), runScale('dlco', 'mmol/min/kPa'), { own })).toBe(
      'Published −0.166 and 0.166 mmol/min/kPa stand 2.0 SD below and 2.3 SD above this mean.',
    );
  });

  it('says so when a limit lies on the far side of the mean', () => {
    const own = { mean: 3.4, sd: 0.05 };
    expect(publishedSentence(publishedOf(vaSeries), runScale('va', 'mL/min/mmHg'), { own })).toContain(
      '14.0 SD below and 2.0 SD below',
    );
  });

  it('names the edition while there is no mean to measure from', () => {
    expect(publishedSentence(publishedOf(vaSeries), runScale('va', 'mL/min/mmHg'), { own: null })).toBe(
      `Published 2.700 and 3.300 L (${publishedLimits2017.edition}).`,
    );
  });
});

describe('seriesWords', () => {
  it('gives n, mean and SD once there are own limits', () => {
    const { figures, missing } = wordsOf(weeklyRuns(steadyVa));
    expect(figures).toEqual([
      { name: 'n', value: '20', unit: '' },
      { name: 'mean', value: '3.000', unit: 'L' },
      { name: 'SD', value: '0.0189', unit: 'L' },
    ]);
    expect(missing).toBe('');
  });

  it('counts towards the baseline', () => {
    expect(wordsOf(weeklyRuns(steadyVa.slice(0, 7))).missing).toMatch(/^7 of 10 runs\./);
  });

  it('asks about runs that are all alike', () => {
    expect(wordsOf(weeklyRuns(new Array<number>(12).fill(3))).missing).toMatch(
      /^The 12 accepted runs are all alike/,
    );
  });

  it('describes the chart for those who do not see it', () => {
    const voided = entry('run-voided', { runId: runId(3), reason: 'Typed twice' }, week(30));
    const { description } = wordsOf([...weeklyRuns([...steadyVa, 3.1]), voided]);
    expect(description).toContain('21 runs from 6 Jan 2025 to 26 May 2025, 1 of them voided.');
    expect(description).toContain('Last: 3.100 L, z +');
    expect(description).toContain(', fail. 1 run with a signal.');
    expect(description).toContain('Own 3 SD limits');
  });
});

describe('seriesHeading', () => {
  it('names quantity, analyzer and route', () => {
    expect(seriesHeading(vaSeries, 'Room 2')).toBe('VA, Room 2, patient test');
    expect(seriesHeading({ ...dlcoSeries, route: 'built-in' }, 'Room 2')).toBe(
      'DLCO, Room 2, built-in routine',
    );
  });
});
