/**
 * Whatever a file holds, its reading gives a message or clean rows, never an exception. ENDURANCE=1 runs ten thousand cases
 * in all, the short form two thousand.
 */
import * as fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { writeBackup } from '../../src/exchange/backup.ts';
import { backupLimits } from '../../src/exchange/backupFormat.ts';
import { type BackupReading, readBackup } from '../../src/exchange/readBackup.ts';
import { hashEntry, hashFits } from '../../src/journal/chain.ts';
import { type Entry, readEntry } from '../../src/journal/entries.ts';
import { foldJournal } from '../../src/journal/fold.ts';
import { createRowSet, unionOf } from '../../src/journal/union.ts';
import { backupBytes, bytesOf, cases, chainOf, place, textOf } from './backupFixtures.ts';

let chain: Entry[];
beforeAll(async () => {
  chain = await chainOf(6);
});

/** What must hold of every reading; gives it back when there is something in it. */
async function isSound(read: BackupReading): Promise<void> {
  if (read.state === 'refused') {
    expect(read.sentence).toMatch(/\.$/);
    return;
  }
  const { rows, counts, problems, isWhole } = read;
  expect(counts.known + counts.newer + counts.damaged).toBe(rows.length);
  for (const { sentence } of problems) expect(sentence).toMatch(/\.$/);
  if (!isWhole) for (const row of rows) expect(await hashFits(row)).toBe(true);
  const { fresh, alreadyThere } = unionOf(createRowSet(), rows);
  expect(fresh.length + alreadyThere).toBe(rows.length);
  const entries = fresh.flatMap((row) => {
    const one = readEntry(row);
    return one.state === 'known' ? [one.entry] : [];
  });
  expect(foldJournal(entries).entryCount).toBeLessThanOrEqual(entries.length);
}

const hostileNumbers = [1e308, -1e308, 5e-324, 2 ** 53, -(2 ** 53), 0.1 + 0.2, -1, 1.5, 4294967296];
const hostileTexts = [
  '',
  '\0',
  '\u202e',
  '\ud800',
  '__proto__',
  'constructor',
  '=cmd|1',
  '"',
  '\\',
  '\u2028',
];
const hostileKeys = ['__proto__', 'constructor', 'toString', 'hasOwnProperty', 'toJSON', 'length', 'id', ''];

const hostileValue: fc.Arbitrary<unknown> = fc.oneof(
  fc.constantFrom<unknown>(null, true, [], {}, [[]], ...hostileNumbers, ...hostileTexts),
  fc.jsonValue({ maxDepth: 4 }),
);

/** Every place in a value, as the keys that lead there. */
function pathsIn(value: unknown, path: readonly string[] = []): (readonly string[])[] {
  if (typeof value !== 'object' || value === null) return [path];
  return [path, ...Object.entries(value).flatMap(([key, inner]) => pathsIn(inner, [...path, key]))];
}

function withValueAt(value: unknown, [key, ...rest]: readonly string[], put: unknown): unknown {
  if (key === undefined) return put;
  const copy: Record<string, unknown> = { ...(value as Record<string, unknown>) };
  copy[key] = withValueAt(copy[key], rest, put);
  return Array.isArray(value) ? Object.values(copy) : copy;
}

/** JSON text with an own key `__proto__`, which an object literal would take for something else. */
const withKey = (row: object, key: string, value: unknown) =>
  `{${JSON.stringify(key)}:${JSON.stringify(value) ?? 'null'},${JSON.stringify(row).slice(1)}`;

/** A backup whose header fits whatever lines it is given: written by somebody who knows the format. */
async function forged(lines: readonly string[]): Promise<Uint8Array<ArrayBuffer>> {
  const content = lines.map((line) => `${line}\n`).join('');
  const { header } = await writeBackup(chain, place);
  const digest = Buffer.from(await crypto.subtle.digest('SHA-256', bytesOf(content))).toString('hex');
  const { hash: _, ...unsealed } = { ...header, rows: lines.length, contentHash: digest };
  return bytesOf(`${JSON.stringify({ ...unsealed, hash: await hashEntry(unsealed) })}\n${content}`);
}

const options = (share: number) => ({ numRuns: cases(Math.ceil(share / 5), share) });
const endurance = 600_000;

describe('a hostile backup', () => {
  it(
    'with wrong types, huge numbers and foreign values anywhere in a row is judged',
    async () => {
      await fc.assert(
        fc.asyncProperty(fc.nat(), fc.nat(), hostileValue, fc.boolean(), async (row, place, put, rehash) => {
          const entry = chain[row % chain.length];
          const paths = pathsIn(entry);
          let changed = withValueAt(entry, paths[place % paths.length] ?? [], put);
          if (rehash && typeof changed === 'object' && changed !== null) {
            const { hash: _, ...content } = changed as Record<string, unknown>;
            const hash = await Promise.resolve()
              .then(() => hashEntry(content))
              .catch(() => 'none');
            changed = { ...content, hash };
          }
          const lines = chain.map((one, index) =>
            JSON.stringify(index === row % chain.length ? changed : one),
          );
          await isSound(await readBackup(await forged(lines)));
        }),
        options(4000),
      );
    },
    endurance,
  );

  it(
    'with keys that reach for the prototype leaves every prototype as it is',
    async () => {
      const before = Object.getOwnPropertyNames(Object.prototype).sort();
      await fc.assert(
        fc.asyncProperty(fc.nat(), fc.constantFrom(...hostileKeys), hostileValue, async (row, key, value) => {
          const lines = chain.map((one, index) =>
            index === row % chain.length ? withKey(one, key, value) : JSON.stringify(one),
          );
          await isSound(await readBackup(await forged(lines)));
          expect(Object.getOwnPropertyNames(Object.prototype).sort()).toEqual(before);
          expect(Object.getPrototypeOf({})).toBe(Object.prototype);
        }),
        options(2000),
      );
    },
    endurance,
  );

  it(
    'with ids and places taken over from other rows keeps each row once, and names the conflict',
    async () => {
      await fc.assert(
        fc.asyncProperty(
          fc.array(
            fc.tuple(fc.nat(5), fc.nat(5), fc.constantFrom('id', 'seq', 'prev', 'hash', 'workstation')),
            {
              minLength: 1,
              maxLength: 12,
            },
          ),
          async (thefts) => {
            const rows: unknown[] = [...chain];
            for (const [from, to, field] of thefts) {
              rows.push({ ...chain[to], [field]: chain[from]?.[field as keyof Entry] });
            }
            const read = await readBackup(await backupBytes(rows));
            await isSound(read);
            if (read.state === 'refused') throw new Error(read.sentence);
            const distinct = new Set(rows.map((row) => JSON.stringify(row)));
            const { fresh, conflicts } = unionOf(createRowSet(), read.rows);
            expect(fresh).toHaveLength(distinct.size);
            // Only a row moved to a workstation of its own contradicts nothing, and here all have the same.
            expect(conflicts).toHaveLength(distinct.size - chain.length);
          },
        ),
        options(1500),
      );
    },
    endurance,
  );

  it('with entries that refer to one another in a circle is read and folded', async () => {
    const hash = 'a'.repeat(64);
    const circle = chain.map((entry, index) => ({ ...entry, prev: chain[(index + 3) % 6]?.hash ?? hash }));
    await isSound(await readBackup(await backupBytes(circle)));
  });

  it(
    'of any bytes is judged',
    async () => {
      await fc.assert(
        fc.asyncProperty(fc.uint8Array({ maxLength: 400 }), fc.boolean(), async (bytes, below) => {
          const [header = ''] = textOf(await backupBytes(chain)).split('\n');
          const front = below ? bytesOf(`${header}\n`) : new Uint8Array();
          await isSound(await readBackup(new Uint8Array([...front, ...bytes])));
        }),
        options(1500),
      );
    },
    endurance,
  );

  it(
    'cut and pasted from others is judged',
    async () => {
      const text = textOf(await backupBytes(chain));
      await fc.assert(
        fc.asyncProperty(
          fc.array(fc.tuple(fc.nat(text.length), fc.nat(text.length)), { minLength: 1, maxLength: 4 }),
          async (pieces) => {
            const pasted = pieces.map(([one, other]) =>
              text.slice(Math.min(one, other), Math.max(one, other)),
            );
            await isSound(await readBackup(bytesOf(pasted.join(''))));
          },
        ),
        options(1000),
      );
    },
    endurance,
  );

  it('with a line of 10 MB names the line, and takes the others', async () => {
    const [first, ...others] = chain.map((entry) => JSON.stringify(entry));
    const long = JSON.stringify({ ...chain[0], note: 'x'.repeat(10 * 1024 * 1024) });
    const read = await readBackup(await forged([first ?? '', long, ...others]));
    expect(read).toMatchObject({
      rows: chain,
      problems: [{ line: 3, sentence: 'Line 3 is longer than any entry. It is not taken over.' }],
    });
    const oneLine = await readBackup(bytesOf(`"${'x'.repeat(10 * 1024 * 1024)}"`));
    expect(oneLine).toMatchObject({ state: 'refused', reason: 'foreign' });
  });

  it('nested 100,000 deep names the line, and takes the others', async () => {
    const deep = `${'['.repeat(100_000)}${']'.repeat(100_000)}`;
    const read = await readBackup(await forged([...chain.map((entry) => JSON.stringify(entry)), deep]));
    expect(read).toMatchObject({ rows: chain, problems: [{ line: 8 }] });
    expect(deep.length).toBeLessThan(backupLimits.lineBytes);
    await isSound(await readBackup(bytesOf(deep)));
  });

  it('whose header claims what is not so is read by what is there', async () => {
    const claims = [{ rows: 9e15 }, { rows: -1 }, { chains: 7 }, { writtenAt: 'x' }, { version: 1e300 }];
    for (const claim of claims) {
      const { header, bytes } = await writeBackup(chain, place);
      const { hash: _, ...unsealed } = { ...header, ...claim };
      const line = JSON.stringify({ ...unsealed, hash: await hashEntry(unsealed) });
      await isSound(await readBackup(bytesOf(`${line}\n${textOf(bytes.subarray(bytes.indexOf(10) + 1))}`)));
    }
  });
});
