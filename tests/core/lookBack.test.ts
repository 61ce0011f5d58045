import { describe, expect, it } from 'vitest';
import { defaultControlPolicy, evaluateSeries, lookBack, type SeriesPoint } from '../../src/core/index.ts';
import { inSd, unitBaseline, week, weekly } from './seriesFixtures.ts';

const lookBackAt = (
  points: readonly SeriesPoint[],
  failingRunId: string,
  stoppedAt?: number,
  closures: number[] = [],
) =>
  lookBack({
    points,
    evaluations: evaluateSeries(points, defaultControlPolicy, closures),
    failingRunId,
    stoppedAt,
  });

describe('lookBack', () => {
  it('of a sudden fault goes back to the last good run', () => {
    const points = weekly([...unitBaseline, 0.1, -0.1, inSd(8)]);
    const found = lookBackAt(points, 'p23', 22 * week + 5);
    expect(found.lastGood).toEqual({ id: 'p22', at: 21 * week });
    expect(found.firstFailing).toEqual({ id: 'p23', at: 22 * week });
    expect(found.likelyOnsetAfter?.id).toBe('p22');
    expect(found.lastGoodIsInDoubt).toBe(false);
    expect([found.from, found.to]).toEqual([21 * week, 22 * week + 5]);
  });

  it('dates a steady drift apart from a step, and none where the run alone is out', () => {
    const slow = [0.4, 0.9, 1.3, 1.8, 2.3, 3.2].map(inSd);
    const drifting = lookBackAt(weekly([...unitBaseline, 0.1, -0.1, ...slow]), 'p28');
    expect(drifting.driftOnsetAfter?.id).toBe('p22');
    expect(drifting.likelyOnsetAfter?.at).toBeGreaterThan(21 * week);
    const alone = weekly([...unitBaseline, 0.1, -0.1, 0.2]).map((point) =>
      point.id === 'p23' ? { ...point, breached: true } : point,
    );
    expect(lookBackAt(alone, 'p23')).toMatchObject({
      driftOnsetAfter: undefined,
      likelyOnsetAfter: undefined,
    });
  });

  it('of a slow fault goes back to before it is likely to have begun, past runs that had passed', () => {
    const points = weekly([...unitBaseline, 0.1, -0.1, inSd(1.6), inSd(1.7), inSd(1.8), inSd(3.4)]);
    const found = lookBackAt(points, 'p26');
    expect(found.lastGood?.id).toBe('p25');
    // The step from about 0 to about 2 SD lies between the 22nd and the 23rd run.
    expect(found.likelyOnsetAfter?.id).toBe('p22');
    expect(found.lastGoodIsInDoubt).toBe(true);
    expect(found.earliestOnsetAfter?.at).toBeLessThanOrEqual(21 * week);
    expect(found.from).toBe(found.earliestOnsetAfter?.at);
    expect(found.to).toBeNull();
  });

  it('goes back to the last good run when the runs do not tell when it began', () => {
    const points = weekly([1, -1, 1]).map((point, index) => ({ ...point, breached: index === 2 }));
    const found = lookBackAt(points, 'p3');
    expect(found.likelyOnsetAfter).toBeUndefined();
    expect([found.from, found.lastGoodIsInDoubt]).toEqual([week, false]);
  });

  it('has no beginning when there was no good run', () => {
    const points = weekly([1]).map((point) => ({ ...point, breached: true }));
    expect(lookBackAt(points, 'p1')).toMatchObject({ lastGood: null, from: null });
  });

  it('does not look past an earlier failure, another epoch or an excluded run', () => {
    const afterRepair = weekly([...unitBaseline, inSd(9), 0.2, inSd(8)]);
    expect(lookBackAt(afterRepair, 'p23', undefined, [20 * week]).lastGood?.id).toBe('p22');
    expect(lookBackAt(afterRepair, 'p23', undefined, [20 * week]).earliestOnsetAfter?.id).toBe('p22');
    const newEpoch = weekly([...unitBaseline, 0]).map((point, index) => ({
      ...point,
      epoch: index < 20 ? 0 : 1,
      breached: index === 20,
    }));
    expect(lookBackAt(newEpoch, 'p21').lastGood).toBeNull();
    const withVoid = weekly([...unitBaseline, 0, inSd(8)]).map((point, index) => ({
      ...point,
      excluded: index === 20,
    }));
    expect(lookBackAt(withVoid, 'p22').lastGood?.id).toBe('p20');
  });

  it('refuses what does not belong together', () => {
    const points = weekly([1, 2]);
    const evaluations = evaluateSeries(points, defaultControlPolicy);
    expect(() => lookBack({ points, evaluations, failingRunId: 'x' })).toThrow(/failingRunId is x/);
    expect(() => lookBack({ points, evaluations: [], failingRunId: 'p1' })).toThrow(
      /evaluations are 0 for 2/,
    );
    expect(() => lookBack({ points, evaluations: [...evaluations].reverse(), failingRunId: 'p2' })).toThrow(
      /of p1, not of p2/,
    );
    expect(() => lookBack({ points, evaluations, failingRunId: 'p2', stoppedAt: 1 })).toThrow(
      /stoppedAt is 1 ms/,
    );
  });
});
