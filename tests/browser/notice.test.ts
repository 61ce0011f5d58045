/** What would be noticed, on the demonstration's logbook: worked out beside the page, under the content policy of the build. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { axe } from './axe.ts';
import { openProfile, type Profile } from './chromium.ts';

let profile: Profile;
let page: Page;
beforeAll(async () => {
  profile = await openProfile();
  page = profile.page;
  await page.emulateMedia({ reducedMotion: 'reduce' });
  await page.goto(profile.at('/charts', '?demonstration'));
  // The laboratory is made up on its first opening.
  await page.getByRole('link', { name: 'What would we notice?' }).click({ timeout: 60_000 });
  await page.getByRole('heading', { level: 1, name: 'What would we notice?' }).waitFor();
});
afterAll(() => profile.close());

const computed = () => page.getByText('computing…').first().waitFor({ state: 'detached', timeout: 60_000 });
const tryRule = (rule: string, severity: string) =>
  page.getByRole('combobox', { name: `What if: ${rule}` }).selectOption(severity);

/** What the page's own thread has worked so far, in ms: the threads beside it and other programs do not count. */
async function workOfPage(): Promise<number> {
  const session = await page.context().newCDPSession(page);
  await session.send('Performance.enable');
  const { metrics } = await session.send('Performance.getMetrics');
  await session.detach();
  const seconds = metrics.find(({ name }) => name === 'ThreadTime')?.value;
  if (seconds === undefined) throw new Error('the browser does not tell the time of a thread');
  return seconds * 1000;
}

describe('what would be noticed', () => {
  it('is worked out on a thread of its own, and said in weeks', async () => {
    await computed();
    expect(page.workers().some((worker) => worker.url().includes('runLengthWorker'))).toBe(true);
    await expect
      .poll(() => page.getByText(/^A leak that adds 100 mL .* by the published limits alone after/).count())
      .toBeGreaterThan(0);
  });

  it('holds up no key while rules that can only be simulated are tried', async () => {
    // 7T alone waits some 3,000 runs, whatever the shift: every answer takes a quarter of a second to simulate.
    for (const rule of ['1-2s', '1-3s', '2-2s', 'R-4s', '4-1s', '10x', 'EWMA', 'CUSUM'])
      await tryRule(rule, 'off');
    await page.getByText('computing…').first().waitFor();
    const keys = '3.105';
    const before = await workOfPage();
    const limit = page.getByRole('textbox', { name: 'EWMA limit L' });
    await limit.fill('');
    await limit.pressSequentially(keys, { delay: 100 });
    expect(await limit.inputValue()).toBe(keys);
    expect((await workOfPage()) - before).toBeLessThan(50 * keys.length);
    expect(await page.getByText('computing…').count()).toBeGreaterThan(0);
    await computed();
  });

  it('gives axe nothing to find, in either colour scheme, with other rules beside those in force', async () => {
    for (const width of [1440, 390]) {
      await page.setViewportSize({ width, height: 900 });
      for (const colorScheme of ['light', 'dark'] as const) {
        await page.emulateMedia({ colorScheme });
        expect.soft(await axe(page), `${width} px, ${colorScheme}`).toEqual([]);
      }
      const beside = await page.evaluate(
        () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
      );
      expect.soft(beside, `px beside a window of ${width}`).toBe(0);
    }
  });
});
