import { describe, expect, it } from 'vitest';
import { buildSparkline } from '../../../src/views/fleet/buildSparkline.ts';
import { recentRuns } from '../../../src/views/fleet/seriesInHand.ts';
import { baseline, ids, opened, run, tenGoodRuns, week } from '../laboratory.ts';

async function drawn(drafts: Parameters<typeof opened>[0]) {
  const { logbook, assessments } = await opened(drafts);
  const [route] = recentRuns(logbook, assessments).get(ids.analyzer) ?? [];
  if (route === undefined) throw new Error('the analyzer has no run');
  return { recent: route.recent, model: buildSparkline(route.recent, 'va') };
}

const pointOf = (model: Awaited<ReturnType<typeof drawn>>['model'], index: number) =>
  model.points.find(({ id }) => id === ids.run(index));

describe('buildSparkline', () => {
  it('draws a run at its mean in the middle, and higher the further it reads high', async () => {
    const { model } = await drawn([...tenGoodRuns(), run(10, 3.0), run(11, 3.02), run(12, 2.98)]);
    expect(pointOf(model, 10)).toMatchObject({ y: model.middleY, mark: null, hasZ: true });
    expect(pointOf(model, 11)?.y).toBeLessThan(model.middleY);
    expect(pointOf(model, 12)?.y).toBeGreaterThan(model.middleY);
    expect((model.band.top + model.band.bottom) / 2).toBeCloseTo(model.middleY, 6);
    expect(model.edges.top).toBeLessThan(model.band.top);
  });

  it('marks a signal in its verdict’s shape, and keeps a run beyond 4 SD at the edge', async () => {
    const { model } = await drawn([...tenGoodRuns(), run(10, 3.05), run(11, 3.2)]);
    // By hand: 0.05 / 0.0216 = 2.3 SD warns, 9 SD fails.
    expect(pointOf(model, 10)?.mark).toBe('warn');
    const out = pointOf(model, 11);
    expect(out?.mark).toBe('fail');
    expect(out?.y).toBeGreaterThan(0);
    expect(out?.y).toBeLessThan(model.edges.top);
  });

  it('puts runs without own limits under the band and off the line, even one that breaches a published limit', async () => {
    const { model } = await drawn([run(0, 3), run(1, 3.4)]);
    expect(model.line).toBe('');
    for (const { y, hasZ } of model.points) {
      expect(hasZ).toBe(false);
      expect(y).toBeGreaterThan(model.edges.bottom);
    }
    expect(pointOf(model, 1)?.mark).toBe('fail');
  });

  it('leaves a missed week as a gap', async () => {
    const { model } = await drawn([...tenGoodRuns(), run(10, 3), run(11, 3), run(13, 3)]);
    const [ten, eleven, thirteen] = [10, 11, 13].map((index) => pointOf(model, index)?.x ?? 0);
    const oneWeek = (eleven ?? 0) - (ten ?? 0);
    // x is rounded to a tenth.
    expect((thirteen ?? 0) - (eleven ?? 0)).toBeGreaterThan(1.9 * oneWeek);
  });

  it('draws the last 26 runs, and breaks the line where a new baseline began', async () => {
    const steady = (from: number, count: number) =>
      Array.from({ length: count }, (_, index) => run(from + index, index % 2 === 0 ? 3.01 : 2.99));
    const { recent, model } = await drawn([...steady(0, 14), baseline(week(14)), ...steady(14, 16)]);
    expect(recent).toHaveLength(26);
    expect(recent[0]?.run.id).toBe(ids.run(4));
    expect(model.line.match(/M/g)).toHaveLength(2);
  });

  it('says in words what it draws', async () => {
    const { model } = await drawn([...tenGoodRuns(), run(10, 3.0), run(11, 3.2)]);
    // By hand: eleven runs at a sum of squares of 0.0042 about 3.000 have an SD of √(0.0042/10) = 0.02049; 0.2 is 9.76 of it.
    expect(model.description).toBe(
      '12 runs from 5 Jan 2026 to 23 Mar 2026, z between 0.0 and +9.8, 10 without own limits, 1 failed',
    );
    const { model: one } = await drawn([run(0, 3)]);
    expect(one.description).toBe('1 run of 5 Jan 2026, 1 without own limits, no signal');
  });
});
