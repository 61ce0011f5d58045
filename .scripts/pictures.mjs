// The pictures of the README, taken of the built app on its demonstration laboratory:
//   npm run pictures
import { mkdir } from 'node:fs/promises';
import path from 'node:path';
import { projectRoot } from './command.mjs';
import { untilReady, withPage } from './picturing.mjs';

const folder = path.join(projectRoot, '.pictures');

await withPage(async (page, url) => {
  await mkdir(folder, { recursive: true });
  await page.setViewportSize({ width: 1200, height: 820 });
  /** @param {string} route */
  const goTo = async (route) => {
    await page.goto(`${url}/?demonstration#${route}`);
    await untilReady(page);
  };
  /** @param {string} name */
  const take = async (name) => {
    // Charts are drawn a moment after their page stands.
    await page.waitForTimeout(800);
    await page.mouse.move(0, 0);
    const file = path.join(folder, `${name}.png`);
    await page.screenshot({ path: file });
    console.log(path.relative(process.cwd(), file));
  };

  await goTo('/today');
  await take('today');

  await goTo('/bench');
  await page.getByLabel('Analyzer', { exact: true }).selectOption({ label: 'Room 2 sample-bag' });
  await page.getByLabel('Technologist').selectOption({ index: 1 });
  for (const [label, typed] of [
    ['Temperature', '22.4'],
    ['Barometric pressure', '100.3'],
    ['Alveolar volume, VA', '3.58'],
    ['DLCO', '0.036'],
  ]) {
    await page.getByLabel(label ?? '', { exact: label === 'DLCO' }).fill(typed ?? '');
  }
  await page.evaluate(() => window.scrollTo(0, 0));
  await take('bench');

  await goTo('/charts');
  await take('charts');

  await goTo('/review');
  await take('review');

  await goTo('/controls');
  await page.getByRole('link', { name: /^B-1/ }).first().click();
  await take('controls');

  await goTo('/completeness');
  await take('completeness');
});
