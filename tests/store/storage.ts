/** A browser's storage for the unit tests, and ways to reach into it past the store, as damage and other releases do. */
import 'fake-indexeddb/auto';
import { afterEach } from 'vitest';
import { type LogbookHandle, type LogbookOptions, openLogbook } from '../../src/store/openLogbook.ts';

const opened: LogbookHandle[] = [];
let named = 0;

/** A name that no other test uses. */
export const freshName = () => `logbook-under-test-${++named}`;

export function open(name: string, options: LogbookOptions = {}): LogbookHandle {
  const handle = openLogbook(name, { zone: () => 'Europe/Oslo', ...options });
  opened.push(handle);
  return handle;
}

afterEach(() => {
  for (const handle of opened.splice(0)) handle.close();
});

/** Resolves with the snapshot as soon as it is as asked. */
export function snapshotWhere<S extends ReturnType<LogbookHandle['getSnapshot']>>(
  handle: LogbookHandle,
  fits: (snapshot: ReturnType<LogbookHandle['getSnapshot']>) => snapshot is S,
): Promise<S> {
  return new Promise((resolve) => {
    const look = () => {
      const snapshot = handle.getSnapshot();
      if (!fits(snapshot)) return;
      stop();
      resolve(snapshot);
    };
    const stop = handle.subscribe(look);
    look();
  });
}

type Snapshot = ReturnType<LogbookHandle['getSnapshot']>;
type Ready = Extract<Snapshot, { state: 'ready' }>;
type Reading = Extract<Snapshot, { state: 'reading' }>;
type Failed = Extract<Snapshot, { state: 'failed' }>;

export const ready = (handle: LogbookHandle, entryCount = 0) =>
  snapshotWhere(
    handle,
    (snapshot): snapshot is Ready => snapshot.state === 'ready' && snapshot.rawRows.length >= entryCount,
  );
export const reading = (handle: LogbookHandle) =>
  snapshotWhere(handle, (snapshot): snapshot is Reading => snapshot.state === 'reading');
export const failed = (handle: LogbookHandle) =>
  snapshotWhere(handle, (snapshot): snapshot is Failed => snapshot.state === 'failed');

export function openRaw(name: string, version?: number): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open(name, version);
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

/** Adds a value to the stored entries as it is, unseen by every handle until it looks. */
export async function addRaw(name: string, ...values: unknown[]): Promise<void> {
  const database = await openRaw(name);
  const transaction = database.transaction('entries', 'readwrite');
  for (const value of values) transaction.objectStore('entries').add(value);
  await new Promise<void>((resolve, reject) => {
    transaction.oncomplete = () => resolve();
    transaction.onabort = () => reject(transaction.error);
  });
  database.close();
}
