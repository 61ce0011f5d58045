/**
 * No byte of a backup can change unseen. What protects them: the header's hash and the hash of the lines below it, over the
 * bytes themselves. The short form tries every byte of the header and of a line of every kind of entry, and every
 * 251st byte of the rest (prime, so that it meets every place of lines that are all equally long); ENDURANCE=1 tries
 * every byte of all.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import { readHeader, sha256OfBytes } from '../../src/exchange/backupFormat.ts';
import { readBackup } from '../../src/exchange/readBackup.ts';
import { backupBytes, chainOf, isEndurance, isSuspect, textOf } from './backupFixtures.ts';

const lineFeed = 0x0a;
const carriageReturn = 0x0d;

/** Another bit, a byte that is no UTF-8, and characters that mean something in JSON or between lines. */
const replacements = (byte: number) =>
  [byte ^ 1, byte ^ 0x20, 0xff, 0x20, 0x30, 0x22, 0x7d, lineFeed, carriageReturn].filter(
    (other, index, all) => other !== byte && all.indexOf(other) === index,
  );

const changed = (bytes: Uint8Array, at: number, by: number) => {
  const copy = new Uint8Array(bytes);
  copy[at] = by;
  return copy;
};

describe('a small backup', () => {
  it('shows every change of every single byte when it is read', async () => {
    const bytes = await backupBytes(await chainOf(isEndurance ? 6 : 4));
    const unseen: [number, number][] = [];
    let tried = 0;
    for (const [at, byte] of bytes.entries()) {
      const others =
        at % 7 === 0 || at === bytes.length - 1 || isEndurance
          ? replacements(byte)
          : replacements(byte).slice(0, 2);
      for (const by of others) {
        tried += 1;
        if (!isSuspect(await readBackup(changed(bytes, at, by)))) unseen.push([at, by]);
      }
    }
    expect(tried).toBeGreaterThan(8000);
    // The one change that means nothing: a carriage return ends the last line as well.
    expect(unseen).toEqual([[bytes.length - 1, carriageReturn]]);
  }, 120_000);

  it('shows every byte that is taken out, and every one put in but white space around the fields of the header', async () => {
    const bytes = await backupBytes(await chainOf(3));
    const headerEnd = bytes.indexOf(lineFeed);
    const unseen: number[] = [];
    for (const at of bytes.keys()) {
      const without = new Uint8Array([...bytes.subarray(0, at), ...bytes.subarray(at + 1)]);
      if (!isSuspect(await readBackup(without))) unseen.push(at);
      const withSpace = new Uint8Array([...bytes.subarray(0, at), 0x20, ...bytes.subarray(at)]);
      // A space in a header is harmless where JSON lets it stand between two fields, and only there.
      if (at > headerEnd && !isSuspect(await readBackup(withSpace))) unseen.push(at);
    }
    expect(unseen).toEqual([bytes.length - 1]); // the last line end is not needed
  }, 120_000);
});

describe('a backup of 500 entries', () => {
  let bytes: Uint8Array<ArrayBuffer>;
  let headerEnd: number;
  beforeAll(async () => {
    bytes = await backupBytes(await chainOf(500));
    headerEnd = bytes.indexOf(lineFeed);
  });

  it('is told changed by its header or by the hash of its lines, whatever byte changes', async () => {
    const read = await readHeader(textOf(bytes.subarray(0, headerEnd)));
    if (read.state !== 'read') throw new Error('the header of an unchanged backup is not read');
    const { contentHash } = read.header;
    const content = bytes.slice(headerEnd + 1);
    expect(await sha256OfBytes(content)).toBe(contentHash);
    const lineEnds = [...content.entries()].flatMap(([at, byte]) => (byte === lineFeed ? [at] : []));
    const firstRunEnd = lineEnds[3] ?? 0; // three lines of the laboratory, then the first run
    const unseen: number[] = [];
    let tried = 0;
    for (const [at, byte] of content.entries()) {
      const isChosen =
        isEndurance || at <= firstRunEnd || at % 251 === 0 || (byte === lineFeed && at % 3 === 0);
      if (!isChosen) continue;
      tried += 1;
      const by = replacements(byte)[at % 4] ?? byte ^ 1;
      content[at] = by;
      if ((await sha256OfBytes(content)) === contentHash) unseen.push(at);
      content[at] = byte;
    }
    for (const [at, byte] of bytes.subarray(0, headerEnd).entries()) {
      for (const by of replacements(byte)) {
        tried += 1;
        const line = new TextDecoder().decode(changed(bytes.subarray(0, headerEnd), at, by));
        if ((await readHeader(line)).state === 'read') unseen.push(at);
      }
    }
    expect(tried).toBeGreaterThan(9000);
    expect(unseen).toEqual([]);
  }, 3_600_000);

  it('is told changed when it is read, at a byte of every twentieth line', async () => {
    const lineStarts = [...bytes.entries()].flatMap(([at, byte]) => (byte === lineFeed ? [at + 1] : []));
    for (const [line, start] of lineStarts.entries()) {
      if (line % (isEndurance ? 1 : 20) !== 0 || start === bytes.length) continue;
      const read = await readBackup(changed(bytes, start + ((line * 37) % 900), 0x21));
      expect(isSuspect(read), `line ${line + 2}`).toBe(true);
      // What was not changed is still taken from it.
      expect(read).toMatchObject({ counts: { known: 499 } });
    }
  }, 120_000);

  it('is told cut off at the end of every line, and within it', async () => {
    const lineEnds = [...bytes.entries()].flatMap(([at, byte]) => (byte === lineFeed ? [at + 1] : []));
    expect(lineEnds).toHaveLength(501);
    // Every line end by the hash that the header carries, every tenth by a reading of all.
    const { contentHash } = JSON.parse(textOf(bytes.subarray(0, headerEnd))) as { contentHash: string };
    for (const end of lineEnds.slice(0, -1)) {
      expect(await sha256OfBytes(bytes.slice(headerEnd + 1, end))).not.toBe(contentHash);
    }
    const step = isEndurance ? 1 : 10;
    for (let line = 0; line < 500; line += step) {
      const end = lineEnds[line] ?? 0;
      const atLineEnd = await readBackup(bytes.slice(0, end));
      expect(atLineEnd, `after ${line} entries`).toMatchObject({
        isWhole: false,
        counts: { known: line },
        problems: [{ kind: 'truncated', sentence: expect.stringContaining(`written with 500 entries`) }],
      });
      const within = await readBackup(bytes.slice(0, Math.floor((end + (lineEnds[line + 1] ?? end)) / 2)));
      expect(within, `within entry ${line + 1}`).toMatchObject({ isWhole: false, counts: { known: line } });
    }
  }, 300_000);

  it('is refused when it is cut off within the header', async () => {
    for (let end = 1; end < headerEnd; end += isEndurance ? 1 : 3) {
      expect(await readBackup(bytes.slice(0, end)), `${end} bytes`).toMatchObject({ state: 'refused' });
    }
  });
});
