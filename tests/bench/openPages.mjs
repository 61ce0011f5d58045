// What the benchmarks in a browser share: the built workload, and a page whose logbook holds given entries.
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';
import { build } from 'vite';
import { findOrInstallChromium } from '../../.scripts/chromium.mjs';

const here = dirname(fileURLToPath(import.meta.url));
const databaseName = 'diffusion-qc-logbook';

/**
 * Builds with the given settings into a folder that is gone afterwards, and gives what `take` makes of the folder.
 *
 * @template T
 * @param {import('vite').BuildOptions} settings
 * @param {(folder: string) => T | Promise<T>} take
 */
async function built(settings, take) {
  const outDir = mkdtempSync(join(tmpdir(), 'bench-'));
  try {
    await build({
      configFile: false,
      logLevel: 'warn',
      publicDir: false,
      ssr: { noExternal: true },
      define: { 'process.env.NODE_ENV': '"production"' },
      build: { outDir, emptyOutDir: true, minify: false, target: 'es2022', ...settings },
    });
    return await take(outDir);
  } finally {
    rmSync(outDir, { recursive: true, force: true });
  }
}

/** @returns {Promise<(count: number, now: number) => Promise<unknown[]>>} */
export const workload = () =>
  built({ ssr: join(here, 'chartsLogbook.ts') }, async (folder) => {
    const { sealedRuns } = await import(pathToFileURL(join(folder, 'chartsLogbook.js')).href);
    return sealedRuns;
  });

/** The text of a script that gives a page `inPage`, see inPage.ts. */
export const scriptInPage = () =>
  built(
    { lib: { entry: join(here, 'inPage.ts'), formats: ['iife'], name: 'inPage', fileName: 'inPage' } },
    (folder) =>
      readFileSync(join(folder, readdirSync(folder).find((name) => name.endsWith('.js')) ?? ''), 'utf8'),
  );

export const launch = async () =>
  chromium.launch({
    executablePath: await findOrInstallChromium(),
    args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--disable-background-networking'],
  });

/**
 * A page whose logbook holds the entries, in a browser profile of its own. It stands at `/blank`, where nothing runs.
 *
 * @param {import('playwright-core').Browser} browser
 * @param {string} url
 * @param {unknown[]} entries
 */
export async function pageWith(browser, url, entries) {
  const page = await (await browser.newContext({ viewport: { width: 1440, height: 900 } })).newPage();
  await page.goto(`${url}/`);
  await page.getByRole('button', { name: 'Add me' }).waitFor();
  await page.route(`${url}/blank`, (route) =>
    route.fulfill({ contentType: 'text/html', body: '<title>Blank</title>' }),
  );
  await page.goto(`${url}/blank`);
  for (let start = 0; start < entries.length; start += 2000) {
    await page.evaluate(
      ({ name, rows }) =>
        new Promise((resolve, reject) => {
          const opening = indexedDB.open(name);
          opening.onerror = () => reject(opening.error);
          opening.onsuccess = () => {
            const transaction = opening.result.transaction('entries', 'readwrite');
            for (const row of rows) transaction.objectStore('entries').add(row);
            transaction.oncomplete = () => {
              opening.result.close();
              resolve(null);
            };
            transaction.onabort = () => reject(transaction.error);
          };
        }),
      { name: databaseName, rows: entries.slice(start, start + 2000) },
    );
  }
  return page;
}

/**
 * Prints each ratio beside its budget and one line of JSON, and fails the process when one is missed.
 *
 * @param {readonly string[]} lines
 * @param {readonly { name: string, ratio: number, budget: number }[]} budgets
 */
export function report(lines, budgets) {
  const rows = budgets.map(({ name, ratio, budget }) => {
    const word = ratio <= budget ? 'kept' : 'MISSED';
    return `${name.padEnd(52)} ${ratio.toFixed(3).padStart(10)}   at most ${String(budget).padEnd(5)} ${word}`;
  });
  const json = JSON.stringify(
    Object.fromEntries(budgets.map(({ name, ratio }) => [name, Number(ratio.toFixed(4))])),
  );
  process.stdout.write(`${[...lines, ...rows, json].join('\n')}\n`);
  process.exitCode = budgets.every(({ ratio, budget }) => ratio <= budget) ? 0 : 1;
}
