import { sampleStandardDeviation, mean as statisticsMean } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { countVerdicts, summarizeSeries } from '../../src/core/index.ts';
import { posterSeries } from '../reference/controlCharts.ts';
import { steadyBaseline } from './seriesFixtures.ts';

describe('countVerdicts', () => {
  it('counts a warned run as judged but not as passed, and one without a verdict as neither', () => {
    expect(countVerdicts(['pass', 'pass', 'warn', 'fail', null])).toEqual({
      passed: 2,
      warned: 1,
      failed: 1,
      notJudged: 1,
      passRate: 0.5,
    });
  });

  it('has no rate of none', () => {
    expect(countVerdicts([]).passRate).toBeNull();
    expect(countVerdicts([null, null])).toMatchObject({ notJudged: 2, passRate: null });
  });
});

describe('summarizeSeries', () => {
  it('lays the published VA limits at −11.6 and +5.1 SD of a published year', () => {
    // ERS congress poster, item 160623: VA mean 3.117, SD 0.036 L; 3 ± 0.3 L.
    const year = summarizeSeries(steadyBaseline(posterSeries.mean, posterSeries.sd), { low: 2.7, high: 3.3 });
    expect(year.lowLimitSd).toBeCloseTo(-11.6, 1);
    expect(year.highLimitSd).toBeCloseTo(5.1, 1);
    // By hand: 0.036/3.117.
    expect(year.cv).toBeCloseTo(0.01155, 5);
  });

  it('lays the published DLCO limits at −2.0 and +2.3 SD of the same year', () => {
    // The same: DLCO mean −0.013, SD 0.078 mmol/min/kPa; ±0.166.
    const year = summarizeSeries(steadyBaseline(-0.013, 0.078), { low: -0.166, high: 0.166 });
    expect(year.lowLimitSd).toBeCloseTo(-2, 1);
    expect(year.highLimitSd).toBeCloseTo(2.3, 1);
    expect(year.cv).toBeNull();
  });

  it('has mean and SD as simple-statistics does', () => {
    const values = Object.freeze([24.1, 25.3, 23.9, 26.2, 25.0]);
    const { n, mean, sd } = summarizeSeries(values);
    expect(n).toBe(5);
    expect(mean).toBeCloseTo(statisticsMean([...values]), 12);
    expect(sd).toBeCloseTo(sampleStandardDeviation([...values]), 12);
  });

  it('says null where there is nothing to say', () => {
    const limits = { low: 2.7, high: 3.3 };
    const none = { lowLimitSd: null, highLimitSd: null };
    expect(summarizeSeries([], limits)).toEqual({ n: 0, mean: null, sd: null, cv: null, ...none });
    expect(summarizeSeries([3.1], limits)).toEqual({ n: 1, mean: 3.1, sd: null, cv: null, ...none });
    expect(summarizeSeries([3.1, 3.1], limits)).toEqual({ n: 2, mean: 3.1, sd: 0, cv: 0, ...none });
  });

  it('refuses what is no number', () => {
    expect(() => summarizeSeries([3.1, Number.NaN])).toThrow(/values\[1\] is NaN/);
    expect(() => summarizeSeries([3.1, 3], { low: Number.NaN, high: 3.3 })).toThrow(
      /summarizeSeries: published/,
    );
  });
});
