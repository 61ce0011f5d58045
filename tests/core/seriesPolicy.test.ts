import { describe, expect, it } from 'vitest';
import {
  type ControlPolicy,
  defaultControlPolicy,
  evaluateSeries,
  predictionFactor,
  type SeriesPoint,
} from '../../src/core/index.ts';
import { inSd, last, onlyRules, unitBaseline, unitSd, weekly } from './seriesFixtures.ts';

const noRules = onlyRules([]);

describe('a policy', () => {
  it("defaults to the trade's plain limits", () => {
    expect(defaultControlPolicy).toMatchObject({
      limits: 'baseline',
      baselineSize: 20,
      minimumSize: 10,
      smallSample: false,
    });
  });

  it('gives a rule it does not name its default severity', () => {
    const evaluation = last(
      evaluateSeries(weekly([...unitBaseline, inSd(3.5)]), { ...defaultControlPolicy, severity: {} }),
    );
    expect(evaluation.signals.map(({ rule, severity }) => `${rule} ${severity}`)).toContain('1-3s action');
    expect(evaluation.failureOpen).toBe(true);
  });

  it('turned to warnings opens no failure; turned off it fires nothing but still averages', () => {
    const points = weekly([...unitBaseline, inSd(3.5)]);
    expect(last(evaluateSeries(points, onlyRules(['1-3s'], 'warning')))).toMatchObject({
      failureOpen: false,
      accepted: true,
    });
    const silent = last(evaluateSeries(points, noRules));
    expect(silent.signals).toEqual([]);
    expect(silent.ewma).not.toBeNull();
  });

  it('with smallSample moves 2 and 3 SD to the prediction factors of the n in force, and leaves 1 SD', () => {
    const careful: ControlPolicy = { ...onlyRules(['1-2s', '1-3s', '4-1s']), smallSample: true };
    const rulesAt = (z: number, values: readonly number[] = unitBaseline) => {
      const sd = values.length === 20 ? unitSd : Math.sqrt(10 / 9);
      return last(evaluateSeries(weekly([...values, z * sd]), careful)).signals.map(({ rule }) => rule);
    };
    expect(rulesAt(predictionFactor(20, 3) + 1e-9)).toEqual(['1-2s', '1-3s']);
    expect(rulesAt(predictionFactor(20, 3) - 1e-9)).toEqual(['1-2s']);
    expect(rulesAt(predictionFactor(20, 2) - 1e-9)).toEqual([]);
    expect(rulesAt(4.2, unitBaseline.slice(0, 10))).toEqual(['1-2s']);
    expect(rulesAt(4.3, unitBaseline.slice(0, 10))).toEqual(['1-2s', '1-3s']);
    const four = weekly([...unitBaseline, 0, ...Array<number>(4).fill(inSd(1.05))]);
    expect(last(evaluateSeries(four, careful)).signals.map(({ rule }) => rule)).toEqual(['4-1s']);
  });

  it('with smallSample judges every z of a pattern by the n of the newest run', () => {
    // At n = 10, 2 SD stands at 2.433; at n = 11 at 2.373. A z of 2.4 was within on its day and counts one run later.
    const careful: ControlPolicy = { ...onlyRules(['1-2s', '2-2s']), smallSample: true };
    const ten = unitBaseline.slice(0, 10);
    const first = 2.4 * Math.sqrt(10 / 9);
    const before = evaluateSeries(weekly([...ten, first, 50]), careful);
    expect(before[10]?.signals).toEqual([]);
    expect(before[11]?.n).toBe(11);
    expect(before[11]?.signals.map(({ rule }) => rule)).toEqual(['1-2s', '2-2s']);
  });

  const impossible: readonly (readonly [string, Partial<ControlPolicy>, RegExp])[] = [
    ['a baseline of 1 run', { baselineSize: 1 }, /policy.baselineSize is 1/],
    ['a minimum beyond the baseline', { minimumSize: 21 }, /policy.minimumSize is 21/],
    ['half a run', { minimumSize: 9.5 }, /policy.minimumSize is 9.5/],
    ['a weight of 0', { ewma: { lambda: 0, limit: 2.86 } }, /policy.ewma.lambda is 0/],
    [
      'a limit that is not a number',
      { ewma: { lambda: 0.2, limit: Number.NaN } },
      /policy.ewma.limit is NaN/,
    ],
    ['a negative slack', { cusum: { slack: -0.5, decision: 5 } }, /policy.cusum.slack is -0.5/],
    [
      'an infinite decision',
      { cusum: { slack: 0.5, decision: Number.POSITIVE_INFINITY } },
      /policy.cusum.decision/,
    ],
  ];
  it.each(impossible)('with %s is refused', (_what, change, message) => {
    expect(() => evaluateSeries([], { ...defaultControlPolicy, ...change })).toThrow(RangeError);
    expect(() => evaluateSeries([], { ...defaultControlPolicy, ...change })).toThrow(message);
  });
});

describe('edges of a series', () => {
  it('of no runs is nothing, of one or two is judged by published limits alone', () => {
    expect(evaluateSeries([], defaultControlPolicy)).toEqual([]);
    expect(
      evaluateSeries(weekly([3.1, 9]), defaultControlPolicy).map(({ z, accepted }) => [z, accepted]),
    ).toEqual([
      [null, true],
      [null, true],
    ]);
  });

  const [first] = weekly([3.1]);
  const impossible: readonly (readonly [string, Partial<SeriesPoint>, RegExp])[] = [
    ['a value that is not a number', { value: Number.NaN }, /value of point p1 is NaN/],
    ['an infinite value', { value: Number.POSITIVE_INFINITY }, /value of point p1 is Infinity/],
    ['a moment that is not a number', { at: Number.NaN }, /at of point p1 is NaN ms/],
    ['an infinite moment', { at: Number.POSITIVE_INFINITY }, /at of point p1 is Infinity ms/],
    ['an epoch that is not a number', { epoch: Number.NaN }, /epoch of point p1 is NaN/],
  ];
  it.each(impossible)('with %s is refused, excluded or not', (_what, change, message) => {
    if (first === undefined) throw new Error('no point');
    for (const excluded of [false, true]) {
      expect(() => evaluateSeries([{ ...first, ...change, excluded }], defaultControlPolicy)).toThrow(
        RangeError,
      );
      expect(() => evaluateSeries([{ ...first, ...change, excluded }], defaultControlPolicy)).toThrow(
        message,
      );
    }
  });

  it('out of time order is refused', () => {
    const points = weekly([1, 2]).reverse();
    expect(() => evaluateSeries(points, defaultControlPolicy)).toThrow(RangeError);
    expect(() => evaluateSeries(points, defaultControlPolicy)).toThrow(/at of point p1 is 0 ms, earlier/);
  });

  it('with a closure that is not a number is refused', () => {
    expect(() => evaluateSeries([], defaultControlPolicy, [1, Number.NaN])).toThrow(
      /closures\[1\] is NaN ms/,
    );
  });
});
