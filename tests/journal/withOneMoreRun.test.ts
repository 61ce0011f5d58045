import { describe, expect, it } from 'vitest';
import type { Entry, EntryDraft } from '../../src/journal/entries.ts';
import { foldJournal } from '../../src/journal/fold.ts';
import { withOneMoreRun } from '../../src/journal/withOneMoreRun.ts';
import { draft, ids, laboratoryDrafts, runRecorded, sealChain } from './fixtures.ts';

const day = (number: number) => `2026-03-${String(number).padStart(2, '0')}T07:00:00.000Z`;
const run = (number: number, madeAt: string, changes: Parameters<typeof runRecorded>[1] = {}) =>
  draft('run-recorded', runRecorded(number, { madeAt, ...changes }));

/** The last entry of a chain, taken in by itself and together with all others. */
async function bothWays(drafts: readonly EntryDraft[], at: string[] = []) {
  const entries = await sealChain([...laboratoryDrafts(), ...drafts], { at });
  const last = entries.at(-1);
  if (last === undefined) throw new Error('there is no last entry');
  return { oneMore: withOneMoreRun(foldJournal(entries.slice(0, -1)), last), whole: foldJournal(entries) };
}

describe('withOneMoreRun', () => {
  it('gives the logbook that the fold of all entries gives', async () => {
    const { oneMore, whole } = await bothWays([run(1, day(2)), run(2, day(9)), run(3, day(16))]);
    expect(oneMore).toEqual(whole);
    expect(oneMore?.runs.map(({ id }) => id)).toEqual([ids.run(1), ids.run(2), ids.run(3)]);
  });

  it('puts a run that was made earlier where it belongs, behind one of the same moment', async () => {
    const { oneMore, whole } = await bothWays([run(1, day(2)), run(2, day(9)), run(3, day(2))]);
    expect(oneMore).toEqual(whole);
    expect(oneMore?.runs.map(({ id }) => id)).toEqual([ids.run(1), ids.run(3), ids.run(2)]);
  });

  it('counts the baseline starts before it and finds the run that it looks into', async () => {
    const start = {
      baselineId: 'baseline-1',
      analyzerId: ids.analyzer,
      from: day(5),
      reason: 'A new sensor.',
    };
    const investigates = { runId: ids.run(1), check: 'repeat' as const };
    const { oneMore, whole } = await bothWays([
      run(1, day(2)),
      draft('baseline-started', start),
      run(2, day(9), { investigates }),
    ]);
    expect(oneMore).toEqual(whole);
    expect(oneMore?.runs.at(-1)?.simulation.epoch).toBe(1);
  });

  it('leaves the logbook that it was given as it was', async () => {
    const entries = await sealChain([...laboratoryDrafts(), run(1, day(2)), run(2, day(9))]);
    const before = foldJournal(entries.slice(0, -1));
    const copy = structuredClone(before);
    withOneMoreRun(before, entries.at(-1) as Entry);
    expect(before).toEqual(copy);
  });

  const later = '2026-03-02T08:00:00.000Z';
  it.each<[string, EntryDraft[], string[]?]>([
    ['another kind of entry', [run(1, day(2)), draft('run-voided', { runId: ids.run(1), reason: 'Twice.' })]],
    ['a run whose id is taken', [run(1, day(2)), run(1, day(9))]],
    ['an unknown analyzer', [run(1, day(2)), run(2, day(9), { analyzerId: 'analyzer-unknown' })]],
    [
      'a run that looks into one that is not here',
      [run(1, day(2), { investigates: { runId: ids.run(9), check: 'repeat' } })],
    ],
    [
      'a logbook that does not add up: an entry may have waited for this run',
      [draft('run-voided', { runId: ids.run(1), reason: 'Twice.' }), run(1, day(2))],
    ],
    ['a clock that stood still', [run(1, day(2)), run(2, day(9))], Array(5).fill(later)],
  ])('leaves %s to the whole fold', async (_, drafts, at) => {
    expect((await bothWays(drafts, at)).oneMore).toBeNull();
  });

  it('leaves the first entry of all to the whole fold', async () => {
    const [entry] = await sealChain([run(1, day(2))]);
    expect(withOneMoreRun(foldJournal([]), entry as Entry)).toBeNull();
  });
});
