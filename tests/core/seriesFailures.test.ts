import { describe, expect, it } from 'vitest';
import {
  type ControlPolicy,
  defaultControlPolicy,
  evaluateSeries,
  type SeriesPoint,
} from '../../src/core/index.ts';
import { inSd, last, onlyRules, unitBaseline, week, weekly } from './seriesFixtures.ts';

const rolling: ControlPolicy = { ...defaultControlPolicy, limits: 'rolling' };
const noRules = onlyRules([]);

describe('a failure', () => {
  const followedBy = (
    values: readonly number[],
    closures: readonly number[] = [],
    policy = defaultControlPolicy,
  ) => evaluateSeries(weekly([...unitBaseline, 0, ...values.map(inSd)]), policy, closures).slice(21);
  const at = (index: number) => (20 + index) * week;

  it('opens at the first action signal and lets no run into a mean until it is closed', () => {
    const evaluations = followedBy([3.5, 0.1, -0.1, 0.1]);
    expect(evaluations.map(({ failureOpen }) => failureOpen)).toEqual([true, true, true, true]);
    expect(evaluations.map(({ accepted }) => accepted)).toEqual([false, false, false, false]);
  });

  it('does not open at a warning', () => {
    expect(last(followedBy([2.5]))).toMatchObject({ failureOpen: false, accepted: true });
    expect(last(followedBy([2.5])).signals.map(({ rule, severity }) => [rule, severity])).toEqual([
      ['1-2s', 'warning'],
    ]);
  });

  it('opens at a breached limit before there is any baseline', () => {
    const points = weekly([1, -1, 1, -1]).map((point, index) => ({ ...point, breached: index === 1 }));
    const evaluations = evaluateSeries(points, defaultControlPolicy);
    expect(evaluations.map(({ failureOpen }) => failureOpen)).toEqual([false, true, true, true]);
    expect(last(evaluations).n).toBe(1);
  });

  it('still judges runs while open, against the frozen limits', () => {
    const evaluations = followedBy([3.5, 3.6], [], rolling);
    expect(evaluations.map(({ n }) => n)).toEqual([20, 20]);
    expect(last(evaluations).signals.map(({ rule }) => rule)).toContain('2-2s');
  });

  it('ends with the first closure at or after its opening; a later run is judged afresh', () => {
    const evaluations = followedBy([3.5, 2.1, 2.2], [at(2)]);
    expect(evaluations.map(({ failureOpen }) => failureOpen)).toEqual([true, true, false]);
    // 2-2s would reach back across the closure; the baseline stays.
    expect(last(evaluations).signals.map(({ rule }) => rule)).toEqual(['1-2s']);
    expect(last(evaluations).z).toBeCloseTo(2.2, 12);
    expect(last(evaluations).accepted).toBe(true);
  });

  it('restarts EWMA and CUSUM from zero at its end', () => {
    const evaluation = last(followedBy([3.5, 3.5, 1], [at(2)]));
    // λ·z and z − k of the one run since.
    expect(evaluation.ewma).toBeCloseTo(0.2, 12);
    expect(evaluation.cusumHigh).toBeCloseTo(0.5, 12);
    expect(evaluation.cusumLow).toBe(0);
  });

  it('is not ended by an earlier closure, and takes closures in any order', () => {
    expect(followedBy([3.5, 0], [at(0), at(0) - 1]).map(({ failureOpen }) => failureOpen)).toEqual([
      true,
      true,
    ]);
    const closures = [at(3), at(1)];
    expect(followedBy([3.5, 0, 3.5, 0], closures).map(({ failureOpen }) => failureOpen)).toEqual([
      true,
      false,
      true,
      false,
    ]);
  });

  it('is open at a run of the same moment as its closure', () => {
    const points: SeriesPoint[] = [
      ...weekly(unitBaseline),
      { id: 'bad', at: 30 * week, value: 9, epoch: 0 },
      { id: 'same moment', at: 30 * week, value: 0, epoch: 0 },
      { id: 'later', at: 30 * week + 1, value: 0, epoch: 0 },
    ];
    const evaluations = evaluateSeries(points, defaultControlPolicy, [30 * week]);
    expect(evaluations.slice(20).map(({ failureOpen }) => failureOpen)).toEqual([true, true, false]);
  });

  it('opens anew at a bad run after a closure and waits for a closure of its own', () => {
    const evaluations = followedBy([3.5, 3.5, 0], [at(1)]);
    expect(evaluations.map(({ failureOpen }) => failureOpen)).toEqual([true, true, true]);
  });
});

describe('an epoch', () => {
  const epochs = (values: readonly number[]) =>
    weekly(Array<number>(values.length).fill(0)).map((point, index) => ({
      ...point,
      value: index % 2 === 0 ? 1 : -1,
      epoch: values[index] ?? 0,
    }));

  it('restarts baseline and patterns', () => {
    const evaluations = evaluateSeries(epochs([...Array<number>(12).fill(0), 1, 1]), noRules);
    expect(evaluations.map(({ n }) => n).slice(11)).toEqual([11, 0, 1]);
  });

  it('ends an open failure', () => {
    const points = epochs([0, 0, 1]).map((point, index) => ({ ...point, breached: index === 0 }));
    expect(evaluateSeries(points, noRules).map(({ failureOpen }) => failureOpen)).toEqual([
      true,
      true,
      false,
    ]);
  });

  it('is new again when an earlier number comes back', () => {
    expect(evaluateSeries(epochs([0, 0, 1, 0]), noRules).map(({ n }) => n)).toEqual([0, 1, 0, 0]);
  });

  it('is not begun by an excluded run', () => {
    const points = epochs([0, 0, 1, 0]).map((point, index) => ({ ...point, excluded: index === 2 }));
    expect(evaluateSeries(points, noRules).map(({ n }) => n)).toEqual([0, 1, 2, 2]);
  });
});

describe('an excluded run', () => {
  it('gets nulls and no signals and changes nothing else', () => {
    const points = weekly([...unitBaseline, 0, inSd(2.5), inSd(2.6), 0.2]);
    const excluded: SeriesPoint = {
      id: 'x',
      at: 21.5 * week,
      value: 99,
      epoch: 7,
      excluded: true,
      breached: true,
    };
    const without = evaluateSeries(points, defaultControlPolicy);
    const withIt = evaluateSeries(
      [...points.slice(0, 22), excluded, ...points.slice(22)],
      defaultControlPolicy,
    );
    expect(withIt.filter(({ id }) => id !== 'x')).toEqual(without);
    expect(withIt[22]).toEqual({
      id: 'x',
      n: 20,
      mean: null,
      sd: null,
      z: null,
      ewma: null,
      cusumHigh: null,
      cusumLow: null,
      signals: [],
      accepted: false,
      failureOpen: false,
    });
  });

  it('says whether a failure was open at its moment', () => {
    const points = weekly([1, 1, 1]).map((point, index) => ({
      ...point,
      breached: index === 0,
      excluded: index > 0,
    }));
    expect(evaluateSeries(points, noRules, [week]).map(({ failureOpen }) => failureOpen)).toEqual([
      true,
      true,
      false,
    ]);
  });
});
