import { describe, expect, it } from 'vitest';
import { openLogbook } from '../../src/store/openLogbook.ts';
import { draft, runRecorded } from '../journal/fixtures.ts';

// Node has no IndexedDB of its own, and this file brings none: a browser that gives no storage.
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
