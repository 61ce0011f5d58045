// How long a chart takes in a real browser, from the press on "Charts" to its runs on the screen, and what a moving pointer
// costs: ratios in one run, since a time in milliseconds says more about the computer than about the program.
// Prints a table and one line of JSON; exits with 1 when a budget is missed.
import { ensureFreshBuild } from '../../.scripts/freshBuild.mjs';
import { serveBuild } from '../../.scripts/serve.mjs';
import { launch, pageWith, report, workload } from './openPages.mjs';

const few = 500;
const many = 5000;
const rounds = 7;
const runsOnScreen = '.control-chart__dots path';

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
const browser = await launch();
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
  report(
    [
      `a chart of ${few} runs: ${smallBest.toFixed(0)} ms; of ${many}: ${largeBest.toFixed(0)} ms`,
      `one move of the pointer: ${move.middle.toFixed(2)} ms, a slow one ${move.slow.toFixed(2)} ms`,
    ],
    budgets,
  );
} finally {
  await browser.close();
  await server.close();
}
