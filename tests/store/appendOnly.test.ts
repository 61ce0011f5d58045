import 'fake-indexeddb/auto';

import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { LogbookDatabase } from '../../src/store/database.ts';
import { freshName } from './storage.ts';

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
