/** Reaches into the browser's storage past the app, as damage, other releases and a hand in the profile do. */
import type { Page } from 'playwright-core';
import { databaseNames } from '../../src/views/routes.ts';
import type { Profile } from './chromium.ts';

const databaseName = databaseNames.laboratory;
const table = 'entries';

/** Leaves the app for an empty page of its origin, from which its storage can be reached with no tab holding it. */
export async function leaveApp({ page, at }: Profile): Promise<void> {
  const blank = new URL('/blank', at('/')).href;
  await page.route(blank, (route) =>
    route.fulfill({ contentType: 'text/html', body: '<title>Blank</title>' }),
  );
  await page.goto(blank);
}

export function dropDatabase(page: Page): Promise<void> {
  return page.evaluate(
    (name) =>
      new Promise<void>((resolve, reject) => {
        const request = indexedDB.deleteDatabase(name);
        request.onsuccess = () => resolve();
        request.onerror = () => reject(request.error);
      }),
    databaseName,
  );
}

/** What a change does to the stored rows: by position from 0 a new value, or null to remove it; then rows put behind. */
export interface RawChange {
  replace?: Record<number, unknown>;
  add?: readonly unknown[];
}

export function changeRows(page: Page, change: RawChange): Promise<void> {
  return page.evaluate(
    ({ name, store, replace, add }) =>
      new Promise<void>((resolve, reject) => {
        const opening = indexedDB.open(name);
        opening.onerror = () => reject(opening.error);
        opening.onsuccess = () => {
          const database = opening.result;
          const transaction = database.transaction(store, 'readwrite');
          const entries = transaction.objectStore(store);
          const keys = entries.getAllKeys();
          keys.onsuccess = () => {
            for (const [position, value] of Object.entries(replace)) {
              const key = keys.result[Number(position)];
              if (key === undefined) throw new Error(`there is no row ${position}`);
              if (value === null) entries.delete(key);
              else entries.put(value, key);
            }
            for (const value of add) entries.add(value);
          };
          transaction.oncomplete = () => {
            database.close();
            resolve();
          };
          transaction.onabort = () => reject(transaction.error);
        };
      }),
    { name: databaseName, store: table, replace: change.replace ?? {}, add: change.add ?? [] },
  );
}

/** Every stored row in order of arrival. */
export function readRows(page: Page): Promise<unknown[]> {
  return page.evaluate(
    ({ name, store }) =>
      new Promise<unknown[]>((resolve, reject) => {
        const opening = indexedDB.open(name);
        opening.onerror = () => reject(opening.error);
        opening.onsuccess = () => {
          const database = opening.result;
          const reading = database.transaction(store).objectStore(store).getAll();
          reading.onsuccess = () => {
            database.close();
            resolve(reading.result);
          };
          reading.onerror = () => reject(reading.error);
        };
      }),
    { name: databaseName, store: table },
  );
}

/** A later release raises the version of the database in another tab, which goes on holding it. */
export function upgradeDatabase(page: Page): Promise<void> {
  return page.evaluate(
    (name) =>
      new Promise<void>((resolve, reject) => {
        const opening = indexedDB.open(name, 990);
        opening.onsuccess = () => resolve();
        opening.onerror = () => reject(opening.error);
      }),
    databaseName,
  );
}
