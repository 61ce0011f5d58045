/**
 * The one door to storage. A handle follows a stored journal, whoever writes it, and adds to it.
 *
 * An entry is hashed before its transaction opens, since a browser commits a transaction that waits for hashing. What it
 * was hashed against may be out of date by then: the transaction writes only if nothing has arrived in between, and
 * otherwise everything is done again from what is there now.
 */
import canonicalize from 'canonicalize';
import { liveQuery } from 'dexie';
import type * as z from 'zod/mini';

import { hashFits, sealEntry } from '../journal/chain.ts';
import { type Entry, type EntryDraft, readEntry } from '../journal/entries.ts';
import { foldJournal } from '../journal/fold.ts';
import type { Logbook } from '../journal/logbook.ts';
import { databaseVersion, LogbookDatabase, type StoredRow } from './database.ts';
import { createShelf, type Shelf } from './shelf.ts';
import { StorageProblem } from './storageProblem.ts';

export { StorageProblem };

export type LogbookSnapshot =
  | { state: 'loading' }
  | { state: 'failed'; problem: StorageProblem }
  /**
   * `rawRows`: every stored value in order of arrival, for `checkChains`. `newer`: entries of a later release are stored
   * and nothing is written from here. `damaged`: rows that no schema reads.
   */
  | ({ state: 'ready'; logbook: Logbook } & Shelf);

export interface LogbookHandle {
  readonly name: string;
  /**
   * Gives the drafts their place in this workstation's chain and stores them, all or none. Resolves after the commit,
   * with the snapshot up to date. A draft that is stored already is returned as it is stored, so that a save that
   * failed half-known can be tried again. Rejects with a StorageProblem, or a ZodError for an impossible draft.
   */
  appendEntries(drafts: readonly EntryDraft[]): Promise<readonly Entry[]>;
  /** Stores entries that have their place and hash already, all or none; those that are stored already are passed over. */
  adoptEntries(entries: readonly Entry[]): Promise<{ added: number; alreadyThere: number }>;
  subscribe(listener: () => void): () => void;
  getSnapshot(): LogbookSnapshot;
  /** Null when it was never written, or when the schema no longer reads it: settings are a convenience, not a record. */
  readSetting<T>(key: string, schema: z.ZodMiniType<T>): Promise<T | null>;
  writeSetting(key: string, value: unknown): Promise<void>;
  close(): void;
}

export interface LogbookOptions {
  /** Milliseconds since 1970, as Date.now. */
  now?: () => number;
  /** IANA name of the zone that entries are written in. */
  zone?: () => string;
}

/** Each try that fails means that another tab has written; so many in a row do not happen by chance. */
const mostTries = 20;

export function openLogbook(name: string, options: LogbookOptions = {}): LogbookHandle {
  const { now = Date.now, zone = () => Intl.DateTimeFormat().resolvedOptions().timeZone } = options;
  const database = new LogbookDatabase(name);
  const shelf = createShelf();
  const listeners = new Set<() => void>();
  let snapshot: LogbookSnapshot = { state: 'loading' };
  let workstation = '';
  let closed = false;
  let stopFollowing = () => {};

  function publish(next: LogbookSnapshot): void {
    snapshot = next;
    for (const listener of [...listeners]) listener();
  }

  function stop(): void {
    closed = true;
    stopFollowing();
    database.close();
  }

  function fail(error: unknown): StorageProblem {
    const problem = StorageProblem.from(error);
    if (!closed) {
      stop();
      publish({ state: 'failed', problem });
    }
    return problem;
  }

  function take(rows: readonly StoredRow[]): void {
    if (closed) return;
    const news = shelf.absorb(rows);
    if (!news && snapshot.state === 'ready') return;
    const contents = shelf.contents();
    publish({ state: 'ready', logbook: foldJournal(contents.entries), ...contents });
  }

  const refresh = async () => take(await database.rowsAfter(shelf.lastArrival));

  function watchOtherTabs(): void {
    database.on('blocked', () => {
      // Not the end: the open goes on by itself as soon as the other tab is closed.
      publish({ state: 'failed', problem: new StorageProblem('blocked', 'Another tab holds the database.') });
      return false;
    });
    database.on('versionchange', ({ newVersion }) => {
      // Holding on would block the other tab for ever.
      if (newVersion === null)
        fail(new StorageProblem('unavailable', 'The database was removed by the browser.'));
      else
        fail(new StorageProblem('newer-version', 'Another tab is bringing the database to a newer version.'));
      return false; // Dexie's own handler would close and open again
    });
    database.on('close', () => {
      if (!closed) fail(new StorageProblem('unavailable', 'The browser closed the database.'));
    });
    const following = liveQuery(() => database.rowsAfter(shelf.lastArrival)).subscribe({
      next: take,
      error: fail,
    });
    stopFollowing = () => following.unsubscribe();
  }

  async function start(): Promise<void> {
    try {
      if (globalThis.crypto?.subtle === undefined) {
        throw new StorageProblem(
          'unavailable',
          'This address may not compute hashes: use https or 127.0.0.1.',
        );
      }
      await database.open();
      if (database.storedVersion > databaseVersion) {
        throw new StorageProblem('newer-version', `The database has version ${database.storedVersion}.`);
      }
      workstation = await database.workstationId();
      await refresh();
    } catch (error) {
      throw fail(error);
    }
  }

  watchOtherTabs();
  const started = start();
  started.catch(() => {}); // the snapshot shows it, and every verb below rejects with it

  /** Runs storage work once the handle is ready, and gives every failure its reason. */
  async function whenReady<T>(work: () => Promise<T>): Promise<T> {
    await started;
    if (closed) {
      throw snapshot.state === 'failed'
        ? snapshot.problem
        : new StorageProblem('unavailable', 'It was closed.');
    }
    return work();
  }

  let queue: Promise<unknown> = Promise.resolve();
  /** One write of this handle after the other: it need not compete with itself. */
  function inTurn<T>(work: () => Promise<T>): Promise<T> {
    const turn = queue.then(() => whenReady(work));
    queue = turn.catch(() => {});
    return turn;
  }

  async function fromStorage<T>(work: Promise<T>): Promise<T> {
    try {
      return await work;
    } catch (error) {
      throw StorageProblem.from(error);
    }
  }

  /** Writes what `plan` makes of the rows as they are, again and again until nothing came in between. */
  async function write(plan: () => Promise<readonly Entry[]>): Promise<void> {
    for (let attempt = 0; attempt < mostTries; attempt++) {
      await fromStorage(refresh());
      refuseBesideNewer();
      // Noted before planning: while it hashes, news of another tab can reach the shelf, and not the plan.
      const known = shelf.lastArrival;
      const entries = await plan();
      if (entries.length === 0) return;
      if (!(await fromStorage(database.addAfter(known, entries)))) continue;
      // Committed: whatever happens to this read, the entries are stored and the caller must hear so.
      await refresh().catch(fail);
      return;
    }
    throw new StorageProblem('conflict', `Other tabs wrote first, ${mostTries} times in a row.`);
  }

  /**
   * What a later release has written may change what is right to write now. Damaged rows do not stop writing: a
   * laboratory that could not record this week's run because of one bad row would keep it on paper, and lose more.
   */
  function refuseBesideNewer(): void {
    const { newer } = shelf.contents();
    if (newer) {
      throw new StorageProblem('newer-version', `Stored: "${newer.kind}" of version ${newer.version}.`);
    }
  }

  async function append(drafts: readonly EntryDraft[]): Promise<readonly Entry[]> {
    const at = new Date(now()).toISOString();
    const here = zone();
    let result: readonly Entry[] = [];
    await write(async () => {
      const placed: Entry[] = [];
      const fresh: Entry[] = [];
      let { seq, hash: prev } = shelf.headOf(workstation);
      for (const draft of drafts) {
        const stored = storedAs(draft, shelf.find(draft.id));
        if (stored) {
          placed.push(stored);
          continue;
        }
        if (prev === null) {
          throw new StorageProblem(
            'unknown',
            `Entry number ${seq}, the last, is damaged: nothing can follow it.`,
          );
        }
        seq += 1;
        const entry = await sealEntry(draft, { workstation, seq, prev, at, zone: here });
        prev = entry.hash;
        placed.push(entry);
        fresh.push(entry);
      }
      result = placed;
      return fresh;
    });
    return result;
  }

  async function adopt(entries: readonly Entry[]): Promise<{ added: number; alreadyThere: number }> {
    for (const entry of entries) {
      if (readEntry(entry).state !== 'known' || !(await hashFits(entry))) {
        throw new StorageProblem(
          'unknown',
          `Entry ${entry.id} was changed after it was written. Nothing was taken over.`,
        );
      }
    }
    let added = 0;
    await write(async () => {
      const fresh = new Map<string, Entry>();
      for (const entry of entries) {
        const stored = fresh.get(entry.id) ?? shelf.find(entry.id);
        if (stored !== undefined) refuseUnlessSame(stored, entry);
        else if (shelf.isTaken(entry.workstation, entry.seq)) throw contradiction(entry);
        else fresh.set(entry.id, entry);
      }
      added = fresh.size;
      return [...fresh.values()];
    });
    return { added, alreadyThere: entries.length - added };
  }

  return {
    name,
    appendEntries: (drafts) => {
      const ids = new Set(drafts.map(({ id }) => id));
      if (ids.size < drafts.length)
        return Promise.reject(new RangeError('appendEntries: two drafts have the same id'));
      return inTurn(() => append(drafts));
    },
    adoptEntries: (entries) => inTurn(() => adopt(entries)),
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    getSnapshot: () => snapshot,
    readSetting: (key, schema) =>
      whenReady(async () => {
        const read = schema.safeParse(await fromStorage(database.readSetting(key)));
        return read.success ? read.data : null;
      }),
    writeSetting: (key, value) => whenReady(() => fromStorage(database.writeSetting(key, value))),
    close: stop,
  };
}

function contradiction({ id, workstation, seq }: Entry): StorageProblem {
  return new StorageProblem(
    'conflict',
    `Entry ${id}: number ${seq} of ${workstation} is stored with other content.`,
  );
}

function refuseUnlessSame(stored: unknown, entry: Entry): void {
  const read = readEntry(stored);
  if (read.state !== 'known' || read.entry.hash !== entry.hash) throw contradiction(entry);
}

/** The stored entry that a draft has become already; undefined when its id is new. */
function storedAs(draft: EntryDraft, stored: unknown): Entry | undefined {
  if (stored === undefined) return undefined;
  const read = readEntry(stored);
  const said = ({ kind, by, body }: EntryDraft) => canonicalize({ kind, by, body });
  if (read.state === 'known' && said(read.entry) === said(draft)) return read.entry;
  throw new StorageProblem('conflict', `Entry ${draft.id} is stored already and says something else.`);
}
