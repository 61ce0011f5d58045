/**
 * The standing second copy: a file in a folder that a person picked once, written anew after every save. One writer at a
 * time, and the newest state wins. It never writes over a copy that holds what is not here: a logbook that lost its entries
 * must not take its own rescue with it.
 */

import * as z from 'zod/mini';
import { marksOf } from '../journal/union.ts';
import { type CopyFolder, firstLineOf, isNotAllowed, putInPlace } from './copyFolder.ts';
import { messageOf } from './messageOf.ts';
import type { LogbookHandle } from './openLogbook.ts';

/** What the file is made of: how a backup is written and compared stands with the exchange of files, not here. */
export interface CopyFormat {
  write(rows: readonly unknown[]): Promise<Uint8Array<ArrayBuffer>>;
  /** How many chains a file, by its first line, holds more of than `rows` do. */
  countOnlyIn(firstLine: string, rows: readonly unknown[]): Promise<number>;
}

export interface Written {
  /** When, in ms since 1970. */
  at: number;
  /** How many of the stored rows are in it: rows are only ever added, so the first so many. */
  rows: number;
  /** Hash of the last of them: after a loss of entries a mere count would take new ones for copied. */
  lastHash: string | null;
}

const hashAt = (rows: readonly unknown[], count: number) => marksOf(rows[count - 1]).hash;

/** How many of these rows are in what was written; 0 where it was written from others. */
export function rowsReached(written: Written | null, rows: readonly unknown[]): number {
  if (written === null || written.rows > rows.length) return 0;
  return hashAt(rows, written.rows) === written.lastHash ? written.rows : 0;
}

export type CopyPhase =
  | { name: 'idle' }
  | { name: 'writing' }
  /** The browser asks again before it lets the page write: a person must press a button. */
  | { name: 'permission' }
  | { name: 'failed'; reason: CopyFailure; message: string };

/**
 * `holds-more`: the file in the folder holds entries that are not in this logbook.
 * `folder`: the folder or its disk cannot be written.
 */
export type CopyFailure = 'holds-more' | 'folder';

export interface SecondCopySnapshot {
  /** False until the settings have been read: nothing can be said before. */
  isKnown: boolean;
  chosen: { folder: string; fileName: string } | null;
  phase: CopyPhase;
  /** The standing copy as it was last written to its end. */
  written: Written | null;
  /** The last backup file that was saved by hand. */
  backup: Written | null;
}

export interface SecondCopy {
  subscribe(listener: () => void): () => void;
  getSnapshot(): SecondCopySnapshot;
  /** Reads the settings and follows the logbook from now on; gives back how to stop. */
  start(): () => void;
  /** Keeps the copy in this folder from now on. */
  keepIn(folder: CopyFolder): Promise<void>;
  /** Asks for the permission again; only a press of a button may do so. */
  askAgain(): Promise<void>;
  /** Tries again at once. */
  writeNow(): void;
  /** Writes no more; the file stays where it is. */
  stopKeeping(): Promise<void>;
  /** These rows were saved in a backup file. */
  noteBackup(rows: readonly unknown[]): Promise<void>;
}

export interface SecondCopyOptions {
  now?: () => number;
  /** So long after a save, in ms, so that saves close together are written once. */
  delayMs?: number;
  /** So long after a failure it is tried again. */
  retryMs?: number;
  /** Runs the work while no other tab of this browser does the same. */
  alone?: <T>(work: () => Promise<T>) => Promise<T>;
}

const keys = { chosen: 'second-copy', written: 'second-copy-written', backup: 'backup-saved' } as const;

const writtenSchema = z.object({
  at: z.number(),
  rows: z.int().check(z.nonnegative()),
  lastHash: z.nullable(z.string()),
});
const copySchema = z.extend(writtenSchema, { choice: z.string() });
const chosenSchema = z.object({
  /** Tells this choice from an earlier one of the same folder, whose last write may still be under way. */
  choice: z.string(),
  fileName: z.string(),
  folder: z.custom<CopyFolder>(
    (value) => typeof value === 'object' && value !== null && 'getFileHandle' in value,
  ),
});
type Chosen = z.infer<typeof chosenSchema>;

/** Two workstations may pick the same folder, on a share: each writes a file of its own. */
const fileNameOf = (workstation: string) =>
  `diffusion-qc-logbook_second-copy_${workstation.slice(0, 8)}.jsonl`;

/** One tab at a time, where the browser can see to it; else the check before writing has to do. */
async function aloneInBrowser<T>(name: string, work: () => Promise<T>): Promise<T> {
  const locks = globalThis.navigator?.locks;
  return locks === undefined ? work() : locks.request(name, work);
}

export function createSecondCopy(
  handle: LogbookHandle,
  format: CopyFormat,
  options: SecondCopyOptions = {},
): SecondCopy {
  const { now = Date.now, delayMs = 1500, retryMs = 60_000 } = options;
  const { alone = (work) => aloneInBrowser(`${handle.name} second copy`, work) } = options;
  const listeners = new Set<() => void>();
  let chosen: Chosen | null = null;
  let snapshot: SecondCopySnapshot = {
    isKnown: false,
    chosen: null,
    phase: { name: 'idle' },
    written: null,
    backup: null,
  };
  let timer: ReturnType<typeof setTimeout> | undefined;
  let isWriting = false;
  let isWanted = false;
  let isFollowing = false;
  let settingsRead: Promise<void> = Promise.resolve();

  function publish(changes: Partial<SecondCopySnapshot>): void {
    snapshot = { ...snapshot, ...changes };
    for (const listener of [...listeners]) listener();
  }

  function storedRows(): readonly unknown[] {
    const logbook = handle.getSnapshot();
    // While entries are missing, what is left must not take the place of the copy that has them.
    return logbook.state === 'ready' && logbook.missing === null ? logbook.rawRows : [];
  }

  function wantIn(ms: number): void {
    clearTimeout(timer);
    timer = setTimeout(() => void write(), ms);
  }

  const isBehind = () => rowsReached(snapshot.written, storedRows()) < storedRows().length;

  function onNews(): void {
    if (snapshot.isKnown && snapshot.phase.name !== 'permission' && isBehind()) wantIn(delayMs);
  }

  async function write(): Promise<void> {
    isWanted = true;
    if (isWriting) return; // it looks again when it is done
    isWriting = true;
    try {
      while (isWanted && isFollowing) {
        isWanted = false;
        await followChoice();
        if (chosen) await writeOnce(chosen);
      }
    } catch {
      // The settings cannot be read: the database is gone, and the whole page says so.
    } finally {
      isWriting = false;
    }
  }

  /** The folder may have been picked, or given up, in another tab. */
  async function followChoice(): Promise<void> {
    const stored = await handle.readSetting(keys.chosen, chosenSchema);
    if (stored?.choice !== chosen?.choice) publishChoice(stored);
  }

  function publishChoice(next: Chosen | null): void {
    chosen = next;
    publish({ chosen: next && { folder: next.folder.name, fileName: next.fileName } });
  }

  async function writeOnce(target: Chosen): Promise<void> {
    try {
      if ((await target.folder.queryPermission?.({ mode: 'readwrite' })) === 'prompt') {
        publish({ phase: { name: 'permission' } });
        return;
      }
      publish({ phase: { name: 'writing' } });
      const phase = await alone(() => writeTo(target));
      if (target.choice === chosen?.choice) publish({ phase });
    } catch (error) {
      if (target.choice !== chosen?.choice) return;
      if (isNotAllowed(error)) {
        publish({ phase: { name: 'permission' } });
        return;
      }
      const message = messageOf(error);
      publish({ phase: { name: 'failed', reason: 'folder', message } });
      wantIn(retryMs);
    }
  }

  async function writeTo({ choice, folder, fileName }: Chosen): Promise<CopyPhase> {
    const written = await handle.readSetting(keys.written, copySchema);
    // Read anew: another tab writes the copy only of what is stored, and this one may not have heard of it yet. Where
    // nothing can be written into the logbook it is read all the same.
    await handle.appendEntries([]).catch(() => {});
    const rows = storedRows();
    if (written?.choice === choice && rowsReached(written, rows) === rows.length) {
      publish({ written });
      return { name: 'idle' };
    }
    const file = await folder.getFileHandle(fileName, { create: true });
    const onlyThere = await format.countOnlyIn(await firstLineOf(file), rows);
    if (onlyThere > 0) {
      return { name: 'failed', reason: 'holds-more', message: `${fileName}: ${onlyThere}` };
    }
    await putInPlace(file, await format.write(rows));
    const news = { at: now(), rows: rows.length, lastHash: hashAt(rows, rows.length), choice };
    if (choice !== chosen?.choice) return snapshot.phase; // another folder was picked meanwhile
    await handle.writeSetting(keys.written, news);
    publish({ written: news });
    return { name: 'idle' };
  }

  async function take(next: Chosen | null): Promise<void> {
    await settingsRead;
    clearTimeout(timer);
    await handle.writeSetting(keys.chosen, next);
    await handle.writeSetting(keys.written, null);
    publishChoice(next);
    publish({ written: null, phase: { name: 'idle' } });
  }

  async function readSettings(): Promise<void> {
    const [stored, written, backup] = [
      await handle.readSetting(keys.chosen, chosenSchema),
      await handle.readSetting(keys.written, writtenSchema),
      await handle.readSetting(keys.backup, writtenSchema),
    ];
    const isAskedFor = (await stored?.folder.queryPermission?.({ mode: 'readwrite' })) === 'prompt';
    publishChoice(stored);
    // A lost permission is said at once, not with the next save: whoever opens the logbook has a hand free for the button.
    publish({ isKnown: true, phase: { name: isAskedFor ? 'permission' : 'idle' }, written, backup });
    onNews();
  }

  return {
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    getSnapshot: () => snapshot,
    start: () => {
      isFollowing = true;
      const stop = handle.subscribe(onNews);
      // Without settings there is no storage, and the whole page says so.
      settingsRead = readSettings().catch(() => {});
      return () => {
        isFollowing = false;
        clearTimeout(timer);
        stop();
      };
    },
    keepIn: async (folder) => {
      const workstation = await handle.readSetting('workstation', z.string());
      await take({ choice: crypto.randomUUID(), folder, fileName: fileNameOf(workstation ?? '') });
      await write();
    },
    askAgain: async () => {
      const answer = await chosen?.folder.requestPermission?.({ mode: 'readwrite' });
      if (answer === 'denied' || answer === 'prompt') return;
      publish({ phase: { name: 'idle' } });
      await write();
    },
    writeNow: () => wantIn(0),
    stopKeeping: () => take(null),
    noteBackup: async (rows) => {
      await settingsRead;
      const backup = { at: now(), rows: rows.length, lastHash: hashAt(rows, rows.length) };
      await handle.writeSetting(keys.backup, backup);
      publish({ backup });
    },
  };
}
