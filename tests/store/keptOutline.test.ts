import 'fake-indexeddb/auto';

import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { sha256Hex } from '../../src/journal/chain.ts';
import { draft, ids, laboratoryDrafts, runRecorded } from '../journal/fixtures.ts';
import { addRaw, freshName, open, openRaw, reading, ready } from './storage.ts';

interface Kept {
  of: string;
  text: string;
  hash: string;
}

const aRun = (number: number) => draft('run-recorded', runRecorded(number));
const setting = 'outline';

/** Long enough for an outline to be kept, and for its write to end. */
const untilKept = () => new Promise((resolve) => setTimeout(resolve, 450));

async function storedOutline(name: string): Promise<Kept | undefined> {
  const database = await openRaw(name);
  const request = database.transaction('settings').objectStore('settings').get(setting);
  const value = await new Promise<{ value: Kept } | undefined>((resolve) => {
    request.onsuccess = () => resolve(request.result);
  });
  database.close();
  return value?.value;
}

async function changeOutline(name: string, change: (kept: Kept) => Kept | Promise<Kept>): Promise<void> {
  const kept = await storedOutline(name);
  if (kept === undefined) throw new Error('no outline is kept');
  const changed = await change(kept);
  const database = await openRaw(name);
  const transaction = database.transaction('settings', 'readwrite');
  transaction.objectStore('settings').put({ key: setting, value: changed });
  await new Promise<void>((resolve) => {
    transaction.oncomplete = () => resolve();
  });
  database.close();
}

/** A laboratory with two runs, closed after its outline was kept. */
async function closedLaboratory(): Promise<string> {
  const name = freshName();
  const handle = open(name);
  await handle.appendEntries([...laboratoryDrafts(), aRun(1), aRun(2)]);
  await untilKept();
  handle.close();
  return name;
}

/** Every state that a handle goes through until all is read. */
async function statesOf(name: string): Promise<string[]> {
  const handle = open(name);
  const states: string[] = [];
  handle.subscribe(() => states.push(handle.getSnapshot().state));
  await ready(handle);
  return states;
}

describe('the kept outline', () => {
  let name = '';
  beforeEach(async () => {
    name = await closedLaboratory();
  });
  afterEach(() => vi.restoreAllMocks());

  it('is there before the runs are read, and is followed by all of them', async () => {
    const handle = open(name);
    const { logbook } = await reading(handle);
    expect([...logbook.analyzers.keys()]).toEqual([ids.analyzer]);
    expect(logbook.runs.map(({ id }) => id)).toEqual([ids.run(2)]);
    expect((await ready(handle)).logbook.runs.map(({ id }) => id)).toEqual([ids.run(1), ids.run(2)]);
  });

  it('gives a setting while the runs are read, and writes no entry before', async () => {
    const handle = open(name);
    await reading(handle);
    const saved = handle.appendEntries([aRun(3)]);
    expect(handle.getSnapshot().state).toBe('reading');
    await saved;
    expect((await ready(handle)).logbook.runs).toHaveLength(3);
  });

  it('is not shown when its text was changed', async () => {
    await changeOutline(name, (kept) => ({ ...kept, text: kept.text.replaceAll('Room 2', 'Room 7') }));
    expect(await statesOf(name)).toEqual(['ready']);
  });

  it('is replaced when it says something else than the journal, however well it was made', async () => {
    await changeOutline(name, async (kept) => {
      const text = kept.text.replaceAll('Room 2', 'Room 7');
      return { ...kept, text, hash: await sha256Hex(text) };
    });
    const handle = open(name);
    expect((await reading(handle)).logbook.analyzers.get(ids.analyzer)?.description.label).toBe('Room 7');
    expect((await ready(handle)).logbook.analyzers.get(ids.analyzer)?.description.label).toBe('Room 2');
    await untilKept();
    expect((await storedOutline(name))?.text).toContain('Room 2');
  });

  it('is not shown when the journal went on without it', async () => {
    await addRaw(name, { damaged: true });
    expect(await statesOf(name)).toEqual(['ready']);
  });

  it('is not shown to another release of the program', async () => {
    await changeOutline(name, (kept) => ({ ...kept, of: kept.of.replace(/\S+$/, 'another-program') }));
    expect(await statesOf(name)).toEqual(['ready']);
  });

  it('is not shown when the mark outside knows of more than is stored', async () => {
    const hash = await sha256Hex('something that is lost');
    const mark = { count: 99, workstation: 'workstation-a', seq: 99, hash, at: '2026-03-02T08:00:00.000Z' };
    const handle = open(name, { marker: { read: () => mark, write: () => true } });
    const states: string[] = [];
    handle.subscribe(() => states.push(handle.getSnapshot().state));
    expect((await ready(handle)).missing).toMatchObject({ known: mark });
    expect(states).toEqual(['ready']);
  });

  it('is not kept of a journal with a damaged row', async () => {
    await addRaw(name, { damaged: true });
    const before = await storedOutline(name);
    const handle = open(name);
    await ready(handle);
    await untilKept();
    expect(await storedOutline(name)).toEqual(before);
  });
});
