import 'fake-indexeddb/auto';

import { afterEach, describe, expect, it, vi } from 'vitest';
import type { Mark } from '../../src/journal/entries.ts';
import { type MarkKeeper, markInBrowser } from '../../src/store/marker.ts';
import { draft, laboratoryDrafts, runRecorded, sealChain } from '../journal/fixtures.ts';
import { addRaw, freshName, open, ready } from './storage.ts';

afterEach(() => vi.unstubAllGlobals());

const aRun = (number: number) => draft('run-recorded', runRecorded(number));

/** A keeper that outlives the databases it tells of. */
function keeper(mark: Mark | null = null): MarkKeeper & { mark: Mark | null } {
  return {
    mark,
    read() {
      return this.mark;
    },
    write(next) {
      this.mark = next;
      return true;
    },
  };
}

/** What is left of a logbook of six entries, whose mark is in `marker`, when only `left` of them come back. */
async function afterLossOf(left: number) {
  const marker = keeper();
  const before = open(freshName(), { marker });
  const entries = [
    ...(await before.appendEntries(laboratoryDrafts())),
    ...(await before.appendEntries([1, 2, 3].map(aRun))),
  ];
  before.close();
  const handle = open(freshName(), { marker });
  if (left > 0) {
    // Reaches the database unseen, as what a browser has brought back does.
    await ready(handle);
    await addRaw(handle.name, ...entries.slice(0, left));
    handle.close();
  }
  return { marker, entries, handle: left > 0 ? open(handle.name, { marker }) : handle };
}

describe('the mark outside the database', () => {
  it('knows after each commit how many entries there are and which is the last', async () => {
    const marker = keeper();
    const handle = open(freshName(), { marker });
    await ready(handle);
    expect(marker.mark).toBeNull();
    await handle.appendEntries(laboratoryDrafts());
    const [run] = await handle.appendEntries([aRun(1)]);
    expect(marker.mark).toEqual({
      count: 4,
      workstation: run?.workstation,
      seq: 4,
      hash: run?.hash,
      at: run?.at,
    });
    expect(handle.isMarkKept()).toBe(true);
  });

  it('follows what another handle writes, and is made up for where it was left behind', async () => {
    const name = freshName();
    const [here, there] = [open(name), open(name, { marker: keeper() })];
    await here.appendEntries(laboratoryDrafts());
    await ready(there, 3);
    const marker = keeper();
    expect(await ready(open(name, { marker }), 3)).toMatchObject({ missing: null });
    expect(marker.mark).toMatchObject({ count: 3 });
  });

  it('tells an empty database from a first day', async () => {
    const { handle, marker, entries } = await afterLossOf(0);
    const { missing } = await ready(handle);
    expect(missing).toEqual({
      known: expect.objectContaining({ count: 6, hash: entries[5]?.hash }),
      found: 0,
    });
    expect(marker.mark).toMatchObject({ count: 6 });
    expect(await ready(open(freshName(), { marker: keeper() }))).toMatchObject({ missing: null });
  });

  it('tells a database that came back with less', async () => {
    const { handle, marker } = await afterLossOf(4);
    expect(await ready(handle, 4)).toMatchObject({ missing: { found: 4, known: { count: 6 } } });
    expect(marker.mark).toMatchObject({ count: 6 });
  });

  it('tells a database that holds as much, but not the last entry', async () => {
    const { marker } = await afterLossOf(0);
    const name = freshName();
    const other = open(name);
    await other.adoptEntries(
      await sealChain([1, 2, 3, 4, 5, 6].map(aRun), { workstation: 'workstation-elsewhere' }),
    );
    expect(await ready(open(name, { marker }), 6)).toMatchObject({ missing: { found: 6 } });
  });

  it('does not take a damaged last row for a missing one', async () => {
    const { marker, entries } = await afterLossOf(0);
    const name = freshName();
    await ready(open(name));
    await addRaw(name, ...entries.slice(0, 5), { id: 'entry-damaged' });
    expect(await ready(open(name, { marker }), 6)).toMatchObject({ missing: null });
  });
});

describe('while entries are missing', () => {
  it('nothing is written but what is restored', async () => {
    const { handle, entries } = await afterLossOf(0);
    const refusal = { name: 'StorageProblem', reason: 'missing-entries' };
    await expect(handle.appendEntries([aRun(9)])).rejects.toMatchObject(refusal);
    await handle.adoptEntries(entries.slice(0, 3));
    expect(await ready(handle, 3)).toMatchObject({ missing: { found: 3 } });
    await expect(handle.appendEntries([aRun(9)])).rejects.toMatchObject(refusal);
    await handle.adoptEntries(entries);
    expect(await ready(handle, 6)).toMatchObject({ missing: null });
    expect(await handle.appendEntries([aRun(9)])).toHaveLength(1);
  });

  it('they can be given up under initials, which is an entry, and is asked once', async () => {
    const { handle, marker, entries } = await afterLossOf(0);
    await handle.giveUpMissing('AE');
    const snapshot = await ready(handle, 1);
    expect(snapshot.missing).toBeNull();
    expect(snapshot.entries).toMatchObject([
      {
        kind: 'entries-lost',
        seq: 1,
        body: { initials: 'AE', found: 0, known: { count: 6, hash: entries[5]?.hash } },
      },
    ]);
    expect(snapshot.logbook.problems).toEqual([]);
    expect(marker.mark).toMatchObject({ count: 1 });
    await handle.giveUpMissing('AE');
    expect((await ready(handle)).rawRows).toHaveLength(1);
    handle.close();
    expect(await ready(open(handle.name, { marker }), 1)).toMatchObject({ missing: null });
  });

  it('a decision that was written and not yet marked still stands', async () => {
    const { handle, marker } = await afterLossOf(2);
    const known = marker.mark;
    await ready(handle, 2);
    await handle.giveUpMissing('AE');
    handle.close();
    marker.mark = known;
    expect(await ready(open(handle.name, { marker }), 3)).toMatchObject({ missing: null });
  });
});

describe('markInBrowser', () => {
  const mark: Mark = {
    count: 3,
    workstation: 'workstation-a',
    seq: 3,
    hash: 'a'.repeat(64),
    at: '2026-03-02T08:00:00.000Z',
  };

  it('gives back what it was given, each database its own', () => {
    const kept = new Map<string, string>();
    vi.stubGlobal('localStorage', {
      getItem: (key: string) => kept.get(key) ?? null,
      setItem: (key: string, value: string) => kept.set(key, value),
    });
    expect(markInBrowser('one').read()).toBeNull();
    expect(markInBrowser('one').write(mark)).toBe(true);
    expect(markInBrowser('one').read()).toEqual(mark);
    expect(markInBrowser('other').read()).toBeNull();
    kept.set('one mark', '{"count":');
    expect(markInBrowser('one').read()).toBeNull();
  });

  it('neither throws nor pretends where the browser forbids its small storage', async () => {
    vi.stubGlobal('localStorage', undefined);
    expect(markInBrowser('one').read()).toBeNull();
    expect(markInBrowser('one').write(mark)).toBe(false);
    const name = freshName();
    const handle = open(name, { marker: markInBrowser(name) });
    await handle.appendEntries(laboratoryDrafts());
    expect(handle.isMarkKept()).toBe(false);
    expect((await ready(handle)).entries).toHaveLength(3);
  });
});
