import { describe, expect, it } from 'vitest';
import { createRowSet, unionOf } from '../../../src/journal/union.ts';
import { buildRestorePreview } from '../../../src/views/parts/buildRestorePreview.ts';
import { backupBytes, chainOf, reading, textOf } from '../../exchange/backupFixtures.ts';

async function preview(
  here: readonly unknown[],
  file: Uint8Array<ArrayBuffer> | string,
  own = 'workstation-x',
) {
  const read = await reading(file);
  const union = unionOf(createRowSet(here), read.rows);
  return buildRestorePreview({ reading: read, union, ownWorkstation: own });
}

const figures = ({ figures }: Awaited<ReturnType<typeof preview>>) =>
  Object.fromEntries(figures.map(({ name, value }) => [name, value]));

describe('buildRestorePreview', () => {
  it('counts what is new and what is here already', async () => {
    const chain = await chainOf(6);
    const built = await preview(chain.slice(0, 4), await backupBytes(chain));
    expect(figures(built)).toEqual({
      Written: '9 Mar 2026, 09:00', // 08:00 UTC in Oslo, in winter
      'By workstation': 'workstation-a',
      'Entries in it': '6',
      'New here': '2',
      'Already here': '4',
      Conflicts: '0',
      Damaged: '0',
    });
    expect(built).toMatchObject({ action: 'Add 2 entries', cautions: [], conflicts: [], problems: [] });
    expect(built.heads).toEqual([
      { workstation: 'workstation-a', count: 6, headSeq: 6, headHash: chain[5]?.hash },
    ]);
  });

  it('offers nothing when everything is here', async () => {
    const chain = await chainOf(4);
    expect((await preview(chain, await backupBytes(chain))).action).toBeNull();
  });

  it('names each conflict with both entries, and where both are kept', async () => {
    const [here, there] = [await chainOf(4), await chainOf(4)];
    const changed = { ...there[0], by: 'somebody-else' };
    const built = await preview([...here, there[0]], await backupBytes([...there, changed]));
    expect(figures(built)).toMatchObject({ 'New here': '4', Conflicts: '4' });
    expect(built.conflicts[0]).toBe(
      `Number 2 of workstation workstation-a is entry ${here[1]?.id} here and entry ${there[1]?.id} in the file: ` +
        'this chain was continued in two places. Both are kept.',
    );
    expect(built.conflicts[3]).toContain('one of the two was changed after it was written. Both are kept');
  });

  it('warns of entries of a newer version before they make the logbook one for reading only', async () => {
    const newer = { id: 'entry-of-tomorrow', workstation: 'workstation-z', seq: 1, kind: 'x', version: 3 };
    const [caution] = (await preview([], await backupBytes([newer]))).cautions;
    expect(caution).toMatch(/^1 entry is of a newer version.*read here but not written/);
  });

  it('warns when the file continues this workstation’s own chain', async () => {
    const file = await backupBytes(await chainOf(4));
    expect((await preview([], file, 'workstation-a')).cautions).toEqual([
      expect.stringContaining('continues this workstation’s own chain'),
    ]);
    const chain = await chainOf(3);
    expect((await preview(chain, await backupBytes(chain), 'workstation-a')).cautions).toEqual([]);
  });

  it('warns of a file that was changed, and counts the lines that are lost', async () => {
    const text = textOf(await backupBytes(await chainOf(5))).replace('"comment":""', '"comment":"a"');
    const built = await preview([], text);
    expect(figures(built)).toMatchObject({ 'Entries in it': '4', 'New here': '4', Damaged: '1' });
    expect(built.cautions).toEqual([expect.stringContaining('The file is not as it was written')]);
    expect(built.problems.at(-1)).toBe('Line 5 does not fit its hash. It is not taken over.');
  });

  it('counts damaged rows of a whole file once', async () => {
    const [entry] = await chainOf(1);
    const built = await preview([], await backupBytes([entry, 'not an entry']));
    expect(figures(built)).toMatchObject({ 'Entries in it': '2', 'New here': '2', Damaged: '1' });
    expect(built.cautions).toEqual([]);
  });
});
