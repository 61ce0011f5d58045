import Dexie from 'dexie';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openLogbook } from '../../src/store/openLogbook.ts';
import { draft, runRecorded } from '../journal/fixtures.ts';

// A browser that gives no storage. Dexie looks for it once, when it is loaded, and another file may have brought one by then.
const found = { ...Dexie.dependencies };
beforeEach(() => {
  Reflect.deleteProperty(Dexie.dependencies, 'indexedDB');
});
afterEach(() => {
  Object.assign(Dexie.dependencies, found);
});

describe('openLogbook without storage', () => {
  it('says so, and every verb rejects with the same reason', async () => {
    const handle = openLogbook('logbook-without-storage');
    const run = draft('run-recorded', runRecorded(1));
    const refusal = { name: 'StorageProblem', reason: 'unavailable' };
    await expect(handle.appendEntries([run])).rejects.toMatchObject(refusal);
    await expect(handle.writeSetting('bench-draft', 1)).rejects.toMatchObject(refusal);
    expect(handle.getSnapshot()).toMatchObject({ state: 'failed', problem: refusal });
  });
});
