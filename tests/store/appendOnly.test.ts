import 'fake-indexeddb/auto';

import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { LogbookDatabase } from '../../src/store/database.ts';
import { draft, laboratoryDrafts, runRecorded } from '../journal/fixtures.ts';
import { freshName, open, ready } from './storage.ts';

const source = fileURLToPath(new URL('../../src/', import.meta.url));
const files = readdirSync(source, { recursive: true, encoding: 'utf8' }).filter((name) =>
  /\.tsx?$/.test(name),
);

describe('the stored entries', () => {
  it.each(['put', 'bulkPut', 'update', 'bulkUpdate', 'upsert', 'delete', 'bulkDelete', 'clear', 'modify'])(
    'are never written by %s anywhere in the source',
    (verb) => {
      const pattern = new RegExp(`entries\\)?\\s*(\\.\\s*\\w+\\([^)]*\\)\\s*)*\\.\\s*${verb}\\(`);
      expect(files.length).toBeGreaterThan(5);
      expect(files.filter((name) => pattern.test(readFileSync(`${source}${name}`, 'utf8')))).toEqual([]);
    },
  );

  it('are in a database that the source never deletes, opens past the store, or hands out', () => {
    const past = /deleteDatabase|Dexie\.delete\(|indexedDB\.open|\bdatabase\.delete\(/;
    expect(files.filter((name) => past.test(readFileSync(`${source}${name}`, 'utf8')))).toEqual([]);
    const reaching = files.filter((name) => /from 'dexie'/.test(readFileSync(`${source}${name}`, 'utf8')));
    expect(reaching.filter((name) => !name.startsWith('store'))).toEqual([]);
  });

  it('stay byte for byte what they were when a run is amended, voided and amended again', async () => {
    const handle = open(freshName());
    const recorded = runRecorded(1);
    const { runId, origin: _, judged, ...content } = recorded;
    if (judged === null) throw new Error('the fixture has no verdict');
    await handle.appendEntries([...laboratoryDrafts(), draft('run-recorded', recorded)]);
    const before = JSON.stringify((await ready(handle, 4)).rawRows);
    const amendment = (amendmentId: string) =>
      draft('run-amended', {
        amendmentId,
        runId,
        run: { ...content, comment: amendmentId },
        judged,
        reason: 'put right',
      });
    await handle.appendEntries([amendment('amendment-one')]);
    await handle.appendEntries([draft('run-voided', { runId, reason: 'hose loose' })]);
    await handle.appendEntries([amendment('amendment-two')]);
    const after = (await ready(handle, 7)).rawRows;
    expect(JSON.stringify(after.slice(0, 4))).toBe(before);
    expect(after).toHaveLength(7);
  });

  it('refuse to be changed or removed by any verb of the database itself', async () => {
    const database = new LogbookDatabase(freshName());
    const entry = { id: 'entry-one', workstation: 'workstation-a', seq: 1 };
    expect(await database.addAfter(0, [entry])).toBe(true);
    const entries = database.table('entries');
    const attempts = [
      () => entries.put({ ...entry, seq: 2 }, 1),
      () => entries.bulkPut([{ ...entry, seq: 2 }], [1]),
      () => entries.update(1, { seq: 2 }),
      () => entries.delete(1),
      () => entries.bulkDelete([1]),
      () => entries.clear(),
      () => entries.where(':id').equals(1).delete(),
      () => entries.toCollection().modify({ seq: 2 }),
    ];
    for (const attempt of attempts) await expect(attempt()).rejects.toThrow(/only added to/);
    expect(await database.rowsAfter(0)).toEqual([{ arrival: 1, value: entry }]);
    database.close();
  });
});
