import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { axe } from './axe.ts';
import { shoot } from './chromium.ts';
import { openedProfiles } from './openedProfiles.ts';
import {
  recordAgain,
  recordRun,
  setUpLaboratory,
  typeRun,
  verdictPanel,
  verdictWithReason,
} from './steps.ts';

/** 3.95 L BTPS at 22 °C and 760 mmHg is 3.95 · 0.8928 − 0.110 = 3.417 L: outside 0.3 L. */
const off = { temperature: '22', pressure: '760', va: '3.95', dlco: '0.12' };

const { opened } = openedProfiles();

async function axeInBoth(page: Page) {
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
    expect(await axe(page)).toEqual([]);
  }
}

describe('a run that fails', () => {
  it('stops, gives its reason, and its repeat and checks come together as one investigation', async () => {
    const profile = await opened();
    const { page } = profile;
    await page.emulateMedia({ reducedMotion: 'reduce' });
    await setUpLaboratory(profile);
    await typeRun(page, off);
    await recordRun(page);
    expect(await verdictPanel(page).textContent()).toContain('Stop: no patients. Repeat once');
    await verdictWithReason(page);
    await axeInBoth(page);
    await shoot(page, 'fail-with-reason');

    await page.getByRole('button', { name: /^Repeat this run/ }).click();
    await typeRun(page, { ...off, va: '3.96' });
    await recordAgain(page);
    expect(await verdictPanel(page).textContent()).toContain('It failed again: tell the supervisor.');

    await page.getByRole('link', { name: 'All checks and what they point to' }).click();
    await page.getByRole('heading', { name: 'Investigation: Room 2' }).waitFor();
    const checks = page.getByRole('region', { name: 'Checks' });
    expect(await checks.textContent()).toMatch(/Repeat the run done.*Fail.*Room 2/);
    expect(await page.getByRole('region', { name: 'What was found' }).textContent()).toContain(
      'Repeated: VA is high. Not a slip.',
    );
    await axeInBoth(page);
    await shoot(page, 'investigation');

    await page.reload();
    await checks.getByRole('link').first().click();
    await page.getByRole('heading', { name: /^Run of .*, Room 2$/ }).waitFor();
    expect(await page.getByText(/^Part of the/).textContent()).toMatch(/made as a repeat\.$/);
    await page.getByRole('link', { name: /^investigation of/ }).click();
    await page.getByRole('heading', { name: 'Investigation: Room 2' }).waitFor();
  });
});
