// The program at scale in a real browser, as ratios in one run: how soon the bench form stands before years of runs, how soon a saved
// run has its verdict, how long export and import take beside the library that writes and parts the same cells, and whether
// a key ever waits. Prints a table and one line of JSON; exits with 1 when a budget is missed.
//   npm run bench:browser             a logbook of 20,000 runs
//   npm run bench:browser -- 200000   the same numbers for another size
import { ensureFreshBuild } from '../../.scripts/freshBuild.mjs';
import { serveBuild } from '../../.scripts/serve.mjs';
import { launch, pageWith, report, scriptInPage, workload } from './openPages.mjs';

const many = Number(process.argv[2] ?? 20_000);
const rows = 100_000;
const rounds = 9;
const saves = 12;

/** @param {readonly number[]} times */
const middle = (times) => [...times].sort((one, other) => one - other)[Math.floor(times.length / 2)] ?? 0;

/** Waits in the page until the form can be typed into, and notes every task that held the page longer than 50 ms. */
function watchStart() {
  /** @type {{ __usable?: number, __tasks: number[] }} */
  const kept = Object.assign(window, { __tasks: [] });
  new PerformanceObserver((list) => {
    for (const { duration } of list.getEntries()) kept.__tasks.push(duration);
  }).observe({ type: 'longtask', buffered: true });
  const look = () => {
    const field = document.querySelector('form input[inputmode="decimal"]');
    if (field === null) requestAnimationFrame(look);
    // The frame after the one in which it was found has been painted.
    else requestAnimationFrame(() => setTimeout(() => (kept.__usable = performance.now()), 0));
  };
  requestAnimationFrame(look);
}

/**
 * From the beginning of the load to a form that can be typed into, in ms, and the longest task until all runs are read.
 *
 * @param {import('playwright-core').Page} page
 * @param {string} url
 */
async function timeToBench(page, url) {
  await page.goto(`${url}/blank`);
  await page.goto(`${url}/#/bench`);
  await page.locator('section[aria-label="Verdict while typing"]').waitFor({ timeout: 120_000 });
  // The outline for the next start is kept a little later.
  await page.waitForTimeout(800);
  return page.evaluate(() => {
    const kept = /** @type {{ __usable?: number, __tasks: number[] }} */ (/** @type {unknown} */ (window));
    return { usable: kept.__usable ?? Number.NaN, longest: Math.max(0, ...kept.__tasks) };
  });
}

/**
 * From the press on "Record run" to the recorded verdict on the page, in ms, for some runs in a row.
 *
 * @param {import('playwright-core').Page} page
 */
async function timesOfSaves(page) {
  await page.getByLabel('Analyzer', { exact: true }).selectOption({ index: 1 });
  await page.getByLabel('Technologist').selectOption({ index: 1 });
  const times = [];
  for (let count = 0; count < saves; count += 1) {
    await page.getByLabel('Temperature').fill('22');
    await page.getByLabel('Barometric pressure').fill('760');
    await page.getByLabel('Alveolar volume, VA').fill((3.46 + count / 1000).toFixed(3));
    await page.getByLabel('DLCO', { exact: true }).fill((count / 100).toFixed(2));
    await page.waitForTimeout(200);
    const time = await page.evaluate(
      () =>
        new Promise((resolve, reject) => {
          const recorded = () => document.querySelector('section[data-state="recorded"]') !== null;
          const button = () =>
            [...document.querySelectorAll('button')].find(
              ({ textContent }) => textContent === 'Record run' || textContent === 'Record it as it stands',
            );
          const start = performance.now();
          const watching = new MutationObserver(() => {
            if (recorded()) {
              watching.disconnect();
              resolve(performance.now() - start);
            }
          });
          watching.observe(document.body, { subtree: true, childList: true, attributes: true });
          button()?.click();
          setTimeout(
            () => reject(new Error(document.querySelector('form')?.textContent ?? 'no form')),
            20_000,
          );
        }),
    );
    times.push(Number(time));
    await page.waitForTimeout(400);
  }
  return times;
}

/**
 * The longest task while a run is typed, key by key, in ms; 0 where none was longer than 50.
 *
 * @param {import('playwright-core').Page} page
 */
async function longestWhileTyping(page) {
  await page.evaluate(() => {
    /** @type {{ __tasks: number[] }} */ (/** @type {unknown} */ (window)).__tasks = [];
  });
  for (const [label, text] of [
    ['Temperature', '22.4'],
    ['Barometric pressure', '751.5'],
    ['Alveolar volume, VA', '3.472'],
    ['DLCO', '0.134'],
  ]) {
    const field = page.getByLabel(label ?? '', { exact: label === 'DLCO' });
    await field.fill('');
    await field.pressSequentially(text ?? '', { delay: 30 });
  }
  return page.evaluate(() =>
    Math.max(0, .../** @type {{ __tasks: number[] }} */ (/** @type {unknown} */ (window)).__tasks),
  );
}

await ensureFreshBuild();
const sealedRuns = await workload();
const server = await serveBuild(0);
const browser = await launch();
try {
  const now = Date.now();
  const none = await pageWith(browser, server.url, await sealedRuns(0, now));
  const large = await pageWith(browser, server.url, await sealedRuns(many, now));
  for (const page of [none, large]) await page.addInitScript(watchStart);
  const starts = { none: /** @type {number[]} */ ([]), large: /** @type {number[]} */ ([]) };
  let longestAtStart = 0;
  // The first start of each has no outline yet, and files still to be fetched.
  for (let round = 0; round <= rounds; round += 1) {
    const small = await timeToBench(none, server.url);
    const big = await timeToBench(large, server.url);
    if (round === 0) continue;
    starts.none.push(small.usable);
    starts.large.push(big.usable);
    longestAtStart = Math.max(longestAtStart, big.longest);
  }
  const typing = await longestWhileTyping(large);
  const saveTimes = await timesOfSaves(large);
  await none.goto(`${server.url}/blank`);
  await none.addScriptTag({ content: await scriptInPage() });
  const put = await none.evaluate('inPage.measurePut()');
  const written = await none.evaluate(`inPage.measureExport(${rows})`);
  const read = await none.evaluate(`inPage.measureImport(${rows})`);
  report(
    [
      `the bench form stands after ${middle(starts.none).toFixed(0)} ms with no run, ${middle(starts.large).toFixed(0)} ms with ${many}`,
      `the longest task at a start with ${many} runs: ${longestAtStart.toFixed(0)} ms; while typing: ${typing.toFixed(0)} ms`,
      `from the press to the verdict: ${middle(saveTimes).toFixed(1)} ms; a bare put: ${put.toFixed(1)} ms`,
      `${rows} rows written in ${written.ours.toFixed(0)} ms, by the library alone ${written.plain.toFixed(0)} ms`,
      `${rows} rows read and judged in ${read.ours.toFixed(0)} ms, parted by the library alone ${read.plain.toFixed(0)} ms`,
    ],
    [
      {
        name: `start with ${many} runs / with none`,
        ratio: middle(starts.large) / middle(starts.none),
        budget: 1.5,
      },
      { name: 'a save to its verdict / a bare put', ratio: middle(saveTimes) / put, budget: 2 },
      { name: `export of ${rows} rows / unparse alone`, ratio: written.ours / written.plain, budget: 1.5 },
      { name: `import of ${rows} rows / parse alone`, ratio: read.ours / read.plain, budget: 4 },
      // The one time in ms: what a person notices as a key that waits.
      { name: 'longest task while typing, in ms', ratio: typing, budget: 50 },
    ],
  );
} finally {
  await browser.close();
  await server.close();
}
