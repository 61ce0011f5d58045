/** The pages of one profile, for tests that walk through many of them. */
import type { Page } from 'playwright-core';
import type { Profile } from './chromium.ts';

/** Opens `route`, and waits until it stands there in place of the page before it. */
export async function openRoute(profile: Profile, route: string, search = '?demonstration'): Promise<void> {
  const { page } = profile;
  await page.goto(profile.at(route, search));
  // The former page stands until the next picture is drawn.
  await page.evaluate(
    () => new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn))),
  );
  await page.locator('h1, .notice').first().waitFor();
  await page
    .getByText(/^Opening .+…$/)
    .first()
    .waitFor({ state: 'detached' });
}

/** The laboratory is made up on its first opening. */
export async function openDemonstration(profile: Profile): Promise<void> {
  await profile.page.emulateMedia({ reducedMotion: 'reduce' });
  await profile.page.goto(profile.at('/today', '?demonstration'));
  await profile.page.getByRole('heading', { level: 1, name: 'Today' }).waitFor({ timeout: 60_000 });
}

/** Where the links of the page as it stands lead to, as routes, each once and in their order. */
export async function routesLinked(page: Page): Promise<string[]> {
  const hrefs = await page
    .locator('a[href^="#/"]')
    .evaluateAll((links) => links.map((link) => (link.getAttribute('href') ?? '').slice(1)));
  return [...new Set(hrefs)];
}
