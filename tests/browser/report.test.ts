/** The printed report of the demonstration's last year: on both papers, by the browser's own print, and how other pages print. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openProfile, type Profile } from './chromium.ts';

let profile: Profile;
let page: Page;
beforeAll(async () => {
  profile = await openProfile();
  page = profile.page;
  await page.goto(profile.at('/report', '?demonstration'));
  // The laboratory is made up on its first opening.
  await page.getByRole('heading', { level: 1, name: 'Printed report' }).waitFor({ timeout: 60_000 });
});
afterAll(() => profile.close());

const whole = () => page.getByText('The browser’s print dialog can also save it as a PDF.').waitFor();

/** In points, as PDF has it; ISO 216 and ANSI/ASME Y14.1. Chromium rounds to its own units: half a point. */
const papers = {
  A4: { width: 595.28, height: 841.89 },
  Letter: { width: 612, height: 792 },
};
/** Of the page, less the margins of the style sheet, 16 mm on either side; in CSS pixels. */
const textWidth = {
  A4: Math.floor(((210 - 32) / 25.4) * 96),
  Letter: Math.floor(((215.9 - 32) / 25.4) * 96),
};

async function printed() {
  const bytes = (await page.pdf({ preferCSSPageSize: true })).toString('latin1');
  const sizes = [...bytes.matchAll(/\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/g)].map(([, width, height]) => ({
    width: Number(width),
    height: Number(height),
  }));
  return { pages: bytes.match(/\/Type \/Page\b(?!s)/g)?.length ?? 0, sizes };
}

/** What is wider than the page it is printed on, or cut off by what it stands in. */
const tooWide = () =>
  page.evaluate(() => {
    const right = document.documentElement.clientWidth;
    return [...document.querySelectorAll('.report table, .report svg, .report dl')]
      .filter(
        (element) =>
          element.getBoundingClientRect().right > right + 0.5 ||
          element.scrollWidth > element.clientWidth + 1 ||
          [...element.querySelectorAll('th, td, dd')].some((cell) => cell.scrollWidth > cell.clientWidth + 1),
      )
      .map((element) => element.querySelector('caption')?.textContent ?? element.tagName);
  });

describe('the printed report', () => {
  it.each(['A4', 'Letter'] as const)(
    'has pages of %s, each as wide as its text and none too many',
    async (paper) => {
      await page.getByRole('combobox', { name: 'Paper' }).selectOption({ label: paper });
      await whole();
      const { pages, sizes } = await printed();
      for (const size of sizes) {
        expect(Math.abs(size.width - papers[paper].width)).toBeLessThan(0.6);
        expect(Math.abs(size.height - papers[paper].height)).toBeLessThan(0.6);
      }
      expect(sizes).toHaveLength(pages);
      // A cover, two pages an analyzer at least and four for the laboratory; and not a page for each section.
      const chapters = await page.locator('.report h2').count();
      expect(pages).toBeGreaterThan(2 * chapters);
      expect(pages).toBeLessThan(8 * chapters);

      await page.emulateMedia({ media: 'print' });
      await page.setViewportSize({ width: textWidth[paper], height: 900 });
      expect(await tooWide()).toEqual([]);
      await page.emulateMedia({ media: null });
      await page.setViewportSize({ width: 1440, height: 900 });
    },
  );

  it('says what it is of, what came of each analyzer, and that it is a demonstration', async () => {
    await page.emulateMedia({ media: 'print' });
    const text = await page.locator('.report').textContent();
    for (const said of [
      'Demonstration data: an invented laboratory. Nothing here is a measurement.',
      'At a glance',
      'Were the runs made?',
      'What the runs came to',
      'Failures of simulations',
      'ERS/ATS 2017',
      'Signature',
    ]) {
      expect(text).toContain(said);
    }
    expect(text).toMatch(/entry \d+ is the last, hash [0-9a-f]{64}/);
    // The word lies behind every page.
    expect(await page.locator('.ribbon strong').textContent()).toBe('Demonstration data');
    const smallest = await page.evaluate(() =>
      Math.min(
        ...[...document.querySelectorAll('.report p, .report td, .report th, .report dd, .report li')].map(
          (element) => Number.parseFloat(getComputedStyle(element).fontSize),
        ),
      ),
    );
    // 9 pt in CSS pixels.
    expect(smallest).toBeGreaterThanOrEqual(12);
    await page.emulateMedia({ media: null });
  });
});

describe('the print of any page', () => {
  it.each(['/report', '/today', '/charts', '/review', '/equipment', '/records', '/laboratory'])(
    '%s leaves out what is pressed or leads elsewhere, in either colour scheme',
    async (route) => {
      await page.goto(profile.at(route, '?demonstration'));
      await page.locator('h1').first().waitFor();
      for (const colorScheme of ['light', 'dark'] as const) {
        await page.emulateMedia({ media: 'print', colorScheme });
        for (const gone of [
          '.top-line',
          '.skip-link',
          'button:not(.term__word)',
          '.term-line',
          '.ribbon a',
          '.screen-only',
        ]) {
          expect(await page.locator(gone).filter({ visible: true }).count(), `${gone} on ${route}`).toBe(0);
        }
        expect(await page.locator('.ribbon strong').isVisible()).toBe(true);
        const paper = await page.evaluate(() => getComputedStyle(document.body).backgroundColor);
        expect(paper).toBe('rgb(255, 255, 255)');
      }
      await page.emulateMedia({ media: null, colorScheme: null });
    },
  );
});
