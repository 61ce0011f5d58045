import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { EntryBody, EntryDraft } from '../../src/journal/entries.ts';
import { foldJournal } from '../../src/journal/fold.ts';
import { analyzerAdded, draft, ids, laboratoryDrafts, runRecorded, sealChain } from './fixtures.ts';

const otherAnalyzer = draft('analyzer-added', {
  ...analyzerAdded,
  analyzerId: 'analyzer-room-5',
  label: 'Room 5',
});

/** The run of `runRecorded(number)` with some of what it says put right. */
function amended(number: number, changes: Partial<EntryBody<'run-amended'>['run']>, reason = 'put right') {
  const { runId, origin: _, judged, ...content } = runRecorded(number);
  if (judged === null) throw new Error('the fixture has no verdict');
  return draft('run-amended', {
    amendmentId: `amendment-of-${runId}-${reason}`,
    runId,
    run: { ...content, ...changes },
    judged: { ...judged, word: 'fail' },
    reason,
  });
}

const reading = (vaL: number) => ({ ...runRecorded(1).reading, vaL });
const voided = (reason = 'hose loose') => draft('run-voided', { runId: ids.run(1), reason });
const fold = async (...drafts: readonly EntryDraft[]) =>
  foldJournal(await sealChain([...laboratoryDrafts(), otherAnalyzer, ...drafts]));

describe('foldJournal on an amended run', () => {
  it('gives the run as the amendment has it, and keeps what stood first in its own entry', async () => {
    const { runs, problems } = await fold(
      draft('run-recorded', runRecorded(1)),
      amended(1, { reading: reading(3.3), comment: 'Cold room' }),
    );
    expect(problems).toEqual([]);
    expect(runs).toHaveLength(1);
    expect(runs[0]?.body).toEqual({ ...runRecorded(1), reading: reading(3.3), comment: 'Cold room' });
    expect(runs[0]?.simulation.reading).toEqual(reading(3.3));
    expect(runs[0]?.entry.body).toEqual(runRecorded(1));
  });

  it('no longer says what the amendment leaves out', async () => {
    const typed = {
      temperatureAsTyped: { value: 71.6, unit: '°F' as const },
      attached: [{ name: 'Filter', volumeL: 0.05 }],
    };
    const { runs } = await fold(draft('run-recorded', runRecorded(1, typed)), amended(1, {}));
    expect(runs[0]?.body).toEqual(runRecorded(1));
    expect(runs[0]?.entry.body).toEqual(runRecorded(1, typed));
  });

  it('never rewrites the verdict of the day', async () => {
    const { runs } = await fold(draft('run-recorded', runRecorded(1)), amended(1, { reading: reading(3.3) }));
    expect(runs[0]?.body.judged).toEqual(runRecorded(1).judged);
    expect(runs[0]?.amendments[0]?.body.judged.word).toBe('fail');
  });

  it('stands as the second of two amendments has it, and keeps both', async () => {
    const { runs } = await fold(
      draft('run-recorded', runRecorded(1)),
      amended(1, { reading: reading(3.3), comment: 'first' }, 'first'),
      amended(1, { reading: reading(3.4) }, 'second'),
    );
    expect(runs[0]?.body).toMatchObject({ reading: reading(3.4), comment: '' });
    expect(runs[0]?.amendments.map(({ body }) => body.reason)).toEqual(['first', 'second']);
  });

  it('loses a value that the amendment leaves out', async () => {
    const recorded = runRecorded(1, { reading: { ...reading(3.45), breathHoldS: 10 } });
    const { runs } = await fold(draft('run-recorded', recorded), amended(1, {}));
    expect(runs[0]?.body.reading).not.toHaveProperty('breathHoldS');
    expect(runs[0]?.simulation.reading.breathHoldS).toBeUndefined();
  });

  it('stays voided, whichever of amendment and void came first, and is shown as it was amended', async () => {
    const change = amended(1, { reading: reading(3.3) });
    for (const order of [
      [change, voided()],
      [voided(), change],
    ]) {
      const { runs } = await fold(draft('run-recorded', runRecorded(1)), ...order);
      expect(runs[0]).toMatchObject({
        voided: { reason: 'hose loose' },
        body: { reading: { vaL: 3.3 } },
        simulation: { excluded: true },
      });
    }
  });

  it('moves to the analyzer, the place in time and the epoch that it is amended to', async () => {
    const { runs } = await fold(
      draft('run-recorded', runRecorded(1, { madeAt: '2026-03-02T07:00:00.000Z' })),
      draft('run-recorded', runRecorded(2, { madeAt: '2026-03-02T08:00:00.000Z' })),
      draft('baseline-started', {
        baselineId: 'baseline-of-room-5',
        analyzerId: 'analyzer-room-5',
        from: '2026-03-02T08:30:00.000Z',
        reason: 'moved',
      }),
      amended(1, { analyzerId: 'analyzer-room-5', madeAt: '2026-03-02T09:00:00.000Z' }),
    );
    expect(runs.map(({ id }) => id)).toEqual([2, 1].map(ids.run));
    expect(runs[1]?.simulation).toMatchObject({
      analyzerId: 'analyzer-room-5',
      epoch: 1,
      at: Date.UTC(2026, 2, 2, 9),
    });
  });

  it('lists an amendment of an unknown run, and one that names an unknown analyzer', async () => {
    const nowhere = amended(9, {});
    const elsewhere = amended(1, { analyzerId: 'analyzer-nowhere' }, 'elsewhere');
    const { problems } = await fold(draft('run-recorded', runRecorded(1)), nowhere, elsewhere);
    expect(problems).toEqual([
      { entryId: nowhere.id, sentence: expect.stringMatching(/Amends run run-number-9/) },
      { entryId: elsewhere.id, sentence: expect.stringMatching(/analyzer analyzer-nowhere/) },
    ]);
  });

  it('comes out the same in whatever order two workstations’ entries come', async () => {
    const first = await sealChain([
      ...laboratoryDrafts(),
      otherAnalyzer,
      draft('run-recorded', runRecorded(1)),
      amended(1, { reading: reading(3.3) }, 'from a'),
      draft('run-recorded', runRecorded(2)),
    ]);
    const second = await sealChain(
      [
        amended(1, { reading: reading(3.4) }, 'from b, earlier'),
        amended(1, { analyzerId: 'analyzer-room-5' }, 'from b, later'),
        draft('run-voided', { runId: ids.run(2), reason: 'typed twice' }),
      ],
      { workstation: 'workstation-b', from: '2026-03-02T08:04:30.000Z' },
    );
    const merged = [...first, ...second];
    const whole = foldJournal(merged);
    expect(whole.runs.find(({ id }) => id === ids.run(1))?.amendments.map(({ body }) => body.reason)).toEqual(
      ['from b, earlier', 'from a', 'from b, later'],
    );
    fc.assert(
      fc.property(fc.shuffledSubarray(merged, { minLength: merged.length }), (shuffled) => {
        expect(foldJournal(shuffled)).toEqual(whole);
      }),
    );
  });
});
