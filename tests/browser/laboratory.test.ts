import type { Page } from 'playwright-core';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { axe } from './axe.ts';
import { openProfile, type Profile, shoot } from './chromium.ts';
import { recordRun, setUpLaboratory, typeRun, verdictPanel } from './steps.ts';

const room = { temperature: '22', pressure: '760', dlco: '0.12' };

const lastRuns = (page: Page) => page.getByRole('region', { name: /Last runs of Room 2/ }).first();
const goTo = (page: Page, screen: string) => page.getByRole('link', { name: screen, exact: true }).click();

/** With the fixed factor 1 and 110 mL of dead space: the simulated VA is `va` less 0.11 L. */
async function run(page: Page, va: string) {
  await typeRun(page, { ...room, va });
  await recordRun(page);
}

async function openSetting(page: Page, setting: string | RegExp, form: string) {
  await goTo(page, 'Laboratory');
  await page.getByRole('link', { name: setting }).click();
  await page.getByRole('button', { name: form }).click();
}

async function save(page: Page, reason: string, action: string) {
  await page.getByLabel('Reason').fill(reason);
  await page.getByRole('button', { name: action, exact: true }).click();
  // The form is gone once what it holds is written.
  await page.getByLabel('Reason').waitFor({ state: 'detached' });
}

describe('the laboratory’s settings', () => {
  let profile: Profile;
  beforeEach(async () => {
    profile = await openProfile();
    await setUpLaboratory(profile, { label: 'Room 2', fixedFactor: '1' });
  });
  afterEach(() => profile.close());

  it('write numbers and dates on every page, at once in another window, and after a reload', async () => {
    const { page } = profile;
    await run(page, '3.11');
    const other = await profile.context.newPage();
    await other.goto(profile.at('/bench'));
    await lastRuns(other).getByText('3.000').waitFor();

    await openSetting(page, /^Name and form of writing/, 'Change name or form of writing…');
    await page.getByLabel('Name of the laboratory').fill('Lung function, North');
    await page.getByLabel('Decimal mark').selectOption('comma');
    await page.getByLabel('Dates').selectOption('dd.mm.yyyy');
    expect(await axe(page)).toEqual([]);
    await save(page, 'As the hospital writes.', 'Save the change');
    await page.getByText('Set by AE').waitFor();
    expect(await axe(page)).toEqual([]);
    await shoot(page, 'laboratory-writing');

    await lastRuns(other).getByText('3,000').waitFor({ timeout: 5000 });
    await lastRuns(other)
      .getByText(/\d\d\.\d\d\.\d{4}, /)
      .waitFor();
    await expect
      .poll(() => other.title())
      .toBe('Record a run – Bench – Lung function, North, Diffusion QC Logbook');

    await goTo(page, 'Bench');
    await lastRuns(page).getByText('3,000').waitFor();
    await goTo(page, 'Charts');
    await page.getByText('Published 2,700 and 3,300 L').first().waitFor();
    await page.reload();
    await page.getByText('Published 2,700 and 3,300 L').first().waitFor();
    await page
      .getByText(/^1 run on \d\d\.\d\d\.\d{4}\./)
      .first()
      .waitFor();
  });

  it('judge the next run by the new policy, and leave the failure of the old one where it is', async () => {
    const { page } = profile;
    await openSetting(page, /^Policy of Room 2/, 'Set the policy…');
    await page.getByLabel('Judge from').fill('3');
    expect(await axe(page)).toEqual([]);
    await save(page, 'So that this test needs three runs only.', 'Set from now on');
    await goTo(page, 'Bench');
    // Simulated 3.00, 3.01 and 2.99 L: mean 3.000, sample SD 0.010 L, by hand. 3.04 L is 4 SD above it.
    for (const va of ['3.11', '3.12', '3.10']) await run(page, va);
    await typeRun(page, { ...room, va: '3.15' });
    await verdictPanel(page).getByText('Fail', { exact: true }).first().waitFor();
    await recordRun(page);

    await openSetting(page, /^Policy of Room 2/, 'Set the policy…');
    await page.getByLabel('1-3s', { exact: true }).selectOption('off');
    await save(page, 'The analyzer is known to scatter.', 'Set from now on');
    await page.getByText('Differs from the usual in: Judge from, 1-3s.').waitFor();
    expect(await axe(page)).toEqual([]);
    await shoot(page, 'laboratory-policy');

    await goTo(page, 'Bench');
    await typeRun(page, { ...room, va: '3.15' });
    await verdictPanel(page).getByText('Warning', { exact: true }).first().waitFor();
    await page.getByRole('button', { name: 'Record run' }).click();
    // The bench asks before it records the same values a second time.
    await page.getByRole('button', { name: 'Yes, record it' }).click();
    await page.getByText('Saved.', { exact: true }).waitFor();
    // The older of the two keeps its verdict, and its failure is still to be closed.
    await lastRuns(page).getByRole('row').nth(1).getByText('Warning').waitFor();
    await lastRuns(page).getByRole('row').nth(2).getByText('Fail').waitFor();
    await goTo(page, 'Review');
    await page.getByText(/1-3s/).first().waitFor();
    await page.reload();
    await page.getByText(/1-3s/).first().waitFor();
  });
});
