import { expect, it } from 'vitest';
import { sharedDays } from '../../../src/views/common/sharedDays.ts';
import { splitDay } from '../../../src/views/common/splitDay.ts';
import { compareTechnologists, practisedSeries } from '../../../src/views/common/technologists.ts';
import { assessmentsOf, laboratoryWith, now, shortestMs } from '../manyRuns.ts';

// A split for each pair of analyzers, or a walk over all runs for each day, breaks it.
it('splits twelve days of 20 analyzers, and compares their technologists, in less time than a copy of the 20,000 runs', async () => {
  const logbook = await laboratoryWith(20_000);
  const ready = Array.from({ length: 3 }, () => assessmentsOf(logbook));
  const buildMs = shortestMs(() => {
    const assessments = ready.pop() ?? assessmentsOf(logbook);
    const { days } = sharedDays(logbook, assessments, 12);
    expect(days.map((day) => splitDay(day, logbook, assessments))).toHaveLength(12);
    const [one] = practisedSeries(logbook, assessments);
    if (one === undefined) throw new Error('nobody has made a run');
    expect(compareTechnologists(one, logbook, assessments).to).toBeLessThan(now);
  });
  const copyMs = shortestMs(() => structuredClone(logbook.runs));
  expect(buildMs).toBeLessThan(copyMs);
}, 30_000);
