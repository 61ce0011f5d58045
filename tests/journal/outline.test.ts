import { describe, expect, it } from 'vitest';
import { foldJournal } from '../../src/journal/fold.ts';
import { outlineText, readOutline } from '../../src/journal/outline.ts';
import { analyzerAdded, draft, ids, laboratoryDrafts, runRecorded, sealChain } from './fixtures.ts';

const day = (number: number) => `2026-03-${String(number).padStart(2, '0')}T07:00:00.000Z`;
const run = (number: number, changes: Parameters<typeof runRecorded>[1] = {}) =>
  draft('run-recorded', runRecorded(number, { madeAt: day(number), ...changes }));

async function laboratory() {
  const other = { ...analyzerAdded, analyzerId: 'analyzer-room-9', label: 'Room 9' };
  const drafts = [
    ...laboratoryDrafts(),
    draft('analyzer-added', other),
    run(1),
    run(2, { analyzerId: other.analyzerId }),
    run(3, { route: 'built-in' }),
    run(4),
    run(5),
    draft('run-voided', { runId: ids.run(5), reason: 'Wrong room.' }),
  ];
  return foldJournal(await sealChain(drafts));
}

describe('an outline', () => {
  it('has people and equipment as they stand, with their history', async () => {
    const logbook = await laboratory();
    const outline = readOutline(outlineText(logbook));
    expect(outline.analyzers).toEqual(logbook.analyzers);
    expect(outline.technologists).toEqual(logbook.technologists);
    expect(outline.syringes).toEqual(logbook.syringes);
    expect(outline.entryCount).toBe(logbook.entryCount);
  });

  it('has of each analyzer and route the newest run that stands, in the order in which they were made', async () => {
    const outline = readOutline(outlineText(await laboratory()));
    expect(outline.runs.map(({ id }) => id)).toEqual([ids.run(2), ids.run(3), ids.run(4)]);
  });

  it('does not grow with the runs', async () => {
    const many = Array.from({ length: 40 }, (_, index) => run(index, { madeAt: day(1 + (index % 27)) }));
    const few = foldJournal(await sealChain([...laboratoryDrafts(), ...many.slice(0, 2)]));
    const all = foldJournal(await sealChain([...laboratoryDrafts(), ...many]));
    expect(outlineText(all).length).toBeLessThan(outlineText(few).length * 1.05);
  });

  it('says of itself what it says of the logbook', async () => {
    const text = outlineText(await laboratory());
    expect(outlineText(readOutline(text)) === text).toBe(true);
  });
});
