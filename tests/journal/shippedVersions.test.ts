import 'fake-indexeddb/auto';

import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { checkChains } from '../../src/journal/chain.ts';
import { type Entry, entryKinds, readEntry } from '../../src/journal/entries.ts';
import { foldJournal } from '../../src/journal/fold.ts';
import { verifySignatures } from '../../src/journal/signature.ts';
import { freshName, open, ready } from '../store/storage.ts';

const folder = new URL('../fixtures/', import.meta.url);
const names = readdirSync(folder).filter((name) => /^journal-v\d+\.jsonl$/.test(name));

function rowsOf(name: string): unknown[] {
  const lines = readFileSync(new URL(name, folder), 'utf8').trimEnd().split('\n');
  return lines.map((line) => JSON.parse(line));
}

function entriesOf(name: string): Entry[] {
  return rowsOf(name).flatMap((row) => {
    const read = readEntry(row);
    return read.state === 'known' ? [read.entry] : [];
  });
}

describe.each(names)('a journal as it was written, %s', (name) => {
  it('is read to the last entry, and its chain holds', async () => {
    const rows = rowsOf(name);
    expect(rows.length).toBeGreaterThan(20);
    expect(rows.map(readEntry).filter(({ state }) => state !== 'known')).toEqual([]);
    expect(await checkChains(rows)).toMatchObject({ breaks: [], workstations: [{ headSeq: rows.length }] });
  });

  it('is taken over by a store, and folds to a logbook', async () => {
    const handle = open(freshName());
    await handle.adoptEntries(rowsOf(name));
    const { logbook, newer, damaged } = await ready(handle, 1);
    expect({ newer, damaged }).toEqual({ newer: null, damaged: [] });
    expect(logbook.analyzers.size).toBeGreaterThan(0);
    expect(logbook.runs.length).toBeGreaterThan(0);
  });

  it('has signatures that still fit', async () => {
    const entries = entriesOf(name);
    const verdicts = await verifySignatures(entries, foldJournal(entries).keys);
    expect(verdicts.map(({ verdict }) => verdict)).toContain('valid');
    expect(verdicts.filter(({ verdict }) => !['valid', 'unsigned'].includes(verdict))).toEqual([]);
  });
});

describe('the fixtures of journals as they were written', () => {
  it('hold every kind of entry that is written now: make them anew before a release, add another after it', () => {
    const kept = new Set(names.flatMap(entriesOf).map(({ kind }) => kind));
    expect(entryKinds.length).toBeGreaterThan(10);
    expect(entryKinds.filter((kind) => !kept.has(kind))).toEqual([]);
  });
});
