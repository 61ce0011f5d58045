/** Three workstations' entries, split, shuffled and merged in any order, are one same logbook. */
import 'fake-indexeddb/auto';

import * as fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { chainSummaries, checkChains, sealEntry } from '../../src/journal/chain.ts';
import { type Entry, readEntry } from '../../src/journal/entries.ts';
import { foldJournal } from '../../src/journal/fold.ts';
import { createRowSet, unionOf } from '../../src/journal/union.ts';
import { cases } from '../exchange/backupFixtures.ts';
import { draft, ids, laboratoryDrafts, runRecorded, sealChain } from '../journal/fixtures.ts';
import { freshName, open, ready } from './storage.ts';

/** Three chains at work on one laboratory, one of them continued in two places, and an entry beside its changed copy. */
let rows: unknown[];

beforeAll(async () => {
  const aRun = (number: number) => draft('run-recorded', runRecorded(number));
  const voided = (number: number) => draft('run-voided', { runId: ids.run(number), reason: 'Typed twice.' });
  const one = await sealChain([...laboratoryDrafts(), aRun(1), aRun(2), voided(11)]);
  const two = await sealChain([aRun(11), aRun(12), voided(1)], {
    workstation: 'workstation-b',
    from: '2026-03-02T08:01:30.000Z',
  });
  const three = await sealChain([aRun(21), voided(12), aRun(1)], {
    workstation: 'workstation-c',
    from: '2026-03-02T07:00:00.000Z', // a clock that is behind
  });
  const trunk = one.at(-2);
  const fork = await sealEntry(aRun(31), {
    workstation: 'workstation-a',
    seq: 6,
    prev: trunk?.hash ?? '',
    at: '2026-03-02T08:06:00.000Z',
    zone: 'Europe/Oslo',
  });
  rows = [...one, ...two, ...three, fork, { ...one[3], by: ids.technologist }];
});

const entriesOf = (raw: readonly unknown[]): Entry[] =>
  raw.flatMap((row) => {
    const read = readEntry(row);
    return read.state === 'known' ? [read.entry] : [];
  });

/** What a merge must agree on: the logbook, the heads, and what is told of the chains. */
async function whatIsSeen(raw: readonly unknown[]) {
  const { breaks } = await checkChains(raw);
  return {
    logbook: foldJournal(entriesOf(raw)),
    heads: chainSummaries(raw),
    breaks: breaks.map(({ kind, seq, workstation }) => `${workstation} ${seq} ${kind}`).sort(),
  };
}

/** Some of the rows for each of three workstations, each row on one at least, each list in an order of its own. */
const split = fc.infiniteStream(fc.nat(6)).chain((owners) => {
  const lists: unknown[][] = [[], [], []];
  for (const row of rows) {
    const mask = (owners.next().value ?? 0) + 1;
    for (const [index, list] of lists.entries()) if ((mask >> index) & 1) list.push(row);
  }
  const shuffled = (list: readonly unknown[]) => fc.shuffledSubarray([...list], { minLength: list.length });
  return fc.tuple(...lists.map(shuffled));
});

function merged(lists: readonly (readonly unknown[])[]): unknown[] {
  const all: unknown[] = [];
  for (const list of lists) all.push(...unionOf(createRowSet(all), list).fresh);
  return all;
}

describe('shuffled merges of three workstations', () => {
  it('give one same logbook, the same heads and the same faults in whatever order', async () => {
    const expected = await whatIsSeen(rows);
    expect(expected.logbook.runs).toHaveLength(6);
    expect(expected.breaks).toContain('workstation-a 6 twice');
    await fc.assert(
      fc.asyncProperty(split, fc.shuffledSubarray([0, 1, 2], { minLength: 3 }), async (lists, order) => {
        const all = merged(order.map((index) => lists[index] ?? []));
        expect(all).toHaveLength(rows.length);
        expect(await whatIsSeen(all)).toEqual(expected);
      }),
      { numRuns: cases(400, 4000) },
    );
  }, 600_000);

  it('are the same again when everything is merged a second time', () => {
    fc.assert(
      fc.property(split, (lists) => {
        const all = merged(lists);
        expect(unionOf(createRowSet(all), merged(lists.toReversed()))).toEqual({
          fresh: [],
          alreadyThere: rows.length,
          conflicts: [],
        });
      }),
      { numRuns: cases(100, 1000) },
    );
  }, 600_000);

  it('name the same contradictions one by one, whichever side was there first', () => {
    const conflictsIn = (list: readonly unknown[]) =>
      unionOf(createRowSet(), list)
        .conflicts.map(({ kind, seq }) => `${kind} ${seq}`)
        .sort();
    expect(conflictsIn(rows)).toEqual(['id 4', 'place 6']);
    fc.assert(
      fc.property(split, (lists) => {
        expect(conflictsIn(merged(lists))).toEqual(['id 4', 'place 6']);
      }),
    );
  });

  it('give it in storage, too, and read again after a restart', async () => {
    const expected = await whatIsSeen(rows);
    await fc.assert(
      fc.asyncProperty(split, async (lists) => {
        const name = freshName();
        const handle = open(name);
        for (const list of lists) await handle.adoptEntries(list);
        expect(await whatIsSeen((await ready(handle)).rawRows)).toEqual(expected);
        handle.close();
        const again = open(name);
        expect((await ready(again, rows.length)).logbook).toEqual(expected.logbook);
        again.close();
      }),
      { numRuns: cases(15, 200) },
    );
  }, 600_000);
});
