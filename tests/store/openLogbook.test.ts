import 'fake-indexeddb/auto';

import { afterEach, describe, expect, it, vi } from 'vitest';
import * as z from 'zod/mini';
import { checkChains, sealEntry } from '../../src/journal/chain.ts';
import type { Entry } from '../../src/journal/entries.ts';
import { LogbookDatabase } from '../../src/store/database.ts';
import type { StorageProblem } from '../../src/store/openLogbook.ts';
import { draft, ids, laboratoryDrafts, runRecorded, sealChain } from '../journal/fixtures.ts';
import { addRaw, failed, freshName, open, openRaw, ready } from './storage.ts';

afterEach(() => {
  vi.restoreAllMocks();
  vi.unstubAllGlobals();
});

const aRun = (number: number) => draft('run-recorded', runRecorded(number));
const withReason = (reason: StorageProblem['reason']) =>
  expect.objectContaining({ name: 'StorageProblem', reason });

describe('openLogbook', () => {
  it('is loading at first, then an empty logbook', async () => {
    const handle = open(freshName());
    expect(handle.getSnapshot()).toEqual({ state: 'loading' });
    expect(await ready(handle)).toMatchObject({ entries: [], rawRows: [], newer: null, damaged: [] });
  });

  it('keeps one snapshot until something changes, and tells its listeners when it does', async () => {
    const handle = open(freshName());
    const before = await ready(handle);
    const listener = vi.fn();
    const stop = handle.subscribe(listener);
    expect(handle.getSnapshot()).toBe(before);
    await handle.appendEntries(laboratoryDrafts());
    const after = await ready(handle);
    expect(after).not.toBe(before);
    expect(before.entries).toHaveLength(0);
    expect(listener).toHaveBeenCalledTimes(1);
    stop();
    await handle.appendEntries([aRun(1)]);
    expect(listener).toHaveBeenCalledTimes(1);
  });

  it('finds everything again after it was closed', async () => {
    const name = freshName();
    const handle = open(name);
    const written = await handle.appendEntries([...laboratoryDrafts(), aRun(1)]);
    handle.close();
    const again = await ready(open(name), 1);
    expect(again.entries).toEqual(written);
    expect(again.logbook.runs.map(({ id }) => id)).toEqual([ids.run(1)]);
  });

  it('shows what another handle of the same database writes, reading only what is new', async () => {
    const name = freshName();
    const [here, there] = [open(name), open(name)];
    await here.appendEntries(laboratoryDrafts());
    await ready(there, 3);
    const reads = vi.spyOn(LogbookDatabase.prototype, 'rowsAfter');
    await here.appendEntries([aRun(1)]);
    expect((await ready(there, 4)).logbook.runs).toHaveLength(1);
    expect(reads.mock.calls.every(([arrival]) => arrival >= 3)).toBe(true);
  });

  it('says when the page may not hash', async () => {
    vi.stubGlobal('crypto', { randomUUID: () => 'f3c2d6f0-0000-4000-8000-000000000000' });
    const handle = open(freshName());
    expect((await failed(handle)).problem).toEqual(withReason('unavailable'));
    await expect(handle.appendEntries([aRun(1)])).rejects.toEqual(withReason('unavailable'));
  });
});

describe('appendEntries', () => {
  it('tells of a long save how far the sealing is, with nothing stored before all are', async () => {
    const handle = open(freshName());
    await handle.appendEntries(laboratoryDrafts());
    const stored: number[] = [];
    const told: number[] = [];
    const runs = Array.from({ length: 1200 }, (_, index) => aRun(index));
    await handle.appendEntries(runs, (sealed) => {
      told.push(sealed);
      const snapshot = handle.getSnapshot();
      stored.push(snapshot.state === 'ready' ? snapshot.entries.length : -1);
    });
    expect(told).toEqual([500, 1000]);
    expect(stored).toEqual([3, 3]);
    expect((await ready(handle, 1203)).entries).toHaveLength(1203);
  });

  it('continues the chain of its workstation, at the time and in the zone of the call', async () => {
    const handle = open(freshName(), { now: () => Date.UTC(2026, 2, 2, 8), zone: () => 'America/St_Johns' });
    const [first] = await handle.appendEntries(laboratoryDrafts());
    const [fourth] = await handle.appendEntries([aRun(1)]);
    expect(first).toMatchObject({
      seq: 1,
      prev: '',
      at: '2026-03-02T08:00:00.000Z',
      zone: 'America/St_Johns',
    });
    expect(fourth).toMatchObject({ seq: 4, workstation: first?.workstation });
    const { rawRows } = await ready(handle);
    expect(await checkChains(rawRows)).toMatchObject({
      breaks: [],
      workstations: [{ count: 4, headSeq: 4 }],
    });
  });

  it('resolves with the snapshot up to date', async () => {
    const handle = open(freshName());
    await handle.appendEntries([...laboratoryDrafts(), aRun(1)]);
    expect(handle.getSnapshot()).toMatchObject({ state: 'ready', logbook: { entryCount: 4 } });
  });

  it('keeps the chain whole when two handles write at once', async () => {
    const name = freshName();
    const handles = [open(name), open(name)];
    await handles[0]?.appendEntries(laboratoryDrafts());
    const writes = Array.from({ length: 24 }, (_, number) =>
      handles[number % 2]?.appendEntries([aRun(number)]),
    );
    await Promise.all(writes);
    const { rawRows } = await ready(open(name), 27);
    expect(await checkChains(rawRows)).toMatchObject({
      breaks: [],
      workstations: [{ count: 27, headSeq: 27 }],
    });
  });

  it('does not double an entry that is saved again', async () => {
    const handle = open(freshName());
    const run = aRun(1);
    const [first] = await handle.appendEntries([run]);
    const [again, next] = await handle.appendEntries([run, aRun(2)]);
    expect(again).toEqual(first);
    expect(next).toMatchObject({ seq: 2, prev: first?.hash });
    expect((await ready(handle)).entries).toHaveLength(2);
  });

  it('does not double an entry that is saved again from another handle at the same time', async () => {
    const name = freshName();
    const [here, there] = [open(name), open(name)];
    const run = aRun(1);
    const [one, two] = await Promise.all([here.appendEntries([run]), there.appendEntries([run])]);
    expect(one).toEqual(two);
    expect((await ready(open(name), 1)).rawRows).toHaveLength(1);
  });

  it('refuses another content under a stored id, and two drafts of one id', async () => {
    const handle = open(freshName());
    const run = aRun(1);
    await handle.appendEntries([run]);
    const other = draft('run-recorded', runRecorded(1, { comment: 'changed' }), run.id);
    await expect(handle.appendEntries([other])).rejects.toEqual(withReason('conflict'));
    await expect(handle.appendEntries([run, run])).rejects.toThrow(RangeError);
    expect((await ready(handle)).entries).toHaveLength(1);
  });

  it('stores nothing of a call when one of its drafts is impossible', async () => {
    const handle = open(freshName());
    const impossible = draft('run-recorded', runRecorded(2, { madeAt: 'yesterday' }));
    await expect(handle.appendEntries([aRun(1), impossible])).rejects.toThrow(z.core.$ZodError);
    expect((await ready(handle)).rawRows).toHaveLength(0);
  });

  it('stores nothing of a call when the disk is full half-way, says so, and can be tried again', async () => {
    const name = freshName();
    const handle = open(name);
    await handle.appendEntries(laboratoryDrafts());
    const { add } = IDBObjectStore.prototype;
    let added = 0;
    const full = vi.spyOn(IDBObjectStore.prototype, 'add').mockImplementation(function (
      this: IDBObjectStore,
      ...values
    ) {
      if (++added === 2) throw new DOMException('disk full', 'QuotaExceededError');
      return add.apply(this, values);
    });
    const runs = [aRun(1), aRun(2)];
    await expect(handle.appendEntries(runs)).rejects.toEqual(withReason('quota'));
    full.mockRestore();
    expect((await ready(open(name))).rawRows).toHaveLength(3);
    expect(await handle.appendEntries(runs)).toMatchObject([{ seq: 4 }, { seq: 5 }]);
  });

  it('gives up with a reason when other tabs always write first', async () => {
    const handle = open(freshName());
    await ready(handle);
    vi.spyOn(LogbookDatabase.prototype, 'addAfter').mockResolvedValue(false);
    await expect(handle.appendEntries([aRun(1)])).rejects.toEqual(withReason('conflict'));
  });

  it('rejects once the handle is closed', async () => {
    const handle = open(freshName());
    await ready(handle);
    handle.close();
    await expect(handle.appendEntries([aRun(1)])).rejects.toEqual(withReason('unavailable'));
  });
});

describe('beside a newer release', () => {
  const newerEntry = {
    id: 'entry-of-tomorrow',
    workstation: 'workstation-z',
    seq: 1,
    kind: 'forecast',
    version: 3,
  };

  it('reads on but does not write where a newer entry is stored, even one it has not seen yet', async () => {
    const name = freshName();
    const handle = open(name);
    await handle.appendEntries(laboratoryDrafts());
    await addRaw(name, newerEntry);
    await expect(handle.appendEntries([aRun(1)])).rejects.toEqual(withReason('newer-version'));
    const snapshot = await ready(handle, 4);
    expect(snapshot.newer).toEqual({ kind: 'forecast', version: 3, count: 1 });
    expect(snapshot.logbook.analyzers.size).toBe(1);
    await expect(handle.adoptEntries(await sealChain([aRun(1)]))).rejects.toEqual(
      withReason('newer-version'),
    );
  });

  it('does not open a database that a newer release has rebuilt', async () => {
    const name = freshName();
    const first = open(name);
    await ready(first);
    first.close();
    (await openRaw(name, 20)).close();
    expect((await failed(open(name))).problem).toEqual(withReason('newer-version'));
  });

  it('lets go when another tab brings the database to a newer version', async () => {
    const name = freshName();
    const handle = open(name);
    await ready(handle);
    const newer = await openRaw(name, 20);
    expect((await failed(handle)).problem).toEqual(withReason('newer-version'));
    await expect(handle.appendEntries([aRun(1)])).rejects.toEqual(withReason('newer-version'));
    newer.close();
  });

  it('says that another tab holds an older database, and opens by itself when it lets go', async () => {
    const name = freshName();
    const older = await openRaw(name, 1);
    const handle = open(name);
    expect((await failed(handle)).problem).toEqual(withReason('blocked'));
    older.close();
    expect(await ready(handle)).toMatchObject({ entries: [] });
  });
});

describe('beside a damaged row', () => {
  it('lists the row, leaves it as it is, and goes on', async () => {
    const name = freshName();
    const handle = open(name);
    await handle.appendEntries(laboratoryDrafts());
    const damaged = {
      id: 'entry-damaged',
      workstation: 'workstation-z',
      seq: 1,
      kind: 'run-recorded',
      version: 1,
    };
    await addRaw(name, damaged, 'not even an object');
    await handle.appendEntries([aRun(1)]);
    const snapshot = await ready(handle, 6);
    expect(snapshot.damaged).toEqual([
      { key: 4, problem: expect.any(String) },
      { key: 5, problem: expect.any(String) },
    ]);
    expect(snapshot.rawRows.slice(3, 5)).toEqual([damaged, 'not even an object']);
    expect(snapshot.logbook.runs).toHaveLength(1);
  });

  it('does not write after an end of its chain that nothing can follow', async () => {
    const name = freshName();
    const handle = open(name);
    const [first] = await handle.appendEntries(laboratoryDrafts());
    await addRaw(name, { id: 'entry-damaged', workstation: first?.workstation, seq: 4 });
    await expect(handle.appendEntries([aRun(1)])).rejects.toEqual(withReason('unknown'));
    expect((await ready(handle)).rawRows).toHaveLength(4);
  });
});

describe('adoptEntries', () => {
  it('stores another workstation’s chain once, however often it comes', async () => {
    const handle = open(freshName());
    const chain = await sealChain([...laboratoryDrafts(), aRun(1)]);
    expect(await handle.adoptEntries(chain.slice(0, 2))).toEqual({ added: 2, alreadyThere: 0 });
    expect(await handle.adoptEntries([...chain, ...chain])).toEqual({ added: 2, alreadyThere: 6 });
    expect((await ready(handle)).entries).toEqual(chain);
  });

  it('leaves this workstation’s own chain to go on by itself', async () => {
    const handle = open(freshName());
    await handle.appendEntries(laboratoryDrafts());
    await handle.adoptEntries(await sealChain([aRun(1)]));
    expect(await handle.appendEntries([aRun(2)])).toMatchObject([{ seq: 4 }]);
  });

  it('keeps another entry in a place or under an id that is taken beside what was there', async () => {
    const handle = open(freshName());
    const chain = await sealChain([aRun(1), aRun(2)]);
    await handle.adoptEntries(chain);
    const otherPlace = await sealChain([aRun(3)]);
    const otherId = await sealChain([draft('run-recorded', runRecorded(4), chain[0]?.id)], {
      workstation: 'workstation-b',
    });
    expect(await handle.adoptEntries([...otherPlace, ...otherId])).toEqual({ added: 2, alreadyThere: 0 });
    const { rawRows, logbook } = await ready(handle, 4);
    expect(rawRows).toEqual([...chain, ...otherPlace, ...otherId]);
    const { breaks } = await checkChains(rawRows);
    expect(breaks).toMatchObject([{ kind: 'twice', entryId: otherPlace[0]?.id, seq: 1 }]);
    expect(logbook.problems.map(({ sentence }) => sentence)).toContain(
      'Two different entries have this id; the earlier one counts.',
    );
  });

  it('stores damaged and changed rows as they lie, once', async () => {
    const handle = open(freshName());
    const [entry] = await sealChain([aRun(1)]);
    const changed = { ...entry, by: 'somebody-else' };
    const rows = [entry, changed, 'not even an object', null, { id: 'entry-damaged' }];
    expect(await handle.adoptEntries(rows)).toEqual({ added: 5, alreadyThere: 0 });
    expect(await handle.adoptEntries(rows.toReversed())).toEqual({ added: 0, alreadyThere: 5 });
    expect((await ready(handle)).rawRows).toEqual(rows);
  });

  it('stores a newer row, and writes nothing after it', async () => {
    const handle = open(freshName());
    const newer = { id: 'entry-of-tomorrow', workstation: 'workstation-z', seq: 1, kind: 'x', version: 3 };
    expect(await handle.adoptEntries([newer])).toEqual({ added: 1, alreadyThere: 0 });
    await expect(handle.appendEntries([aRun(1)])).rejects.toEqual(withReason('newer-version'));
  });

  it('stores nothing when the disk is full half-way', async () => {
    const name = freshName();
    const handle = open(name);
    await ready(handle);
    const { add } = IDBObjectStore.prototype;
    let added = 0;
    const full = vi.spyOn(IDBObjectStore.prototype, 'add').mockImplementation(function (
      this: IDBObjectStore,
      ...values
    ) {
      if (++added === 3) throw new DOMException('disk full', 'QuotaExceededError');
      return add.apply(this, values);
    });
    const chain = await sealChain([aRun(1), aRun(2), aRun(3), aRun(4)]);
    await expect(handle.adoptEntries(chain)).rejects.toEqual(withReason('quota'));
    full.mockRestore();
    expect((await ready(open(name))).rawRows).toHaveLength(0);
    expect(await handle.adoptEntries(chain)).toEqual({ added: 4, alreadyThere: 0 });
  });
});

describe('a chain that goes on in two places', () => {
  /** What a copied profile wrote after the copy, as entries of the very chain of `handle`. */
  async function writtenByTheCopy(handle: ReturnType<typeof open>, runs: readonly number[]) {
    const { entries } = await ready(handle);
    const last = entries.at(-1);
    const copy: Entry[] = [];
    for (const run of runs) {
      const before = copy.at(-1) ?? last;
      const place = {
        workstation: last?.workstation ?? '',
        seq: (before?.seq ?? 0) + 1,
        prev: before?.hash ?? '',
        at: '2026-03-03T08:00:00.000Z',
        zone: 'Europe/Oslo',
      };
      copy.push(await sealEntry(aRun(run), place));
    }
    return copy;
  }

  it('keeps both ends, begins a chain of its own, and says so at the fork alone for ever', async () => {
    const name = freshName();
    const handle = open(name);
    await handle.appendEntries(laboratoryDrafts());
    const copy = await writtenByTheCopy(handle, [11, 12]);
    const [own] = await handle.appendEntries([aRun(1)]);
    await handle.adoptEntries(copy);
    const [next] = await handle.appendEntries([aRun(2)]);
    expect(next).toMatchObject({ seq: 1, prev: '' });
    expect(next?.workstation).not.toBe(own?.workstation);
    handle.close();

    const again = open(name);
    expect(await again.appendEntries([aRun(3)])).toMatchObject([{ seq: 2, workstation: next?.workstation }]);
    const { rawRows, logbook } = await ready(again, 8);
    expect(logbook.runs).toHaveLength(5);
    expect((await checkChains(rawRows)).breaks).toMatchObject([{ kind: 'twice', seq: 4 }]);
    expect(await again.readSetting('earlier-workstations', z.array(z.string()))).toEqual([own?.workstation]);
  });

  it('begins a chain of its own, too, where only the copy has gone on', async () => {
    const handle = open(freshName());
    await handle.appendEntries(laboratoryDrafts());
    await handle.adoptEntries(await writtenByTheCopy(handle, [11]));
    expect(await handle.appendEntries([aRun(1)])).toMatchObject([{ seq: 1 }]);
    expect((await checkChains((await ready(handle)).rawRows)).breaks).toEqual([]);
  });

  it('is left alone by a merge that brings nothing new of it', async () => {
    const handle = open(freshName());
    const [first] = await handle.appendEntries(laboratoryDrafts());
    await handle.adoptEntries([...(await ready(handle)).rawRows, ...(await sealChain([aRun(1)]))]);
    expect(await handle.appendEntries([aRun(2)])).toMatchObject([
      { seq: 4, workstation: first?.workstation },
    ]);
  });

  it('is left behind by the other tabs as well', async () => {
    const name = freshName();
    const [here, there] = [open(name), open(name)];
    await here.appendEntries(laboratoryDrafts());
    await ready(there, 3);
    await here.adoptEntries(await writtenByTheCopy(here, [11]));
    const [one] = await there.appendEntries([aRun(1)]);
    const [two] = await here.appendEntries([aRun(2)]);
    expect([one, two]).toMatchObject([{ seq: 1 }, { seq: 2, workstation: one?.workstation }]);
  });
});

describe('settings', () => {
  it('come back as they were written, in every handle of the database', async () => {
    const name = freshName();
    await open(name).writeSetting('bench-draft', { va: '3.4' });
    expect(await open(name).readSetting('bench-draft', z.object({ va: z.string() }))).toEqual({ va: '3.4' });
  });

  it('are null when never written or when the schema no longer reads them', async () => {
    const handle = open(freshName());
    expect(await handle.readSetting('bench-draft', z.string())).toBeNull();
    await handle.writeSetting('bench-draft', 7);
    expect(await handle.readSetting('bench-draft', z.string())).toBeNull();
  });

  it('do not let the id of the workstation be written', async () => {
    const handle = open(freshName());
    await expect(handle.writeSetting('workstation', 'other')).rejects.toThrow('own');
    await expect(handle.writeSetting('earlier-workstations', [])).rejects.toThrow('own');
  });
});
