// Pictures of the built app for people to look at: every route given, in three sizes and both colour schemes.
//   node .scripts/shots.mjs [route]… [--demo]      for example: npm run shots -- /bench /charts --demo
import { mkdir } from 'node:fs/promises';
import path from 'node:path';
import { artifactsDir } from './command.mjs';
import { untilReady, withPage } from './picturing.mjs';

const sizes = [
  { width: 1440, height: 900 },
  { width: 1024, height: 768 },
  { width: 390, height: 844 },
];
const schemes = /** @type {const} */ (['light', 'dark']);
const everyRoute = ['/today', '/bench', '/charts', '/controls', '/review', '/equipment', '/records'];

const demonstration = process.argv.includes('--demo');
const given = process.argv.slice(2).filter((argument) => !argument.startsWith('--'));
const routes = given.length > 0 ? given : everyRoute;

await withPage(async (page, url) => {
  const screens = path.join(artifactsDir, 'screens');
  await mkdir(screens, { recursive: true });
  for (const route of routes) {
    const hash = `/${route.replace(/^[#/]+/, '')}`;
    await page.goto(`${url}/${demonstration ? '?demonstration' : ''}#${hash}`);
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
});
