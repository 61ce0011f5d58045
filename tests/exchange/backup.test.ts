import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { chainsOnlyInBackup, writeBackup } from '../../src/exchange/backup.ts';
import { backupLimits } from '../../src/exchange/backupFormat.ts';
import { readBackup } from '../../src/exchange/readBackup.ts';
import { hashEntry } from '../../src/journal/chain.ts';
import { backupBytes, bytesOf, chainOf, place, reading, textOf } from './backupFixtures.ts';

const linesOf = (bytes: Uint8Array) => textOf(bytes).trimEnd().split('\n');
const headerOf = (bytes: Uint8Array): Record<string, unknown> => JSON.parse(linesOf(bytes)[0] ?? '');

/** A header that was written by somebody who knows the format: its own hash fits. */
async function withHeader(bytes: Uint8Array, changes: object): Promise<string> {
  const [, ...below] = linesOf(bytes);
  const { hash: _, ...header } = { ...headerOf(bytes), ...changes };
  return [JSON.stringify({ ...header, hash: await hashEntry(header) }), ...below, ''].join('\n');
}

describe('writeBackup', () => {
  it('writes a header and one row a line, in order of arrival', async () => {
    const chain = await chainOf(5);
    const lines = linesOf(await backupBytes(chain));
    expect(lines).toHaveLength(6);
    expect(lines.slice(1).map((line) => JSON.parse(line))).toEqual(chain);
    expect(JSON.parse(lines[0] ?? '')).toMatchObject({
      format: 'diffusion-qc-logbook backup',
      version: 1,
      ...place,
      rows: 5,
      unwritable: 0,
      chains: [{ workstation: 'workstation-a', count: 5, headSeq: 5, headHash: chain[4]?.hash }],
    });
  });

  it('hashes the lines below the header as they lie in the file', async () => {
    const bytes = await backupBytes(await chainOf(4));
    const content = bytes.subarray(bytes.indexOf(0x0a) + 1);
    const digest = Buffer.from(await crypto.subtle.digest('SHA-256', content)).toString('hex');
    expect(headerOf(bytes).contentHash).toBe(digest);
  });

  it('takes newer, changed and damaged rows along as they lie', async () => {
    const [entry] = await chainOf(1);
    const newer = { id: 'entry-of-tomorrow', workstation: 'workstation-z', seq: 1, kind: 'x', version: 3 };
    const half = { id: 'half a character \ud800', workstation: '\udfff', seq: 1 };
    const rows = [entry, { ...entry, by: 'somebody-else' }, newer, half, 'text', null, 7, ['list']];
    const read = await reading(await backupBytes(rows));
    expect(read).toMatchObject({ isWhole: true, counts: { known: 1, newer: 1, damaged: 6 } });
    expect(read.rows).toEqual(rows);
  });

  it('counts rows that have no JSON form, and writes the others', async () => {
    const [entry] = await chainOf(1);
    const loop: { self?: unknown } = {};
    loop.self = loop;
    const read = await reading(await backupBytes([loop, entry, undefined, 1n]));
    expect(read.header).toMatchObject({ rows: 1, unwritable: 3 });
    expect(read.rows).toEqual([entry]);
  });

  it.each(['journal-v1.jsonl', 'journal-v2.jsonl', 'journal-v3.jsonl'])(
    'carries every kind of entry there and back, as %s has them',
    async (fixture) => {
      const text = readFileSync(new URL(`../fixtures/${fixture}`, import.meta.url), 'utf8');
      const entries = text
        .trimEnd()
        .split('\n')
        .map((line): unknown => JSON.parse(line));
      const read = await reading(await backupBytes(entries));
      expect(read).toMatchObject({ isWhole: true, counts: { known: entries.length, newer: 0, damaged: 0 } });
      expect(read.rows).toEqual(entries);
    },
  );

  it('lets others go on between its rows', async () => {
    let breaths = 0;
    await writeBackup(Array(700).fill(null), place, async () => {
      breaths += 1;
    });
    expect(breaths).toBe(3);
  });
});

describe('readBackup', () => {
  it('gives back what was written, of an empty logbook too', async () => {
    const chain = await chainOf(7);
    expect(await reading(await backupBytes(chain))).toMatchObject({
      isWhole: true,
      rows: chain,
      counts: { known: 7, newer: 0, damaged: 0 },
      problems: [],
    });
    expect(await reading(await backupBytes([]))).toMatchObject({ isWhole: true, rows: [], problems: [] });
  });

  it('tells how far it is', async () => {
    const steps: [number, number][] = [];
    await readBackup(await backupBytes(await chainOf(600)), {
      onProgress: (...step) => void steps.push(step),
    });
    expect(steps).toEqual([
      [250, 600],
      [500, 600],
      [600, 600],
    ]);
  });

  it.each([
    ['a byte order mark', (text: string) => `\ufeff${text}`],
    ['line ends of another system', (text: string) => text.replaceAll('\n', '\r\n')],
    ['empty lines at the end', (text: string) => `${text}\n\r\n`],
    ['no last line end', (text: string) => text.trimEnd()],
    ['a space in the header', (text: string) => text.replace('":', '": ')],
  ])('is not disturbed by %s', async (_what, change) => {
    const chain = await chainOf(5);
    const read = await reading(change(textOf(await backupBytes(chain))));
    expect(read).toMatchObject({ isWhole: true, rows: chain, problems: [] });
  });

  it('takes from a changed file what was not changed, and names the line that was', async () => {
    const chain = await chainOf(6);
    const text = textOf(await backupBytes(chain)).replace('"comment":""', '"comment":"a"');
    const read = await reading(text);
    expect(read).toMatchObject({ isWhole: false, counts: { known: 5, newer: 0, damaged: 0 } });
    expect(read.rows).toEqual(chain.filter((_, row) => row !== 3));
    expect(read.problems).toEqual([
      { kind: 'content', line: null, sentence: expect.stringContaining('changed after it was written') },
      { kind: 'row', line: 5, sentence: 'Line 5 does not fit its hash. It is not taken over.' },
    ]);
  });

  it('takes the entries of a file whose header is damaged or gone', async () => {
    const chain = await chainOf(5);
    const [header = '', ...below] = linesOf(await backupBytes(chain));
    for (const lines of [[header.slice(0, -9), ...below], [header.replace('1', '0'), ...below], below]) {
      const read = await reading(lines.join('\n'));
      expect(read).toMatchObject({ header: null, isWhole: false, rows: chain });
      expect(read.problems).toMatchObject([{ kind: 'header', line: 1 }]);
    }
  });

  it('reads a header with more fields, and counts the rows of a newer version', async () => {
    const content = { id: 'entry-of-tomorrow', workstation: 'workstation-z', seq: 1, version: 2, kind: 'x' };
    const newer = { ...content, hash: await hashEntry(content) };
    const text = await withHeader(await backupBytes([newer]), { comment: 'of a later release' });
    expect(await reading(text)).toMatchObject({ isWhole: true, rows: [newer], counts: { newer: 1 } });
  });

  it('refuses a newer format, whatever else it holds', async () => {
    const bytes = await backupBytes(await chainOf(3));
    const text = await withHeader(bytes, { version: 2, contentHash: undefined });
    expect(await readBackup(bytesOf(text))).toMatchObject({
      state: 'refused',
      reason: 'newer-version',
      sentence: expect.stringContaining('newer version of the logbook (format 2)'),
    });
  });

  it.each([
    ['an empty file', '', 'empty', 'is empty'],
    ['empty lines', '\n\r\n', 'empty', 'nothing but empty lines'],
    ['a CSV of another program', 'date;va\n2026-01-05;3,45\n', 'foreign', 'a table, such as a CSV file'],
    ['the CSV export', 'run_id,made_at\r\na,b\r\n', 'foreign', 'the runs’ CSV export'],
    ['another program’s JSON', '{"name":"app","version":"1.0.0"}', 'foreign', 'JSON of another kind'],
    ['a list', '[\n  1\n]\n', 'foreign', 'JSON of another kind'],
    ['a web page', '<!doctype html>\n<p>', 'foreign', 'a web page'],
    ['a PDF', '%PDF-1.7\n', 'foreign', 'a PDF document'],
    ['an archive', 'PK\u0003\u0004', 'foreign', 'a compressed archive or a spreadsheet’s own file'],
    ['bytes', 'a\0\0b', 'foreign', 'not a text file'],
    ['a letter', 'Dear all', 'foreign', 'a text of another kind'],
  ])('says of %s what it is', async (_what, text, reason, sentence) => {
    expect(await readBackup(bytesOf(text))).toMatchObject({
      state: 'refused',
      reason,
      sentence: expect.stringContaining(sentence),
    });
  });

  it('refuses a file beyond its size before it looks at it', async () => {
    const length = backupLimits.fileBytes + 1;
    // An array of this length without its memory: a reading of any byte would fail.
    const huge = new Proxy(new Uint8Array(1), {
      get: (target, key) => (key === 'length' ? length : Reflect.get(target, key)),
    });
    expect(await readBackup(huge)).toMatchObject({ state: 'refused', reason: 'too-large' });
  });

  it('says of what is left of a header that it is one', async () => {
    const [header = ''] = linesOf(await backupBytes(await chainOf(3)));
    expect(await readBackup(bytesOf(header.slice(0, 60)))).toMatchObject({ reason: 'unreadable' });
  });
});

describe('chainsOnlyInBackup', () => {
  const firstLineOf = async (rows: readonly unknown[]) => linesOf(await backupBytes(rows))[0] ?? '';

  it('finds nothing when the rows hold all that the backup holds', async () => {
    const chain = await chainOf(6);
    expect(await chainsOnlyInBackup(await firstLineOf(chain.slice(0, 4)), chain)).toEqual([]);
    expect(await chainsOnlyInBackup(await firstLineOf([]), [])).toEqual([]);
  });

  it('finds the chain of which the backup holds more, or another end', async () => {
    const chain = await chainOf(6);
    const other = await chainOf(3, 'workstation-b');
    const found = await chainsOnlyInBackup(await firstLineOf([...chain, ...other]), chain);
    expect(found).toMatchObject([{ workstation: 'workstation-b', count: 3 }]);
    expect(await chainsOnlyInBackup(await firstLineOf(chain), chain.slice(0, 5))).toHaveLength(1);
    expect(await chainsOnlyInBackup(await firstLineOf(chain), [])).toHaveLength(1);
    const elsewhere = await chainOf(8);
    expect(await chainsOnlyInBackup(await firstLineOf(chain), elsewhere)).toHaveLength(1);
    const withGap = chain.filter((_, row) => row !== 2);
    expect(await chainsOnlyInBackup(await firstLineOf(chain), withGap)).toHaveLength(1);
  });

  it('finds nothing to keep in a file that is no backup', async () => {
    expect(await chainsOnlyInBackup('not ours', await chainOf(3))).toEqual([]);
  });
});
