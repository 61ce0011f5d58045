import 'fake-indexeddb/auto';

import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type * as z from 'zod/mini';
import { chainsOnlyInBackup, writeBackup } from '../../src/exchange/backup.ts';
import { readBackup } from '../../src/exchange/readBackup.ts';
import type { CopyFolder } from '../../src/store/copyFolder.ts';
import type { LogbookHandle } from '../../src/store/openLogbook.ts';
import {
  type CopyFormat,
  createSecondCopy,
  type SecondCopy,
  type SecondCopyOptions,
  type SecondCopySnapshot,
} from '../../src/store/secondCopy.ts';
import { chainOf, place } from '../exchange/backupFixtures.ts';
import { draft, laboratoryDrafts, runRecorded } from '../journal/fixtures.ts';
import { freshName, open, ready } from './storage.ts';

const aRun = (number: number) => draft('run-recorded', runRecorded(number));

const format: CopyFormat = {
  write: async (rows) => (await writeBackup(rows, place)).bytes,
  countOnlyIn: async (firstLine, rows) => (await chainsOnlyInBackup(firstLine, rows)).length,
};

/** A folder in memory that behaves as the browser's does: a file changes when its writer is closed, not before. */
function folderInMemory(name = 'share') {
  const files = new Map<string, Uint8Array<ArrayBuffer>>();
  const control = {
    files,
    permission: 'granted' as PermissionState,
    /** Thrown by the next write. */
    trouble: null as Error | null,
    /** A write waits for it. */
    gate: Promise.resolve(),
    writers: 0,
    mostWriters: 0,
    closed: 0,
  };
  const folder: CopyFolder = {
    name,
    queryPermission: async () => control.permission,
    requestPermission: async () => control.permission,
    getFileHandle: async (fileName) => {
      if (!files.has(fileName)) files.set(fileName, new Uint8Array());
      return {
        getFile: async () => new Blob([files.get(fileName) ?? new Uint8Array()]),
        createWritable: async () => {
          control.writers += 1;
          control.mostWriters = Math.max(control.mostWriters, control.writers);
          let pending = new Uint8Array();
          return {
            write: async (bytes) => {
              await control.gate;
              await new Promise((resolve) => setTimeout(resolve, 5));
              if (control.trouble) throw control.trouble;
              pending = bytes;
            },
            close: async () => {
              files.set(fileName, pending);
              control.writers -= 1;
              control.closed += 1;
            },
            abort: async () => {
              control.writers -= 1;
            },
          };
        },
      };
    },
  };
  return { folder, files, control };
}

/** The handle with its settings in memory: a folder made of functions cannot be cloned into a database. */
function withSettingsInMemory(handle: LogbookHandle, settings = new Map<string, unknown>()): LogbookHandle {
  return {
    ...handle,
    readSetting: async <T>(key: string, schema: z.ZodMiniType<T>) => {
      const read = schema.safeParse(settings.get(key));
      return read.success ? read.data : null;
    },
    writeSetting: async (key, value) => void settings.set(key, value),
  };
}

const stops: (() => void)[] = [];
afterEach(() => {
  for (const stop of stops.splice(0)) stop();
});

function started(handle: LogbookHandle, options: SecondCopyOptions = {}): SecondCopy {
  const copy = createSecondCopy(handle, format, { delayMs: 0, retryMs: 20, now: () => 1000, ...options });
  stops.push(copy.start());
  return copy;
}

const until = (copy: SecondCopy, fits: (snapshot: SecondCopySnapshot) => boolean) =>
  vi.waitFor(() => {
    if (!fits(copy.getSnapshot())) throw new Error(JSON.stringify(copy.getSnapshot()));
  });

const isCopied = (rows: number) => (snapshot: SecondCopySnapshot) =>
  snapshot.written?.rows === rows && snapshot.phase.name === 'idle';

async function rowsIn(files: ReadonlyMap<string, Uint8Array<ArrayBuffer>>) {
  const [bytes = new Uint8Array()] = files.values();
  const read = await readBackup(bytes);
  return read.state === 'read' && read.isWhole ? read.rows : null;
}

describe('the standing second copy', () => {
  let handle: LogbookHandle;
  let settings: Map<string, unknown>;
  beforeEach(async () => {
    settings = new Map();
    handle = withSettingsInMemory(open(freshName()), settings);
    await handle.appendEntries(laboratoryDrafts());
  });

  it('is none at first', async () => {
    const copy = started(handle);
    await until(copy, ({ isKnown }) => isKnown);
    expect(copy.getSnapshot()).toMatchObject({ chosen: null, written: null, backup: null });
  });

  it('is written when its folder is picked, and after every save', async () => {
    const { folder, files } = folderInMemory();
    const copy = started(handle);
    await copy.keepIn(folder);
    expect(copy.getSnapshot()).toMatchObject({
      chosen: {
        folder: 'share',
        fileName: expect.stringMatching(/^diffusion-qc-logbook_second-copy.*jsonl$/),
      },
      written: { at: 1000, rows: 3 },
    });
    await handle.appendEntries([aRun(1)]);
    await until(copy, isCopied(4));
    expect(await rowsIn(files)).toEqual((await ready(handle)).rawRows);
  });

  it('has the newest state after many saves, by one writer at a time and in fewer writes', async () => {
    const memory = folderInMemory();
    const copy = started(handle);
    await copy.keepIn(memory.folder);
    await Promise.all(Array.from({ length: 30 }, (_, run) => handle.appendEntries([aRun(run)])));
    await until(copy, isCopied(33));
    expect(await rowsIn(memory.files)).toHaveLength(33);
    expect(memory.control.mostWriters).toBe(1);
    expect(memory.control.closed).toBeLessThan(31);
  });

  it('goes on after a restart, and catches up with what was saved meanwhile', async () => {
    const { folder, files } = folderInMemory();
    const first = createSecondCopy(handle, format, { delayMs: 0 });
    const stop = first.start();
    await first.keepIn(folder);
    stop();
    await handle.appendEntries([aRun(1)]);
    await until(started(handle), isCopied(4));
    expect(await rowsIn(files)).toHaveLength(4);
  });

  it('keeps the old copy when writing fails, says so, and tries again by itself', async () => {
    const memory = folderInMemory();
    const copy = started(handle);
    await copy.keepIn(memory.folder);
    memory.control.trouble = new Error('The share is gone.');
    await handle.appendEntries([aRun(1)]);
    await until(copy, ({ phase }) => phase.name === 'failed');
    expect(copy.getSnapshot()).toMatchObject({
      phase: { reason: 'folder', message: 'The share is gone.' },
      written: { rows: 3 },
    });
    expect(await rowsIn(memory.files)).toHaveLength(3);
    memory.control.trouble = null;
    await until(copy, isCopied(4));
    expect(memory.control.writers).toBe(0);
  });

  it('waits for the permission, and goes on when it is given again', async () => {
    const memory = folderInMemory();
    const copy = started(handle);
    await copy.keepIn(memory.folder);
    memory.control.permission = 'prompt';
    await handle.appendEntries([aRun(1)]);
    await until(copy, ({ phase }) => phase.name === 'permission');
    await copy.askAgain();
    expect(copy.getSnapshot().phase).toEqual({ name: 'permission' });
    memory.control.permission = 'granted';
    await copy.askAgain();
    await until(copy, isCopied(4));
  });

  it('waits for the permission, too, when it is taken back in the middle', async () => {
    const memory = folderInMemory();
    const copy = started(handle);
    await copy.keepIn(memory.folder);
    memory.control.trouble = new DOMException('not now', 'NotAllowedError');
    await handle.appendEntries([aRun(1)]);
    await until(copy, ({ phase }) => phase.name === 'permission');
  });

  it('is not written over by a logbook that holds less than the copy', async () => {
    const { folder, files } = folderInMemory();
    const copy = started(handle);
    await copy.keepIn(folder);
    const [fileName = ''] = files.keys();
    const more = (
      await writeBackup([...(await ready(handle)).rawRows, ...(await chainOf(4, 'elsewhere'))], place)
    ).bytes;
    files.set(fileName, more);
    await handle.appendEntries([aRun(1)]);
    await until(copy, ({ phase }) => phase.name === 'failed');
    expect(copy.getSnapshot().phase).toMatchObject({ reason: 'holds-more' });
    expect(files.get(fileName)).toBe(more);
  });

  it('is not taken for up to date by a logbook that lost entries and has new ones', async () => {
    const { folder, files } = folderInMemory();
    const copy = started(handle);
    await handle.appendEntries([aRun(1), aRun(2)]);
    await copy.keepIn(folder);
    const before = await rowsIn(files);
    stops.pop()?.();
    // The same settings on a database that came back with less, and an entry that was written since.
    const poorer = withSettingsInMemory(open(freshName()), settings);
    await poorer.appendEntries([...laboratoryDrafts(), aRun(8), aRun(9)]);
    const left = started(poorer);
    await until(left, ({ phase }) => phase.name === 'failed');
    expect(left.getSnapshot().phase).toMatchObject({ reason: 'holds-more' });
    expect(await rowsIn(files)).toEqual(before);
  });

  it('leaves the writing to the other tab where that has written as much', async () => {
    const memory = folderInMemory();
    const copy = started(handle, { delayMs: 30 });
    await copy.keepIn(memory.folder);
    const [next] = await handle.appendEntries([aRun(1)]);
    settings.set('second-copy-written', {
      ...(settings.get('second-copy-written') as object),
      at: 2000,
      rows: 4,
      lastHash: next?.hash,
    });
    await until(copy, isCopied(4));
    expect(memory.control.closed).toBe(1);
    expect(copy.getSnapshot().written).toMatchObject({ at: 2000, rows: 4 });
  });

  it('is written whole into another folder that is picked while the old one is written', async () => {
    const [old, next] = [folderInMemory('old'), folderInMemory('next')];
    let letGo = () => {};
    old.control.gate = new Promise<void>((resolve) => {
      letGo = resolve;
    });
    const copy = started(handle);
    const first = copy.keepIn(old.folder);
    await vi.waitFor(() => expect(old.control.writers).toBe(1));
    const second = copy.keepIn(next.folder);
    await until(copy, ({ chosen }) => chosen?.folder === 'next');
    letGo();
    await Promise.all([first, second]);
    await until(copy, isCopied(3));
    expect(copy.getSnapshot().chosen?.folder).toBe('next');
    expect(await rowsIn(next.files)).toHaveLength(3);
  });

  it('is written alone among the tabs', async () => {
    const memory = folderInMemory();
    let turn: Promise<unknown> = Promise.resolve();
    const alone = <T>(work: () => Promise<T>) => {
      const mine = turn.then(work);
      turn = mine.catch(() => {});
      return mine;
    };
    const [one, two] = [started(handle, { alone }), started(handle, { alone })];
    await one.keepIn(memory.folder);
    await vi.waitFor(() => expect(one.getSnapshot().written).not.toBeNull());
    stops.splice(0, 2).forEach((stop) => {
      stop();
    });
    stops.push(one.start(), two.start());
    await Promise.all([1, 2, 3, 4].map((run) => handle.appendEntries([aRun(run)])));
    await until(one, isCopied(7));
    await until(two, isCopied(7));
    expect(memory.control.mostWriters).toBe(1);
    expect(await rowsIn(memory.files)).toHaveLength(7);
  });

  it('follows a folder that was picked, or given up, in another tab', async () => {
    const { folder, files } = folderInMemory();
    const [here, there] = [started(handle), started(handle)];
    await until(there, ({ isKnown }) => isKnown);
    await here.keepIn(folder);
    await handle.appendEntries([aRun(1)]);
    await until(there, ({ chosen, written }) => chosen?.folder === 'share' && written?.rows === 4);
    await here.stopKeeping();
    await handle.appendEntries([aRun(2)]);
    await until(there, ({ chosen }) => chosen === null);
    expect(await rowsIn(files)).toHaveLength(4);
  });

  it('says at the start, before any save, that the permission is to be given again', async () => {
    const memory = folderInMemory();
    const copy = started(handle);
    await copy.keepIn(memory.folder);
    memory.control.permission = 'prompt';
    await until(started(handle), ({ phase }) => phase.name === 'permission');
  });

  it('is written no more when it is given up, and the file stays', async () => {
    const { folder, files } = folderInMemory();
    const copy = started(handle);
    await copy.keepIn(folder);
    await copy.stopKeeping();
    expect(copy.getSnapshot()).toMatchObject({ chosen: null, written: null });
    await handle.appendEntries([aRun(1)]);
    await new Promise((resolve) => setTimeout(resolve, 30));
    expect(await rowsIn(files)).toHaveLength(3);
  });

  it('remembers what the last backup file held', async () => {
    const { rawRows } = await ready(handle);
    await started(handle).noteBackup(rawRows);
    const again = started(handle);
    await until(again, ({ isKnown }) => isKnown);
    expect(again.getSnapshot().backup).toMatchObject({ at: 1000, rows: 3 });
  });
});
