import type { Page } from 'playwright-core';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { axe } from './axe.ts';
import { openProfile, type Profile, shoot } from './chromium.ts';
import { exportedRows, setUpLaboratory } from './steps.ts';

const heading = (page: Page, step: number) =>
  page.getByRole('heading', { level: 1, name: `Step ${step} of 10` });
const hasFocus = (page: Page, step: number) =>
  heading(page, step).evaluate((element) => element === document.activeElement);

/** Tab until the control of that name has the focus. */
async function tabTo(page: Page, name: string) {
  for (let tabs = 0; tabs < 40; tabs += 1) {
    await page.keyboard.press('Tab');
    const at = await page.evaluate(() => {
      const focused = document.activeElement as HTMLInputElement;
      return (focused.labels?.[0] ?? focused).textContent?.trim();
    });
    if (at?.startsWith(name)) return;
  }
  throw new Error(`Tab never came to ${name}`);
}

/** How many px of the page lie beside the window. */
const beside = (page: Page) =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);

/** Both themes on a wide and a narrow window, and no scrolling sideways at 320 px (WCAG 2.2, 1.4.10). */
async function expectAccessible(page: Page, step: number) {
  for (const width of [1440, 390]) {
    await page.setViewportSize({ width, height: 844 });
    for (const colorScheme of ['light', 'dark'] as const) {
      await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
      expect(await axe(page), `step ${step}, ${width} px, ${colorScheme}`).toEqual([]);
    }
  }
  await page.setViewportSize({ width: 320, height: 700 });
  expect(await beside(page), `step ${step} at 320 px`).toBe(0);
  await page.setViewportSize({ width: 1440, height: 900 });
}

describe('the guided run', () => {
  let profile: Profile;
  beforeEach(async () => {
    profile = await openProfile();
    await setUpLaboratory(profile);
  });
  afterEach(() => profile.close());

  it('leads from the bench to a recorded run by keyboard alone, over a reload, with nothing that axe finds', async () => {
    const { page } = profile;
    const goOn = async (from: number) => {
      await expectAccessible(page, from);
      await page.keyboard.press('Enter');
      await heading(page, from + 1).waitFor();
      await expect.poll(() => hasFocus(page, from + 1)).toBe(true);
    };
    await page.getByRole('link', { name: 'Guide me through' }).focus();
    await page.keyboard.press('Enter');
    await heading(page, 1).waitFor();
    await expect.poll(() => hasFocus(page, 1)).toBe(true);
    await tabTo(page, 'Technologist');
    await page.keyboard.press('ArrowDown');
    expect(await page.getByLabel('Analyzer', { exact: true }).inputValue()).not.toBe('');
    // From a closed list, where the browser itself does nothing with the key.
    await goOn(1);

    await tabTo(page, 'Temperature');
    await page.keyboard.type('22');
    await tabTo(page, 'Barometric pressure');
    await page.keyboard.type('760');
    await goOn(2);
    await goOn(3);

    // 3 L · 1.1201 at 22 °C and 760 mmHg for dry gas, derived from the gas law.
    expect(await page.getByText('In this room it should read').textContent()).toContain('3.36 L BTPS');
    await tabTo(page, 'Volume check');
    await page.keyboard.type('3.05');
    await page.keyboard.press('Enter');
    // 3.05 / 3.3603 − 1 = −9.2 %
    await page.getByText('9.2 % low, outside ±3 %.').waitFor();
    expect(await heading(page, 4).isVisible()).toBe(true);
    await expectAccessible(page, 4);
    await page.getByLabel('Volume check').focus();
    await page.keyboard.press('Control+A');
    await page.keyboard.type('3.34');
    await goOn(4);

    await page.reload();
    await expect.poll(() => hasFocus(page, 5)).toBe(true);
    await page.getByRole('region', { name: 'Filled in so far' }).getByText('3.34 L BTPS').waitFor();
    await goOn(5);
    await goOn(6);
    await page
      .getByRole('timer')
      .getByText('2 of 10 s')
      .or(page.getByRole('timer').filter({ hasText: /^[2-9]/ }))
      .first()
      .waitFor();
    await shoot(page, 'guided-hold');
    await goOn(7);
    expect(await page.getByText(/^Held for .* s by the timer here/).count()).toBe(1);
    await page.keyboard.press('Escape');
    await expect.poll(() => hasFocus(page, 7)).toBe(true);
    await page.keyboard.press('Enter');
    await expect.poll(() => hasFocus(page, 8)).toBe(true);
    await goOn(8);

    await tabTo(page, 'Alveolar volume');
    await page.keyboard.type('3.45');
    await tabTo(page, 'DLCO');
    await page.keyboard.type('0.12');
    await goOn(9);
    await expectAccessible(page, 10);
    await tabTo(page, 'Record run');
    await page.keyboard.press('Enter');
    await page.getByText('Saved.', { exact: true }).waitFor();
    await expectAccessible(page, 10);

    const [row, ...others] = await exportedRows(page);
    expect(others).toEqual([]);
    // 3.45 · 0.8928 − 0.110 = 2.970 L
    expect(Number(row?.simulated_va_l)).toBeCloseTo(2.97, 3);
    expect(row).toMatchObject({ analyzer: 'Room 2', verdict: 'pass' });
    profile.expectQuiet();
  });

  it('works on the bench’s own draft: what is typed on one stands on the other', async () => {
    const { page } = profile;
    await page.getByLabel('Technologist').selectOption({ label: 'AE  Ada Example' });
    await page.getByLabel('Temperature', { exact: true }).fill('21.5');
    await page.getByRole('link', { name: 'Guide me through' }).click();
    await page.getByRole('button', { name: 'On to the room' }).click();
    await heading(page, 2).waitFor();
    expect(await page.getByLabel('Temperature', { exact: true }).inputValue()).toBe('21.5');
    await page.getByLabel('Barometric pressure').fill('755');
    await page.getByRole('link', { name: 'To the bench form' }).click();
    await page.getByRole('heading', { name: 'Record a run' }).waitFor();
    expect(await page.getByLabel('Barometric pressure').inputValue()).toBe('755');
    await page.getByRole('link', { name: 'Guide me through' }).click();
    await heading(page, 2).waitFor();
  });

  it('shows caution and heading of the new step on a phone, wherever the button was pressed', async () => {
    const { page } = profile;
    await page.setViewportSize({ width: 390, height: 844 });
    await page.getByLabel('Technologist').selectOption({ label: 'AE  Ada Example' });
    await page.getByLabel('Temperature', { exact: true }).fill('21.5');
    await page.getByLabel('Barometric pressure').fill('755');
    await page.getByRole('link', { name: 'Guide me through' }).click();
    for (const [step, button] of [
      [1, 'On to the room'],
      [2, 'On to the syringe'],
    ] as const) {
      await heading(page, step).waitFor();
      await page.evaluate(() => window.scrollTo(0, document.body.scrollHeight));
      expect(await page.evaluate(() => window.scrollY)).toBeGreaterThan(0);
      await page.getByRole('button', { name: button }).click();
      await heading(page, step + 1).waitFor();
      const caution = await page.getByRole('region', { name: 'Caution' }).boundingBox();
      const head = await heading(page, step + 1).boundingBox();
      expect(caution?.y).toBeGreaterThanOrEqual(0);
      expect(head?.y).toBeGreaterThan(caution?.y ?? 0);
      expect((head?.y ?? 0) + (head?.height ?? 0)).toBeLessThanOrEqual(844);
    }
  });
});
