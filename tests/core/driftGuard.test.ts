import { describe, expect, it } from 'vitest';
import {
  type ControlPolicy,
  defaultControlPolicy,
  evaluateSeries,
  rollingDrift,
} from '../../src/core/index.ts';
import { onlyRules, steadyBaseline, unitBaseline, unitSd, weekly } from './seriesFixtures.ts';

const rolling: ControlPolicy = { ...onlyRules([]), limits: 'rolling' };
const driftOf = (values: readonly number[]) => {
  const points = weekly(values);
  return rollingDrift(points, evaluateSeries(points, rolling), rolling.baselineSize);
};

describe('rollingDrift', () => {
  it('knows nothing until the first baseline is full, and then starts at 0', () => {
    const drift = driftOf([...unitBaseline, 0.5]);
    expect(drift.slice(0, 20).every(({ walkSd, warns }) => walkSd === null && !warns)).toBe(true);
    expect(drift[20]?.walkSd).toBeCloseTo(0, 12);
  });

  it('tells the walk of the mean in SDs of the first baseline, and warns beyond 1', () => {
    // Twenty runs 1.1 first SDs up replace the first twenty one by one; the last run is judged by all of them.
    const up = unitBaseline.map((value) => value + 1.1 * unitSd);
    const drift = driftOf([...unitBaseline, ...up, 0]);
    expect(drift.at(-1)?.walkSd).toBeCloseTo(1.1, 12);
    expect(drift.at(-1)?.warns).toBe(true);
    // Half of them: half the walk.
    expect(drift[30]?.walkSd).toBeCloseTo(0.55, 12);
    expect(drift[30]?.warns).toBe(false);
  });

  it('sees the slow drift that rolling rules swallow', () => {
    const values = [
      ...steadyBaseline(3.1, 0.03),
      ...steadyBaseline(0, 0.03)
        .concat(steadyBaseline(0, 0.03))
        .map((value, week) => 3.1 + value + week * 0.002),
    ];
    const points = weekly(values);
    const evaluations = evaluateSeries(points, { ...defaultControlPolicy, limits: 'rolling' });
    expect(evaluations.slice(20, 40).some(({ failureOpen }) => failureOpen)).toBe(false);
    expect(rollingDrift(points, evaluations, 20).at(-1)?.warns).toBe(true);
  });

  it('begins anew with an epoch, which an excluded run does not start', () => {
    const points = weekly([...unitBaseline, ...unitBaseline.map((value) => value + 9), 9]).map(
      (point, index) => ({
        ...point,
        epoch: index < 20 ? 0 : 1,
      }),
    );
    const drift = rollingDrift(points, evaluateSeries(points, rolling), 20);
    expect(drift.at(-1)?.walkSd).toBeCloseTo(0, 12);
    const excluded = weekly([...unitBaseline, 0, 0.5]).map((point, index) =>
      index === 20 ? { ...point, epoch: 5, excluded: true } : point,
    );
    expect(rollingDrift(excluded, evaluateSeries(excluded, rolling), 20).at(-1)?.walkSd).toBeCloseTo(0, 12);
  });

  it('refuses evaluations of other points and an impossible size', () => {
    const points = weekly([1, 2]);
    const evaluations = evaluateSeries(points, rolling);
    expect(() => rollingDrift(points, evaluations.slice(1), 20)).toThrow(/evaluations are 1 for 2 points/);
    expect(() => rollingDrift(points, [...evaluations].reverse(), 20)).toThrow(
      /evaluations\[0\] is of p2, not of p1/,
    );
    expect(() => rollingDrift(points, evaluations, 1)).toThrow(/baselineSize is 1 runs/);
    expect(rollingDrift([], [], 20)).toEqual([]);
  });
});
