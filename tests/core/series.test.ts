import { describe, expect, it } from 'vitest';
import { type ControlPolicy, defaultControlPolicy, evaluateSeries } from '../../src/core/index.ts';
import { posterSeries } from '../reference/controlCharts.ts';
import { last, onlyRules, steadyBaseline, unitBaseline, unitSd, week, weekly } from './seriesFixtures.ts';

const rolling: ControlPolicy = { ...defaultControlPolicy, limits: 'rolling' };
const noRules = onlyRules([]);

describe('evaluateSeries on a published year of weekly runs', () => {
  const baseline = steadyBaseline(posterSeries.mean, posterSeries.sd);
  const values = [
    ...baseline,
    ...posterSeries.faults.map(({ vaL }) => vaL),
    ...posterSeries.afterRepair.map(({ vaL }) => vaL),
  ];
  const points = weekly(values).map((point) => ({ ...point, breached: Math.abs(point.value - 3) > 0.3 }));
  const closedAt = 21.5 * week;
  const evaluations = evaluateSeries(points, defaultControlPolicy, [closedAt]).slice(20);

  it('finds the z of both faults and of both runs after the repair', () => {
    const expected = [...posterSeries.faults, ...posterSeries.afterRepair];
    expect(evaluations).toHaveLength(4);
    for (const [index, evaluation] of evaluations.entries()) {
      expect(evaluation.z).toBeCloseTo(expected[index]?.z ?? Number.NaN, 1);
    }
  });

  it('keeps the failure open over both faults and closes it at the repair', () => {
    expect(evaluations.map(({ failureOpen }) => failureOpen)).toEqual([true, true, false, false]);
    expect(evaluations.map(({ accepted }) => accepted)).toEqual([false, false, true, true]);
  });
});

describe('a baseline', () => {
  it('judges nothing below 10 accepted runs, provisionally from 10, and is frozen at 20', () => {
    const values = [...unitBaseline, 0.5, -0.5, 0.5];
    const evaluations = evaluateSeries(weekly(values), noRules);
    expect(evaluations.map(({ n }) => n)).toEqual([...Array(20).keys(), 20, 20, 20]);
    expect(
      evaluations.slice(0, 10).every(({ z, mean, sd }) => z === null && mean === null && sd === null),
    ).toBe(true);
    expect(evaluations[10]?.mean).toBe(0);
    // Ten values of ±1: SD √(10/9), by hand.
    expect(evaluations[10]?.sd).toBeCloseTo(Math.sqrt(10 / 9), 14);
    expect(last(evaluations).mean).toBe(0);
    expect(last(evaluations).sd).toBeCloseTo(unitSd, 14);
  });

  it('is made of strictly earlier runs: a run never judges itself', () => {
    const [first, second] = [1000, 0].map((value) =>
      last(evaluateSeries(weekly([...unitBaseline, value]), noRules)),
    );
    expect(first?.mean).toBe(second?.mean);
    expect(first?.sd).toBe(second?.sd);
  });

  it('lets runs of the same moment follow one another in the order given', () => {
    const points = weekly(unitBaseline).map((point) => ({ ...point, at: 5 }));
    expect(last(evaluateSeries(points, noRules)).n).toBe(19);
  });

  it('leaves out breached and excluded runs', () => {
    const points = weekly([...unitBaseline, 0]).map((point, index) => ({
      ...point,
      excluded: index === 3,
      breached: index === 12,
    }));
    // The failure of the breached run is closed at once.
    const evaluations = evaluateSeries(points, noRules, [12 * week]);
    expect(last(evaluations).n).toBe(18);
  });

  it('judges nothing while the SD is 0', () => {
    const evaluations = evaluateSeries(weekly(Array<number>(15).fill(3.1)), defaultControlPolicy);
    expect(evaluations.every(({ z, mean, sd }) => z === null && mean === null && sd === null)).toBe(true);
    expect(last(evaluations)).toMatchObject({ n: 14, accepted: true, failureOpen: false, signals: [] });
  });

  it('keeps its digits where the mean is huge against the spread', () => {
    const far = 2 ** 40;
    const near = evaluateSeries(weekly([...unitBaseline, 1.5]), noRules);
    const shifted = evaluateSeries(weekly([...unitBaseline, 1.5].map((value) => value + far)), noRules);
    expect(last(shifted).z).toBe(last(near).z);
  });
});

describe('rolling limits', () => {
  it('rest on the last 20 accepted runs', () => {
    const values = [...Array<number>(5).fill(100), ...unitBaseline, 0];
    const evaluations = evaluateSeries(weekly(values), { ...noRules, limits: 'rolling' });
    expect(last(evaluations)).toMatchObject({ n: 20, mean: 0 });
    expect(last(evaluations).sd).toBeCloseTo(unitSd, 14);
  });

  it('judge from 10 accepted runs on', () => {
    const evaluations = evaluateSeries(weekly(unitBaseline), { ...noRules, limits: 'rolling' });
    expect(evaluations.map(({ z }) => z !== null).indexOf(true)).toBe(10);
    expect(evaluations[10]?.sd).toBeCloseTo(Math.sqrt(10 / 9), 14);
  });

  it('have an SD of exactly 0, and judge nothing, once the window holds equal values only', () => {
    const values = [...unitBaseline.map((value) => value * 1e6 + 0.1), ...Array<number>(21).fill(0.7)];
    const evaluations = evaluateSeries(weekly(values), { ...noRules, limits: 'rolling' });
    expect(last(evaluations.slice(0, -1)).z).not.toBeNull();
    expect(last(evaluations)).toMatchObject({ n: 20, mean: null, sd: null, z: null });
  });

  it('do not swallow a step while a failure is open: it is still seen after a year', () => {
    const values = [...steadyBaseline(3.1, 0.03), ...Array<number>(52).fill(3.2)];
    const evaluations = evaluateSeries(weekly(values), rolling);
    expect(last(evaluations).z).toBeCloseTo(10 / 3, 10);
    expect(evaluations.slice(20).every(({ failureOpen, accepted }) => failureOpen && !accepted)).toBe(true);
  });
});
