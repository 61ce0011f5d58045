import { describe, expect, it } from 'vitest';
import { assessRuns, type SimulationRun } from '../../src/core/index.ts';
import { simulationOf } from '../../src/journal/fold.ts';
import { judgementOf } from '../../src/journal/judgement.ts';
import { judgementSchema } from '../../src/journal/runContent.ts';
import { runRecorded } from './fixtures.ts';

/** Twelve runs around 2.97 L, and a last one 0.2 L higher. */
function series(): SimulationRun[] {
  const readings = [3.45, 3.42, 3.48, 3.46, 3.44, 3.45, 3.43, 3.47, 3.45, 3.44, 3.46, 3.45, 3.67];
  return readings.map((vaL, week) => {
    const madeAt = new Date(Date.UTC(2026, 0, 5 + 7 * week, 8)).toISOString();
    const body = runRecorded(week, {
      madeAt,
      reading: { ...runRecorded(week).reading, vaL, dlco: 0.01 * (week % 5) },
    });
    return simulationOf(body, { epoch: 0, excluded: false });
  });
}

describe('judgementOf', () => {
  it('writes down the verdict with the numbers and the limits it rests on', () => {
    const runs = series();
    const judged = [...assessRuns(runs).values()].map(judgementOf);
    expect(judged[0]).toMatchObject({
      word: 'pass',
      establishing: true,
      va: { n: 0, mean: null, sd: null, z: null },
    });
    const last = judged.at(-1);
    expect(last).toMatchObject({ word: 'fail', establishing: false, failureOpen: true });
    expect(last?.va.signals).toContainEqual({ rule: '1-3s', severity: 'action' });
    const { value = 0, mean, sd, z } = last?.va ?? {};
    expect((value - (mean ?? 0)) / (sd ?? 0)).toBeCloseTo(z ?? 0, 9);
  });

  it('gives what an entry can hold', () => {
    for (const assessment of assessRuns(series()).values()) {
      expect(judgementSchema.parse(judgementOf(assessment))).toEqual(judgementOf(assessment));
    }
  });
});
