// Pictures of the built app for people to look at: every route given, in three sizes and both colour schemes.
//   node .scripts/shots.mjs [route]… [--demo]      for example: npm run shots -- /bench /charts --demo
import { mkdir } from 'node:fs/promises';
import path from 'node:path';
import { chromium } from 'playwright-core';
import { findOrInstallChromium } from './chromium.mjs';
import { artifactsDir } from './command.mjs';
import { ensureFreshBuild } from './freshBuild.mjs';
import { serveBuild } from './serve.mjs';

const sizes = [
  { width: 1440, height: 900 },
  { width: 1024, height: 768 },
  { width: 390, height: 844 },
];
const schemes = /** @type {const} */ (['light', 'dark']);
const everyRoute = ['/bench', '/charts', '/review', '/equipment', '/records'];

const demonstration = process.argv.includes('--demo');
const given = process.argv.slice(2).filter((argument) => !argument.startsWith('--'));
const routes = given.length > 0 ? given : everyRoute;

/**
 * Nothing is loading any more. The demonstration laboratory is made up on its first opening, which takes a while.
 *
 * @param {import('playwright-core').Page} page
 */
async function untilReady(page) {
  await page.waitForLoadState('networkidle');
  await page.locator('#root > *').first().waitFor({ state: 'attached', timeout: 30_000 });
  await page
    .getByText(/^Opening .+…$/)
    .first()
    .waitFor({ state: 'detached', timeout: 60_000 });
}

await ensureFreshBuild();
const server = await serveBuild(0);
const browser = await chromium.launch({
  executablePath: await findOrInstallChromium(),
  args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--disable-background-networking'],
});
try {
  const screens = path.join(artifactsDir, 'screens');
  await mkdir(screens, { recursive: true });
  const page = await (await browser.newContext({ reducedMotion: 'reduce' })).newPage();
  page.on('pageerror', (error) => console.error(`page error: ${error.message}`));
  page.on('console', (message) => {
    if (['error', 'warning'].includes(message.type())) console.error(`console: ${message.text()}`);
  });
  for (const route of routes) {
    const hash = `/${route.replace(/^[#/]+/, '')}`;
    await page.goto(`${server.url}/${demonstration ? '?demonstration' : ''}#${hash}`);
    await page.reload();
    for (const viewport of sizes) {
      for (const colorScheme of schemes) {
        await page.setViewportSize(viewport);
        await page.emulateMedia({ colorScheme });
        await untilReady(page);
        const name = hash.slice(1).replace(/[^\w-]+/g, '-') || 'start';
        const laboratory = demonstration ? 'demo-' : '';
        const file = path.join(screens, `${laboratory}${name}-${viewport.width}-${colorScheme}.png`);
        await page.screenshot({ path: file, fullPage: true });
        console.log(path.relative(process.cwd(), file));
      }
    }
  }
} finally {
  await browser.close();
  await server.close();
}
