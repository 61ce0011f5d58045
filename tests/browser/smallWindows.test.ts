import type { Page } from 'playwright-core';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openProfile, type Profile } from './chromium.ts';
import { goTo, lastRuns, recordRun, setUpLaboratory, typeRun } from './steps.ts';

/** How many px of the page lie beside the window. WCAG 2.2, 1.4.10: none at a width of 320 CSS px. */
const beside = (page: Page) =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);

describe('a small window', () => {
  let profile: Profile;
  beforeEach(async () => {
    profile = await openProfile();
  });
  afterEach(() => profile.close());

  it('holds every screen at 320 px without scrolling sideways', async () => {
    const { page } = profile;
    await page.setViewportSize({ width: 320, height: 700 });
    await page.goto(profile.at('/'));
    await page.getByRole('button', { name: 'Add me' }).waitFor();
    expect(await beside(page), 'first page').toBe(0);
    await setUpLaboratory(profile);
    for (const screen of ['Today', 'Bench', 'Charts', 'Review', 'Equipment', 'Records', 'Laboratory']) {
      await page.getByRole('link', { name: screen, exact: true }).click();
      await page.getByRole('heading', { level: 1 }).first().waitFor();
      expect(await beside(page), screen).toBe(0);
    }
  });

  it('holds the last runs with an amended one among them: what is struck there scrolls in its own frame', async () => {
    const { page } = profile;
    await page.setViewportSize({ width: 320, height: 700 });
    await setUpLaboratory(profile);
    await typeRun(page, { temperature: '22', pressure: '760', va: '3.45', dlco: '0.12' });
    await recordRun(page);
    await lastRuns(page, 'Room 2').getByRole('link').first().click();
    await page.getByRole('button', { name: 'Amend…' }).click();
    await page.getByLabel('Alveolar volume, VA').fill('3.95');
    await page.getByLabel('Reason for the amendment').fill('Misread');
    await page.getByRole('button', { name: 'Amend run' }).click();
    await page.getByText(/^Saved: the run is amended/).waitFor();
    expect(await beside(page), 'run').toBe(0);
    await goTo(page, 'Bench');
    await lastRuns(page, 'Room 2').getByText('as amended').waitFor({ state: 'attached' });
    expect(await beside(page), 'bench').toBe(0);
  });

  it('does not hide a field that the Tab key comes to behind the button that stays in sight', async () => {
    const { page } = profile;
    await page.setViewportSize({ width: 1024, height: 768 });
    await setUpLaboratory(profile);
    await page.getByLabel('Temperature').focus();
    const covered: string[] = [];
    const reached: string[] = [];
    for (let tabs = 0; tabs < 20 && reached.at(-1) !== 'Record run'; tabs++) {
      await page.keyboard.press('Tab');
      const { name, isCovered } = await page.evaluate(() => {
        const focused = document.activeElement as HTMLElement;
        const { left, bottom, width } = focused.getBoundingClientRect();
        const there = document.elementFromPoint(left + width / 2, bottom - 3);
        const [label] = (focused as HTMLInputElement).labels ?? [];
        return { name: (label ?? focused).textContent, isCovered: !focused.contains(there) };
      });
      reached.push(name);
      if (isCovered) covered.push(name);
    }
    expect(reached).toContain('Comment');
    expect(reached.at(-1)).toBe('Record run');
    expect(covered).toEqual([]);
  });
});
