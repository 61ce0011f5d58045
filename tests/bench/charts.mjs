// How long a chart takes in a real browser, from the press on "Charts" to its runs on the screen, and what a moving pointer
// costs: ratios in one run, since a time in milliseconds says more about the computer than about the program.
// Prints a table and one line of JSON; exits with 1 when a budget is missed.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';
import { build } from 'vite';
import { findOrInstallChromium } from '../../.scripts/chromium.mjs';
import { ensureFreshBuild } from '../../.scripts/freshBuild.mjs';
import { serveBuild } from '../../.scripts/serve.mjs';

const few = 500;
const many = 5000;
const rounds = 7;
const here = dirname(fileURLToPath(import.meta.url));
const databaseName = 'diffusion-qc-logbook';
const runsOnScreen = '.control-chart__dots path';

/** @returns {Promise<(count: number, now: number) => Promise<unknown[]>>} */
async function workload() {
  const outDir = mkdtempSync(join(tmpdir(), 'charts-bench-'));
  try {
    await build({
      configFile: false,
      logLevel: 'warn',
      ssr: { noExternal: true },
      build: {
        ssr: join(here, 'chartsLogbook.ts'),
        outDir,
        emptyOutDir: true,
        minify: false,
        target: 'es2022',
      },
    });
    const { sealedRuns } = await import(pathToFileURL(join(outDir, 'chartsLogbook.js')).href);
    return sealedRuns;
  } finally {
    rmSync(outDir, { recursive: true, force: true });
  }
}

/**
 * A page whose logbook holds the entries, in a browser profile of its own.
 *
 * @param {import('playwright-core').Browser} browser
 * @param {string} url
 * @param {unknown[]} entries
 */
async function pageWith(browser, url, entries) {
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
 * On a page that was loaded anew: nothing of an earlier look at the charts is at hand.
 *
 * @param {import('playwright-core').Page} page
 * @param {string} url
 */
async function timeToChart(page, url) {
  await page.goto(`${url}/blank`);
  await page.goto(`${url}/#/records`);
  await page.getByRole('link', { name: 'Charts' }).waitFor();
  await page.waitForLoadState('networkidle');
  await page.waitForTimeout(300);
  return page.evaluate(
    (selector) =>
      new Promise((resolve) => {
        const start = performance.now();
        const look = () => {
          if (document.querySelector(selector) === null) requestAnimationFrame(look);
          // The frame after the one in which it was found has been painted.
          else requestAnimationFrame(() => setTimeout(() => resolve(performance.now() - start), 0));
        };
        const link = [...document.querySelectorAll('a')].find(({ textContent }) => textContent === 'Charts');
        link?.click();
        requestAnimationFrame(look);
      }),
    runsOnScreen,
  );
}

/**
 * The time that the page spends on one move of the pointer over the chart, in ms: the middle and the slowest tenth of many.
 *
 * @param {import('playwright-core').Page} page
 */
async function timeOfAMove(page) {
  await page.locator('.control-chart').first().hover();
  return page.evaluate(async () => {
    const surface = document.querySelector('.control-chart .recharts-surface, .control-chart');
    const area = surface?.getBoundingClientRect();
    if (!surface || !area) throw new Error('there is no chart');
    /** @type {number[]} */
    const times = [];
    for (let step = 0; step < 200; step += 1) {
      const clientX = area.left + 80 + ((area.width - 180) * ((step * 37) % 200)) / 200;
      const move = { bubbles: true, clientX, clientY: area.top + area.height / 2 };
      // What is put off to the next frame is done between the two callbacks that are asked for around it.
      let frameStart = 0;
      requestAnimationFrame(() => {
        frameStart = performance.now();
      });
      const start = performance.now();
      surface.dispatchEvent(new PointerEvent('pointermove', move));
      surface.dispatchEvent(new MouseEvent('mousemove', move));
      const atOnce = performance.now() - start;
      await new Promise((resolve) =>
        requestAnimationFrame(() => {
          times.push(atOnce + performance.now() - frameStart);
          resolve(null);
        }),
      );
    }
    if (document.querySelector('.point-details p') === null) throw new Error('nothing was pointed at');
    times.sort((one, other) => one - other);
    return { middle: times[100] ?? 0, slow: times[180] ?? 0 };
  });
}

await ensureFreshBuild();
const sealedRuns = await workload();
const given = process.argv[2];
const server = given === undefined ? await serveBuild(0) : { url: given, close: async () => {} };
const browser = await chromium.launch({
  executablePath: await findOrInstallChromium(),
  args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--disable-background-networking'],
});
try {
  const now = Date.now();
  const small = await pageWith(browser, server.url, await sealedRuns(few, now));
  const large = await pageWith(browser, server.url, await sealedRuns(many, now));
  let smallBest = Number.POSITIVE_INFINITY;
  let largeBest = Number.POSITIVE_INFINITY;
  for (let round = 0; round < rounds; round += 1) {
    smallBest = Math.min(smallBest, await timeToChart(small, server.url));
    largeBest = Math.min(largeBest, await timeToChart(large, server.url));
  }
  const fewMove = await timeOfAMove(small);
  const move = await timeOfAMove(large);
  const budgets = [
    { name: `chart of ${many} runs / of ${few}`, ratio: largeBest / smallBest, budget: 1.5 },
    { name: `one move over ${many} runs / over ${few}`, ratio: move.middle / fewMove.middle, budget: 1.5 },
    // The one time in ms: a quarter of a frame, which leaves the rest of it to the browser.
    { name: `one move over ${many} runs, in ms`, ratio: move.middle, budget: 4 },
  ];
  const lines = [
    `a chart of ${few} runs: ${smallBest.toFixed(0)} ms; of ${many}: ${largeBest.toFixed(0)} ms`,
    `one move of the pointer: ${move.middle.toFixed(2)} ms, a slow one ${move.slow.toFixed(2)} ms`,
    ...budgets.map(({ name, ratio, budget }) => {
      const word = ratio <= budget ? 'kept' : 'MISSED';
      return `${name.padEnd(44)} ${ratio.toFixed(3).padStart(10)}   at most ${String(budget).padEnd(5)} ${word}`;
    }),
    JSON.stringify(Object.fromEntries(budgets.map(({ name, ratio }) => [name, Number(ratio.toFixed(4))]))),
  ];
  process.stdout.write(`${lines.join('\n')}\n`);
  process.exitCode = budgets.every(({ ratio, budget }) => ratio <= budget) ? 0 : 1;
} finally {
  await browser.close();
  await server.close();
}
