import { describe, expect, it } from 'vitest';
import { foldJournal } from '../../src/journal/fold.ts';
import type { Logbook } from '../../src/journal/logbook.ts';
import { withOneMoreRun } from '../../src/journal/withOneMoreRun.ts';
import { assessEach, createAssessor } from '../../src/views/assessEach.ts';
import { draft, ids, laboratoryDrafts, runRecorded, sealChain } from '../journal/fixtures.ts';

const day = (number: number) => new Date(Date.UTC(2026, 0, number, 9)).toISOString();
const run = (number: number, madeAt: string, vaL = 3.45) =>
  draft(
    'run-recorded',
    runRecorded(number, {
      madeAt,
      reading: { vaL, vaReportedAs: 'BTPS', dlco: 0.1, dlcoUnit: 'mL/min/mmHg' },
    }),
  );

/** A logbook before its last entry, and after it as the store makes it. */
async function around(
  drafts: readonly ReturnType<typeof run>[],
): Promise<{ before: Logbook; after: Logbook }> {
  const entries = await sealChain([...laboratoryDrafts(), ...drafts]);
  const last = entries.at(-1);
  const before = foldJournal(entries.slice(0, -1));
  if (last === undefined) throw new Error('there is no entry');
  return { before, after: withOneMoreRun(before, last) ?? foldJournal(entries) };
}

const anew = (logbook: Logbook) =>
  assessEach(
    logbook.runs.map(({ simulation }) => simulation),
    logbook,
  );

function expectTheSame(found: ReturnType<typeof anew>, logbook: Logbook) {
  const expected = anew(logbook);
  expect(new Map(found.assessments)).toEqual(new Map(expected.assessments));
  expect(found.impossible).toEqual(expected.impossible);
}

const twelve = Array.from({ length: 12 }, (_, index) =>
  run(index + 1, day(index + 1), 3.4 + (index % 4) / 100),
);

describe('createAssessor', () => {
  it('takes up the run that was recorded last, and keeps what was made of the others', async () => {
    const { before, after } = await around([...twelve, run(13, day(13), 3.9)]);
    const assess = createAssessor();
    const earlier = assess(before).assessments.get(ids.run(5));
    const found = assess(after);
    expectTheSame(found, after);
    expect(found.assessments.get(ids.run(5))).toBe(earlier);
    expect(found.assessments.get(ids.run(13))?.verdict.word).toBe('fail');
    expect(assess(after)).toBe(found);
  });

  it('judges all runs again where one was made before others', async () => {
    const { before, after } = await around([...twelve, run(13, day(3), 3.9)]);
    const assess = createAssessor();
    assess(before);
    expectTheSame(assess(after), after);
  });

  it('judges all runs again after an entry of another kind', async () => {
    const { before } = await around([...twelve, run(13, day(13), 3.9)]);
    const voided = draft('run-voided', { runId: ids.run(4), reason: 'The syringe was not connected.' });
    const after = foldJournal(await sealChain([...laboratoryDrafts(), ...twelve, voided]));
    const assess = createAssessor();
    assess(before);
    expectTheSame(assess(after), after);
    const lastOf = (logbook: Logbook) => assess(logbook).assessments.get(ids.run(12));
    expect(lastOf(after)?.va).not.toEqual(lastOf(before)?.va);
  });

  it('names a run whose numbers cannot be, and goes on with the next', async () => {
    const { before, after } = await around([...twelve, run(13, day(13), 3.5)]);
    const newest = after.runs.at(-1);
    if (newest === undefined) throw new Error('there is no run');
    const { simulation } = newest;
    const broken = { ...simulation, reading: { ...simulation.reading, vaL: Number.NaN } };
    const damaged = { ...after, runs: [...before.runs, { ...newest, simulation: broken }] };
    const assess = createAssessor();
    assess(before);
    expectTheSame(assess(damaged), damaged);
    expect(assess(damaged).impossible.map(({ runId }) => runId)).toEqual([ids.run(13)]);
    const next = { ...newest, id: 'next', simulation: { ...simulation, id: 'next', at: simulation.at + 1 } };
    const further = { ...damaged, runs: [...damaged.runs, next] };
    expectTheSame(assess(further), further);
  });
});
