import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Entry, EntryDraft } from '../../src/journal/entries.ts';
import { foldJournal, seriesClosures } from '../../src/journal/fold.ts';
import {
  analyzerAdded,
  draft,
  ids,
  laboratoryDrafts,
  runRecorded,
  sealChain,
  syringeAdded,
  technologistAdded,
} from './fixtures.ts';

const reason = 'put right';
const baselineStarted = (number: number, from: string) =>
  draft('baseline-started', { baselineId: `baseline-${number}`, analyzerId: ids.analyzer, from, reason });
const closed = (openedByRunId: string, closedAt: string) =>
  draft('failure-closed', {
    closureId: 'closure-one',
    analyzerId: ids.analyzer,
    failures: [
      { method: 'syringe', route: 'patient-test', quantity: 'va', openedByRunId },
      { method: 'syringe', route: 'built-in', quantity: 'dlco', openedByRunId },
    ],
    closedAt,
    reason,
    correctiveAction: 'Valve replaced',
    signature: null,
  });

const fold = async (drafts: readonly EntryDraft[]) =>
  foldJournal(await sealChain([...laboratoryDrafts(), ...drafts]));

describe('foldJournal', () => {
  it('gives an empty logbook for an empty journal', () => {
    expect(foldJournal([])).toMatchObject({ runs: [], problems: [], entryCount: 0, newestAt: null });
  });

  it('keeps the last description of a thing and all of its history', async () => {
    const { analyzerId, ...description } = analyzerAdded;
    const logbook = await fold([
      draft('analyzer-changed', { ...analyzerAdded, place: 'First floor', reason: 'moved' }),
      draft('syringe-changed', { ...syringeAdded, leakCheckDueOn: '2026-12-01', reason: 'checked' }),
      draft('technologist-changed', { ...technologistAdded, initials: 'IMa', reason: 'two had IM' }),
      draft('analyzer-retired', { analyzerId, reason: 'sold' }),
    ]);
    const analyzer = logbook.analyzers.get(analyzerId);
    expect(analyzer?.description).toEqual({ ...description, place: 'First floor' });
    expect(analyzer?.history.map(({ kind }) => kind)).toEqual([
      'analyzer-added',
      'analyzer-changed',
      'analyzer-retired',
    ]);
    expect(analyzer?.retired).toEqual({ at: '2026-03-02T08:06:00.000Z', by: ids.supervisor, reason: 'sold' });
    expect(logbook.syringes.get(ids.syringe)?.description.leakCheckDueOn).toBe('2026-12-01');
    expect(logbook.technologists.get(ids.supervisor)).toMatchObject({
      initials: 'IMa',
      role: 'supervisor',
      retired: null,
    });
    expect(logbook.problems).toEqual([]);
  });

  it('puts runs in the order they were made, not written', async () => {
    const logbook = await fold([
      draft('run-recorded', runRecorded(1, { madeAt: '2026-03-02T07:45:00.000Z' })),
      draft('run-recorded', runRecorded(2, { madeAt: '2026-02-23T07:45:00.000Z' })),
      draft('run-recorded', runRecorded(3, { madeAt: '2026-03-02T07:45:00.000Z' })),
    ]);
    expect(logbook.runs.map(({ id }) => id)).toEqual([2, 1, 3].map(ids.run));
  });

  it('keeps a voided run, with who voided it and why, and excludes it from the statistics', async () => {
    const logbook = await fold([
      draft('run-recorded', runRecorded(1)),
      draft('run-voided', { runId: ids.run(1), reason: 'wrong analyzer chosen' }),
    ]);
    expect(logbook.runs[0]).toMatchObject({
      id: ids.run(1),
      voided: { at: '2026-03-02T08:04:00.000Z', by: ids.supervisor, reason: 'wrong analyzer chosen' },
      simulation: { excluded: true },
    });
  });

  it('counts the baselines started up to a run as its epoch, the instant itself included', async () => {
    const logbook = await fold([
      draft('run-recorded', runRecorded(1, { madeAt: '2026-03-01T07:00:00.000Z' })),
      draft('run-recorded', runRecorded(2, { madeAt: '2026-03-02T07:00:00.000Z' })),
      draft('run-recorded', runRecorded(3, { madeAt: '2026-03-03T07:00:00.000Z' })),
      draft(
        'run-recorded',
        runRecorded(4, { madeAt: '2026-03-03T07:00:00.000Z', analyzerId: 'analyzer-elsewhere' }),
      ),
      baselineStarted(1, '2026-03-02T07:00:00.000Z'),
      baselineStarted(2, '2026-03-02T12:00:00.000Z'),
    ]);
    expect(logbook.runs.map(({ simulation }) => simulation.epoch)).toEqual([0, 1, 2, 0]);
  });

  it('hands the core a run with its numbers as recorded', async () => {
    const logbook = await fold([draft('run-recorded', runRecorded(1))]);
    const { ambient, reading, conversion, syringe, limits } = runRecorded(1);
    expect(logbook.runs[0]?.simulation).toMatchObject({
      id: ids.run(1),
      at: Date.UTC(2026, 2, 2, 7, 45),
      excluded: false,
      ...{ ambient, reading, conversion, syringe, limits },
    });
  });

  it('lists one closure for each series that an entry closes', async () => {
    const logbook = await fold([
      draft('run-recorded', runRecorded(1)),
      closed(ids.run(1), '2026-03-05T10:00:00.000Z'),
    ]);
    const at = Date.UTC(2026, 2, 5, 10);
    const series = { analyzerId: ids.analyzer, method: 'syringe', at };
    expect(seriesClosures(logbook)).toEqual([
      { ...series, route: 'patient-test', quantity: 'va' },
      { ...series, route: 'built-in', quantity: 'dlco' },
    ]);
  });
});

describe('foldJournal on entries that do not add up', () => {
  it.each<[string, EntryDraft, RegExp]>([
    [
      'a void of an unknown run',
      draft('run-voided', { runId: 'run-nowhere', reason }),
      /Voids run run-nowhere/,
    ],
    [
      'a change of an unknown analyzer',
      draft('analyzer-changed', { ...analyzerAdded, analyzerId: 'analyzer-x', reason }),
      /Changes/,
    ],
    [
      'a retirement of an unknown syringe',
      draft('syringe-retired', { syringeId: 'syringe-x', reason }),
      /Retires/,
    ],
    [
      'a second analyzer of one id',
      draft('analyzer-added', { ...analyzerAdded, label: 'Other' }),
      /already in the logbook/,
    ],
    [
      'a run on an unknown analyzer',
      draft('run-recorded', runRecorded(1, { analyzerId: 'analyzer-x' })),
      /analyzer analyzer-x/,
    ],
    [
      'a run with an unknown syringe',
      draft('run-recorded', runRecorded(1, { syringeId: 'syringe-x' })),
      /syringe syringe-x/,
    ],
    [
      'a run by an unknown technologist',
      draft('run-recorded', runRecorded(1, { technologistId: 'nobody-known' })),
      /nobody-known/,
    ],
    [
      'an entry by an unknown technologist',
      { ...draft('run-recorded', runRecorded(1)), by: 'nobody-known' },
      /nobody-known/,
    ],
    ['a closure of an unknown run', closed('run-nowhere', '2026-03-05T10:00:00.000Z'), /run run-nowhere/],
  ])('lists %s', async (_, wrong, sentence) => {
    const logbook = await fold([wrong]);
    expect(logbook.problems).toEqual([{ entryId: wrong.id, sentence: expect.stringMatching(sentence) }]);
  });

  it('keeps the record all the same: a run on an unknown analyzer is still a run', async () => {
    const logbook = await fold([draft('run-recorded', runRecorded(1, { analyzerId: 'analyzer-x' }))]);
    expect(logbook.runs.map(({ id }) => id)).toEqual([ids.run(1)]);
  });

  it('counts the first of two voids and of two retirements', async () => {
    const logbook = await fold([
      draft('run-recorded', runRecorded(1)),
      draft('run-voided', { runId: ids.run(1), reason: 'first' }),
      draft('run-voided', { runId: ids.run(1), reason: 'second' }),
      draft('syringe-retired', { syringeId: ids.syringe, reason: 'first' }),
      draft('syringe-retired', { syringeId: ids.syringe, reason: 'second' }),
    ]);
    expect(logbook.runs[0]?.voided?.reason).toBe('first');
    expect(logbook.syringes.get(ids.syringe)?.retired?.reason).toBe('first');
    expect(logbook.problems).toHaveLength(2);
  });

  it('counts an entry that came twice once, and lists two that share an id', async () => {
    const entries = await sealChain(laboratoryDrafts());
    expect(foldJournal([...entries, ...entries])).toEqual(foldJournal(entries));
    const [first] = entries;
    const impostor = await sealChain([draft('technologist-added', technologistAdded, first?.id)], {
      workstation: 'workstation-b',
    });
    expect(foldJournal([...impostor, ...entries]).problems).toEqual([
      { entryId: first?.id, sentence: expect.stringContaining('have this id') },
    ]);
  });
});

describe('foldJournal on several workstations', () => {
  let merged: Entry[] = [];
  beforeAll(async () => {
    const first = await sealChain([
      ...laboratoryDrafts(),
      draft('run-recorded', runRecorded(1)),
      draft('analyzer-changed', { ...analyzerAdded, place: 'from a', reason }),
      draft('run-recorded', runRecorded(2)),
      draft('run-recorded', runRecorded(3, { madeAt: '2026-03-02T07:30:00.000Z' })),
      baselineStarted(1, '2026-03-02T07:40:00.000Z'),
    ]);
    const second = await sealChain(
      [
        draft('run-voided', { runId: ids.run(2), reason: 'typed twice' }),
        draft('analyzer-changed', { ...analyzerAdded, place: 'from b', reason }),
        draft('run-recorded', runRecorded(4)),
        draft('syringe-retired', { syringeId: ids.syringe, reason }),
      ],
      { workstation: 'workstation-b', from: '2026-03-02T08:02:30.000Z' },
    );
    merged = [...first, ...second];
  });

  it('gives the same logbook in whatever order the entries come', () => {
    const whole = foldJournal(merged);
    expect(whole.problems).toEqual([]);
    fc.assert(
      fc.property(fc.shuffledSubarray(merged, { minLength: merged.length }), (shuffled) => {
        expect(foldJournal(shuffled)).toEqual(whole);
      }),
    );
  });

  it('gives the same logbook when the journal is split in parts, with overlaps, and merged again', () => {
    const whole = foldJournal(merged);
    fc.assert(
      fc.property(fc.subarray(merged), fc.subarray(merged), (one, two) => {
        const rest = merged.filter((entry) => !one.includes(entry));
        expect(foldJournal([...two, ...rest, ...one])).toEqual(whole);
      }),
    );
  });

  it('folds a void that carries an earlier time than the run it voids', () => {
    // workstation-b's void is of 08:02:30, workstation-a's run of 08:05: b's clock is behind.
    expect(foldJournal(merged).runs.find(({ id }) => id === ids.run(2))?.voided?.reason).toBe('typed twice');
  });

  it('keeps the order of a chain whose clock was set back, and of the others beside it', async () => {
    const change = (place: string) => draft('analyzer-changed', { ...analyzerAdded, place, reason });
    const first = await sealChain([...laboratoryDrafts(), change('second'), change('third')], {
      at: [
        '2026-03-02T08:00:00.000Z',
        '2026-03-02T08:01:00.000Z',
        '2026-03-02T08:02:00.000Z',
        '2026-03-02T09:00:00.000Z',
        '2026-03-02T07:00:00.000Z',
      ],
    });
    const second = await sealChain([change('first')], {
      workstation: 'workstation-b',
      from: '2026-03-02T08:30:00.000Z',
    });
    const analyzer = foldJournal([...second, ...first]).analyzers.get(ids.analyzer);
    expect(analyzer?.history.slice(1).map(({ body }) => 'place' in body && body.place)).toEqual([
      'first',
      'second',
      'third',
    ]);
    expect(analyzer?.description.place).toBe('third');
  });
});
