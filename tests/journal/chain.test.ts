import { describe, expect, it } from 'vitest';
import {
  chainHeads,
  chainSummaries,
  checkChains,
  hashEntry,
  hashFits,
  sealEntry,
} from '../../src/journal/chain.ts';
import type { Entry } from '../../src/journal/entries.ts';
import { draft, laboratoryDrafts, runRecorded, sealChain } from './fixtures.ts';

const place = {
  workstation: 'workstation-a',
  seq: 1,
  prev: '',
  at: '2026-03-02T08:00:00.000Z',
  zone: 'Europe/Oslo',
};

async function chainOfFive(): Promise<Entry[]> {
  return sealChain([
    ...laboratoryDrafts(),
    draft('run-recorded', runRecorded(1)),
    draft('run-recorded', runRecorded(2)),
  ]);
}

/** Puts another value in place of the entry at `row`. */
const withRow = (entries: readonly Entry[], row: number, value: (entry: Entry) => unknown): unknown[] =>
  entries.map((entry, index) => (index === row ? value(entry) : entry));

const kindsOf = async (rows: readonly unknown[]) =>
  (await checkChains(rows)).breaks.map(({ kind, entryId }) => [kind, entryId]);

describe('hashEntry', () => {
  it('hashes the canonical JSON of the RFC 8785 example', async () => {
    // Input and canonical form: RFC 8785, sections 3.2.2 and 3.2.3. The digest of that form: GNU coreutils 9 sha256sum.
    const input: object = JSON.parse(
      '{"numbers":[333333333.33333329,1E30,4.50,2e-3,0.000000000000000000000000001],' +
        '"string":"\\u20ac$\\u000F\\u000aA\'\\u0042\\u0022\\u005c\\\\\\"\\/","literals":[null,true,false]}',
    );
    expect(await hashEntry(input)).toBe('2d5e01a318d0f0879ab568c4be289c8b1f64ef8921a53c6277d5e069978baacb');
  });

  it('does not depend on the order of the fields', async () => {
    expect(await hashEntry({ a: 1, b: { c: 2, d: 3 } })).toBe(await hashEntry({ b: { d: 3, c: 2 }, a: 1 }));
  });

  it('refuses what JSON cannot hold', async () => {
    await expect(async () => hashEntry({ vaL: Number.NaN })).rejects.toThrow('NaN');
  });
});

describe('sealEntry', () => {
  it('gives an entry whose hash fits', async () => {
    const entry = await sealEntry(draft('run-recorded', runRecorded(1)), place);
    expect(entry).toMatchObject({ ...place, version: 2, kind: 'run-recorded' });
    expect(await hashFits(entry)).toBe(true);
  });

  it('seals a −0 and an undefined as they would come back from a file', async () => {
    const { reading } = runRecorded(1);
    const body = runRecorded(1, { reading: { ...reading, dlco: -0, breathHoldS: undefined } });
    const entry = await sealEntry(draft('run-recorded', body), place);
    expect(entry).toStrictEqual(JSON.parse(JSON.stringify(entry)));
    expect(await hashFits(JSON.parse(JSON.stringify(entry)))).toBe(true);
  });

  it.each([
    ['a time without its zone letter', { ...place, at: '2026-03-02T08:00:00.000' }],
    ['number 0', { ...place, seq: 0 }],
    ['a link that is no hash', { ...place, prev: 'abc' }],
  ])('refuses %s', async (_, wrongPlace) => {
    await expect(sealEntry(draft('run-recorded', runRecorded(1)), wrongPlace)).rejects.toThrow();
  });
});

describe('checkChains', () => {
  it('finds nothing to say about no rows', async () => {
    expect(await checkChains([])).toEqual({ workstations: [], breaks: [] });
  });

  it('reports each workstation with its head, whatever the order of the rows', async () => {
    const first = await chainOfFive();
    const second = await sealChain(laboratoryDrafts(), { workstation: 'workstation-b' });
    const report = await checkChains([...second, ...first].reverse());
    expect(report.breaks).toEqual([]);
    expect(report.workstations).toEqual([
      { workstation: 'workstation-a', count: 5, headSeq: 5, headHash: first[4]?.hash },
      { workstation: 'workstation-b', count: 3, headSeq: 3, headHash: second[2]?.hash },
    ]);
  });

  it('says how far it is, in whole steps up to the last row', async () => {
    const rows = await sealChain(
      Array.from({ length: 600 }, (_, number) => draft('run-recorded', runRecorded(number))),
    );
    const heard: number[] = [];
    await checkChains(rows, (checked) => void heard.push(checked));
    expect(heard).toEqual([250, 500, 600]);
  });

  it('finds a changed value', async () => {
    const entries = await chainOfFive();
    const rows = withRow(entries, 2, (entry) => ({ ...entry, by: 'technologist-bench' }));
    expect(await kindsOf(rows)).toEqual([['hash', entries[2]?.id]]);
  });

  it('finds a changed value whose hash was made anew, at the entry after it', async () => {
    const entries = await chainOfFive();
    const { hash: _, ...content }: Partial<Entry> = entries[2] ?? {};
    const changed = { ...content, by: 'technologist-bench' };
    const hash = await hashEntry(changed);
    const rows = withRow(entries, 2, () => ({ ...changed, hash }));
    expect(await kindsOf(rows)).toEqual([['prev', entries[3]?.id]]);
  });

  it('finds an added field that a schema would not let through', async () => {
    const entries = await chainOfFive();
    const rows = withRow(entries, 1, (entry) => ({ ...entry, note: 'slipped in' }));
    expect(await kindsOf(rows)).toEqual([
      ['unreadable', entries[1]?.id],
      ['hash', entries[1]?.id],
    ]);
  });

  it('finds a missing entry, and a missing first one', async () => {
    const entries = await chainOfFive();
    expect(await kindsOf(entries.filter((_, row) => row !== 2))).toEqual([['missing', entries[3]?.id]]);
    expect(await kindsOf(entries.slice(1))).toEqual([['missing', entries[1]?.id]]);
  });

  it('finds a number that stands twice', async () => {
    const entries = await chainOfFive();
    const second = await sealEntry(draft('run-recorded', runRecorded(9)), {
      ...place,
      seq: 2,
      prev: entries[0]?.hash ?? '',
    });
    expect(await kindsOf([...entries, second])).toEqual([['twice', second.id]]);
  });

  it('tells a chain that was continued in two places at the fork alone, and has one head in any order', async () => {
    const trunk = await sealChain(laboratoryDrafts());
    const branch = async (runs: readonly number[]) => {
      const entries: Entry[] = [];
      let prev = trunk[2]?.hash ?? '';
      for (const [index, run] of runs.entries()) {
        const one = draft('run-recorded', runRecorded(run));
        const entry = await sealEntry(one, { ...place, seq: 4 + index, prev });
        entries.push(entry);
        prev = entry.hash;
      }
      return entries;
    };
    const [longer, shorter] = [await branch([1, 2, 3]), await branch([4, 5])];
    const rows = [...trunk, ...longer, ...shorter];
    const { breaks, workstations } = await checkChains(rows);
    expect(breaks).toMatchObject([{ kind: 'twice', entryId: shorter[0]?.id, seq: 4 }]);
    expect(breaks[0]?.sentence).toMatch(/which entry .+ has too: .*copied. Both are kept\.$/);
    const head = { workstation: place.workstation, count: 8, headSeq: 6, headHash: longer[2]?.hash };
    expect(workstations).toEqual([head]);
    expect(chainSummaries(rows.toReversed())).toEqual([head]);
    const again = await checkChains(rows.toReversed());
    expect(again.breaks.map(({ kind, seq }) => [kind, seq])).toEqual([['twice', 4]]);
  });

  it('names the one head of two equally long ends, in any order', async () => {
    const ends = await Promise.all(
      [1, 2].map((run) => sealEntry(draft('run-recorded', runRecorded(run)), place)),
    );
    expect(chainSummaries(ends)).toEqual(chainSummaries(ends.toReversed()));
  });

  it('finds a first entry that claims to follow something', async () => {
    const entry = await sealEntry(draft('run-recorded', runRecorded(1)), { ...place, prev: 'a'.repeat(64) });
    expect(await kindsOf([entry])).toEqual([['prev', entry.id]]);
  });

  it.each([null, 'text', 7, [], {}, { id: 'entry-number-x', workstation: 3, seq: '1' }])(
    'names the row of what is no entry at all: %j',
    async (value) => {
      const entries = await chainOfFive();
      const { breaks, workstations } = await checkChains([...entries, value]);
      expect(breaks.map(({ kind, row }) => [kind, row])).toEqual([
        ['unreadable', 5],
        ['hash', 5],
      ]);
      expect(workstations).toHaveLength(1);
    },
  );

  it('lets an entry of a newer version stand in its chain, and sees when it was changed', async () => {
    const entries = await chainOfFive();
    const content = {
      ...place,
      id: 'entry-of-tomorrow',
      seq: 6,
      prev: entries[4]?.hash,
      version: 2,
      kind: 'forecast',
    };
    const newer = { ...content, hash: await hashEntry(content) };
    expect(await kindsOf([...entries, newer])).toEqual([]);
    expect(await kindsOf([...entries, { ...newer, body: 1 }])).toEqual([['hash', 'entry-of-tomorrow']]);
  });
});

describe('chainHeads', () => {
  it('gives the last number and hash of every workstation, whatever the order of the rows', async () => {
    const first = await chainOfFive();
    const second = await sealChain(laboratoryDrafts(), { workstation: 'workstation-b' });
    expect(Object.fromEntries(chainHeads([...second, ...first].reverse()))).toEqual({
      'workstation-a': { seq: 5, hash: first[4]?.hash },
      'workstation-b': { seq: 3, hash: second[2]?.hash },
    });
  });

  it('passes over what has no place in a chain', () => {
    expect(chainHeads([null, 'text', { workstation: 'workstation-a', seq: 'one' }]).size).toBe(0);
  });
});
