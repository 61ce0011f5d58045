/**
 * The standing second copy: a file in a folder that a person picked once, written anew after every save. One writer at a
 * time, and the newest state wins. It never writes over a copy that holds what is not here: a logbook that lost its entries
 * must not take its own rescue with it.
 */
import * as z from 'zod/mini';

import type { LogbookHandle } from './openLogbook.ts';

/** The parts of the browser's folder and file handles that are used, so that a test can bring its own. */
export interface CopyFolder {
  readonly name: string;
  getFileHandle(name: string, options: { create: boolean }): Promise<CopyFile>;
  queryPermission?(wanted: { mode: 'readwrite' }): Promise<PermissionState>;
  requestPermission?(wanted: { mode: 'readwrite' }): Promise<PermissionState>;
}

export interface CopyFile {
  getFile(): Promise<Blob>;
  createWritable(): Promise<{
    write(bytes: Uint8Array<ArrayBuffer>): Promise<void>;
    close(): Promise<void>;
    abort(): Promise<void>;
  }>;
}

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
  noteBackup(rows: number): Promise<void>;
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

const writtenSchema = z.object({ at: z.number(), rows: z.int().check(z.nonnegative()) });
const chosenSchema = z.object({
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

  function publish(changes: Partial<SecondCopySnapshot>): void {
    snapshot = { ...snapshot, ...changes };
    for (const listener of [...listeners]) listener();
  }

  function storedRows(): readonly unknown[] {
    const logbook = handle.getSnapshot();
    return logbook.state === 'ready' ? logbook.rawRows : [];
  }

  function wantIn(ms: number): void {
    clearTimeout(timer);
    timer = setTimeout(() => void write(), ms);
  }

  const isBehind = () => storedRows().length > (snapshot.written?.rows ?? 0);

  function onNews(): void {
    if (chosen && snapshot.phase.name !== 'permission' && isBehind()) wantIn(delayMs);
  }

  async function write(): Promise<void> {
    isWanted = true;
    if (isWriting) return; // it looks again when it is done
    isWriting = true;
    while (isWanted && chosen && isFollowing) {
      isWanted = false;
      await writeOnce(chosen);
    }
    isWriting = false;
  }

  async function writeOnce(target: Chosen): Promise<void> {
    try {
      if ((await target.folder.queryPermission?.({ mode: 'readwrite' })) === 'prompt') {
        publish({ phase: { name: 'permission' } });
        return;
      }
      publish({ phase: { name: 'writing' } });
      const phase = await alone(() => writeTo(target));
      if (target === chosen) publish({ phase });
    } catch (error) {
      if (target !== chosen) return;
      if (isNotAllowed(error)) {
        publish({ phase: { name: 'permission' } });
        return;
      }
      const message = error instanceof Error ? error.message : String(error);
      publish({ phase: { name: 'failed', reason: 'folder', message } });
      wantIn(retryMs);
    }
  }

  async function writeTo({ folder, fileName }: Chosen): Promise<CopyPhase> {
    const rows = storedRows();
    // Another tab may have written as much or more while this one waited.
    const written = await handle.readSetting(keys.written, writtenSchema);
    if (written && written.rows >= rows.length) {
      publish({ written });
      return { name: 'idle' };
    }
    const file = await folder.getFileHandle(fileName, { create: true });
    const onlyThere = await format.countOnlyIn(await firstLineOf(await file.getFile()), rows);
    if (onlyThere > 0) {
      return { name: 'failed', reason: 'holds-more', message: `${fileName}: ${onlyThere}` };
    }
    const bytes = await format.write(rows);
    // The browser writes a temporary file beside it and puts it in place of the old one on close, in one step: whoever
    // reads meanwhile, or pulls the plug, has the old copy or the new one.
    const writable = await file.createWritable();
    try {
      await writable.write(bytes);
    } catch (error) {
      await writable.abort().catch(() => {});
      throw error;
    }
    await writable.close();
    const { size } = await file.getFile();
    if (size !== bytes.length) throw new Error(`${size} of ${bytes.length} bytes arrived in ${fileName}.`);
    const news = { at: now(), rows: rows.length };
    await handle.writeSetting(keys.written, news);
    publish({ written: news });
    return { name: 'idle' };
  }

  async function take(next: Chosen | null, written: Written | null): Promise<void> {
    clearTimeout(timer);
    await handle.writeSetting(keys.chosen, next);
    await handle.writeSetting(keys.written, written);
    chosen = next;
    const { folder, fileName } = next ?? {};
    publish({
      chosen: folder && fileName ? { folder: folder.name, fileName } : null,
      written,
      phase: { name: 'idle' },
    });
  }

  async function readSettings(): Promise<void> {
    chosen = await handle.readSetting(keys.chosen, chosenSchema);
    publish({
      isKnown: true,
      chosen: chosen && { folder: chosen.folder.name, fileName: chosen.fileName },
      written: await handle.readSetting(keys.written, writtenSchema),
      backup: await handle.readSetting(keys.backup, writtenSchema),
    });
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
      readSettings().catch(() => {});
      return () => {
        isFollowing = false;
        clearTimeout(timer);
        stop();
      };
    },
    keepIn: async (folder) => {
      const workstation = await handle.readSetting('workstation', z.string());
      await take({ folder, fileName: fileNameOf(workstation ?? '') }, null);
      await write();
    },
    askAgain: async () => {
      const answer = await chosen?.folder.requestPermission?.({ mode: 'readwrite' });
      if (answer === 'denied' || answer === 'prompt') return;
      publish({ phase: { name: 'idle' } });
      await write();
    },
    writeNow: () => wantIn(0),
    stopKeeping: () => take(null, null),
    noteBackup: async (rows) => {
      const backup = { at: now(), rows };
      await handle.writeSetting(keys.backup, backup);
      publish({ backup });
    },
  };
}

/** Enough for the header of a backup; a longer first line is none of ours. */
const firstLineBytes = 1024 * 1024;

async function firstLineOf(file: Blob): Promise<string> {
  const [line = ''] = (await file.slice(0, firstLineBytes).text()).split('\n');
  return line;
}

/** The names the browsers give to a permission that was taken back in the middle. */
const isNotAllowed = (error: unknown) =>
  error instanceof Error && ['NotAllowedError', 'SecurityError'].includes(error.name);
