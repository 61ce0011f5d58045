// What every script that takes pictures of the built app shares.
import { chromium } from 'playwright-core';
import { findOrInstallChromium } from './chromium.mjs';
import { ensureFreshBuild } from './freshBuild.mjs';
import { serveBuild } from './serve.mjs';

/**
 * Nothing is loading any more. The demonstration laboratory is made up on its first opening, which takes a while.
 *
 * @param {import('playwright-core').Page} page
 */
export async function untilReady(page) {
  await page.waitForLoadState('networkidle');
  await page.locator('#root > *').first().waitFor({ state: 'attached', timeout: 30_000 });
  await page
    .getByText(/^Opening .+…$/)
    .first()
    .waitFor({ state: 'detached', timeout: 60_000 });
}

/**
 * Gives `take` a page in front of the served build, and tells of whatever the page complains about.
 *
 * @param {(page: import('playwright-core').Page, url: string) => Promise<void>} take
 */
export async function withPage(take) {
  await ensureFreshBuild();
  const server = await serveBuild(0);
  const browser = await chromium.launch({
    executablePath: await findOrInstallChromium(),
    args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--disable-background-networking'],
  });
  try {
    const page = await (await browser.newContext({ reducedMotion: 'reduce' })).newPage();
    page.on('pageerror', (error) => console.error(`page error: ${error.message}`));
    page.on('console', (message) => {
      if (['error', 'warning'].includes(message.type())) console.error(`console: ${message.text()}`);
    });
    await take(page, server.url);
  } finally {
    await browser.close();
    await server.close();
  }
}
