/**
 * The one door to storage. A handle follows a stored journal, whoever writes it, and adds to it.
 *
 * An entry is hashed before its transaction opens, since a browser commits a transaction that waits for hashing. What it
 * was hashed against may be out of date by then: the transaction writes only if nothing has arrived in between, and
 * otherwise everything is done again from what is there now.
 */
import canonicalize from 'canonicalize';
import { liveQuery } from 'dexie';

import { sealEntry } from '../journal/chain.ts';
import { type Entry, type EntryDraft, type Mark, readEntry } from '../journal/entries.ts';
import { foldInSteps, foldJournal } from '../journal/fold.ts';
import type { Logbook } from '../journal/logbook.ts';
import { marksOf, unionOf } from '../journal/union.ts';
import { withOneMoreRun } from '../journal/withOneMoreRun.ts';
import { checkStoredChains, giveWay } from './chainCheck.ts';
import { databaseVersion, LogbookDatabase, type StoredRow } from './database.ts';
import { createKeptOutline } from './keptOutline.ts';
import type { LogbookHandle, LogbookOptions, LogbookSnapshot } from './logbookHandle.ts';
import { type MissingEntries, markOf, missingBy } from './marker.ts';
import { createShelf } from './shelf.ts';
import { StorageProblem } from './storageProblem.ts';

export type { LogbookHandle, LogbookOptions, LogbookSnapshot } from './logbookHandle.ts';
export { type MissingEntries, StorageProblem };

interface Planned {
  rows: readonly unknown[];
  /** Null where this workstation goes on under the id it has. */
  nextWorkstation: string | null;
}

/** Each try that fails means that another tab has written; so many in a row do not happen by chance. */
const mostTries = 20;

/** So many rows are read between two chances to answer a key: a few milliseconds. */
const readAtOnce = 500;

/** An import of years of history is told of some times a second. */
const sealedBetweenNews = 500;

export function openLogbook(name: string, options: LogbookOptions = {}): LogbookHandle {
  const { now = Date.now, zone = () => Intl.DateTimeFormat().resolvedOptions().timeZone } = options;
  const { marker, onCommitted } = options;
  const database = new LogbookDatabase(name);
  const shelf = createShelf();
  const keptOutline = createKeptOutline(database);
  const listeners = new Set<() => void>();
  let snapshot: LogbookSnapshot = { state: 'loading' };
  let workstation = '';
  let closed = false;
  let isMarkKept: boolean | null = null;
  // Before any row is read: another tab may write meanwhile, and its mark would be ahead of the rows.
  let markAtStart: Mark | null = marker?.read() ?? null;
  let stopFollowing = () => {};

  function publish(next: LogbookSnapshot): void {
    snapshot = next;
    for (const listener of [...listeners]) listener();
  }

  function stop(): void {
    closed = true;
    stopFollowing();
    keptOutline.stop();
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
    const known = shelf.contents().entries.length;
    if (!shelf.absorb(rows)) return;
    const { entries } = shelf.contents();
    const [entry, ...others] = entries.slice(known);
    const isOneMore = entry && others.length === 0 && shelf.rowSet.withId(entry.id).length === 1;
    const before = snapshot.state === 'ready' ? snapshot.logbook : null;
    present((isOneMore && before && withOneMoreRun(before, entry)) || foldJournal(entries));
  }

  function present(logbook: Logbook): void {
    const contents = shelf.contents();
    const missing = missingBy(markAtStart, contents, shelf.isTaken);
    const mark = markOf(contents);
    // Never over a mark that knows more: it is all that is left of what is missing.
    if (missing === null) {
      markAtStart = null;
      if (marker && mark) isMarkKept = marker.write(mark);
    }
    publish({ state: 'ready', logbook, missing, ...contents });
    const isWhole = missing === null && contents.newer === null && contents.damaged.length === 0;
    if (isWhole) keptOutline.keep(logbook, contents.rawRows);
  }

  /** What is stored when the page opens, a little at a time: keys are answered in between. */
  async function readAll(): Promise<void> {
    for (;;) {
      const rows = await database.rowsAfter(shelf.lastArrival, readAtOnce);
      if (closed) return;
      shelf.absorb(rows);
      if (rows.length < readAtOnce) break;
      await giveWay();
    }
    const steps = foldInSteps(shelf.contents().entries);
    for (;;) {
      const step = steps.next();
      if (step.done) {
        if (!closed) present(step.value);
        return;
      }
      await giveWay();
    }
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
  }

  function followOtherTabs(): void {
    if (closed) return;
    const following = liveQuery(() => database.rowsAfter(shelf.lastArrival)).subscribe({
      next: take,
      error: fail,
    });
    stopFollowing = () => following.unsubscribe();
  }

  async function open(): Promise<void> {
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
    } catch (error) {
      throw fail(error);
    }
  }

  async function start(): Promise<void> {
    await opened;
    try {
      const outline = await keptOutline.read(markAtStart?.count ?? 0).catch(() => null);
      if (outline && !closed) {
        publish({ state: 'reading', logbook: outline });
        await giveWay();
      }
      await readAll();
      followOtherTabs();
    } catch (error) {
      throw fail(error);
    }
  }

  watchOtherTabs();
  const opened = open();
  const started = start();
  started.catch(() => {}); // the snapshot shows it, and every verb below rejects with it

  /** Runs storage work once the handle is ready, and gives every failure its reason. */
  async function whenReady<T>(work: () => Promise<T>, ready: Promise<void> = started): Promise<T> {
    await ready;
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
  async function write(plan: () => Promise<Planned>): Promise<void> {
    for (let attempt = 0; attempt < mostTries; attempt++) {
      const before = shelf.lastArrival;
      // As of one moment: whoever begins a new chain in another tab does so in one commit with what made it necessary.
      const stored = await fromStorage(database.rowsAndChainAfter(before));
      // Of that moment, not of the shelf: news of another tab can have reached it since, and not the chain that was read.
      const known = stored.rows.at(-1)?.arrival ?? before;
      take(stored.rows);
      refuseBesideNewer();
      workstation = stored.workstation ?? (await fromStorage(database.workstationId()));
      const { rows, nextWorkstation } = await plan();
      if (rows.length === 0) return;
      if (!(await fromStorage(database.addAfter(known, rows, nextWorkstation)))) continue;
      // Committed: whatever happens to this read, the entries are stored and the caller must hear so.
      await refresh().catch(fail);
      onCommitted?.();
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

  function refuseWhileMissing(): void {
    if (snapshot.state !== 'ready' || snapshot.missing === null) return;
    const { known, found } = snapshot.missing;
    throw new StorageProblem('missing-entries', `Known: ${known.count} entries. Found: ${found}.`);
  }

  async function giveUp(initials: string): Promise<void> {
    if (snapshot.state !== 'ready' || snapshot.missing === null) return;
    const { known, found } = snapshot.missing;
    const lossId = crypto.randomUUID();
    const body = { lossId, initials, known, found };
    await append([{ id: crypto.randomUUID(), by: lossId, kind: 'entries-lost', body }]);
  }

  async function append(
    drafts: readonly EntryDraft[],
    onSealed: (sealed: number) => void = () => {},
  ): Promise<readonly Entry[]> {
    const at = new Date(now()).toISOString();
    const here = zone();
    let result: readonly Entry[] = [];
    await write(async () => {
      const placed: Entry[] = [];
      const fresh: Entry[] = [];
      let { seq, hash: prev } = shelf.headOf(workstation);
      for (const draft of drafts) {
        const stored = storedAs(draft, shelf.rowSet.withId(draft.id));
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
        if (fresh.length % sealedBetweenNews === 0) onSealed(fresh.length);
      }
      result = placed;
      return { rows: fresh, nextWorkstation: null };
    });
    return result;
  }

  async function adopt(rows: readonly unknown[]): Promise<{ added: number; alreadyThere: number }> {
    let outcome = { added: 0, alreadyThere: 0 };
    await write(async () => {
      const { fresh, alreadyThere } = unionOf(shelf.rowSet, rows);
      outcome = { added: fresh.length, alreadyThere };
      const isOwnChain = fresh.some((row) => marksOf(row).workstation === workstation);
      return { rows: fresh, nextWorkstation: isOwnChain ? crypto.randomUUID() : null };
    });
    return outcome;
  }

  return {
    name,
    appendEntries: (drafts, onSealed) => {
      const ids = new Set(drafts.map(({ id }) => id));
      if (ids.size < drafts.length)
        return Promise.reject(new RangeError('appendEntries: two drafts have the same id'));
      return inTurn(async () => {
        refuseWhileMissing();
        return append(drafts, onSealed);
      });
    },
    adoptEntries: (rows) => inTurn(() => adopt(rows)),
    giveUpMissing: (initials) => inTurn(() => giveUp(initials)),
    checkChains: (onChecked) => whenReady(() => checkStoredChains(name, shelf.contents().rawRows, onChecked)),
    isMarkKept: () => isMarkKept,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    getSnapshot: () => snapshot,
    readSetting: (key, schema) =>
      whenReady(async () => {
        const read = schema.safeParse(await fromStorage(database.readSetting(key)));
        return read.success ? read.data : null;
      }, opened),
    writeSetting: (key, value) => whenReady(() => fromStorage(database.writeSetting(key, value)), opened),
    close: stop,
  };
}

/** The stored entry that a draft has become already; undefined when its id is new. */
function storedAs(draft: EntryDraft, stored: readonly unknown[]): Entry | undefined {
  if (stored.length === 0) return undefined;
  const said = ({ kind, by, body }: EntryDraft) => canonicalize({ kind, by, body });
  for (const row of stored) {
    const read = readEntry(row);
    if (read.state === 'known' && said(read.entry) === said(draft)) return read.entry;
  }
  throw new StorageProblem('conflict', `Entry ${draft.id} is stored already and says something else.`);
}
