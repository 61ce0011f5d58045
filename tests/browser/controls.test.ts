import type { Page } from 'playwright-core';
import { afterEach, describe, expect, it } from 'vitest';
import { axe } from './axe.ts';
import { openProfile, type Profile, shoot } from './chromium.ts';
import { goTo, setUpLaboratory } from './steps.ts';

let profile: Profile | undefined;
afterEach(() => profile?.context.close());

/** In both schemes of colour, and no wider than its window. */
async function expectNothing(page: Page, state: string) {
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
    const found = await axe(page, colorScheme === 'dark' ? 'colour' : undefined);
    expect.soft(found, `${state}, ${colorScheme}`).toEqual([]);
  }
  await page.emulateMedia({ colorScheme: 'light', reducedMotion: 'reduce' });
}

describe('the controls besides the syringe', () => {
  it('are typed, recorded and put right, and are there after a reload', async () => {
    profile = await openProfile();
    const { page, at } = profile;
    await setUpLaboratory(profile);
    await page.goto(at('/equipment/new/subject'));
    await page.getByLabel('Code').fill('B1');
    await page.getByRole('button', { name: 'Add subject' }).click();
    await page.getByRole('heading', { level: 1, name: /B1/ }).waitFor();

    await goTo(page, 'Controls');
    await page.getByRole('link', { name: 'Enter a biological control' }).first().click();
    await page.getByRole('heading', { level: 1, name: 'Biological control, Room 2' }).waitFor();
    await page.getByLabel('DLCO', { exact: true }).fill('25,4');
    await page.getByLabel('Alveolar volume, VA').fill('5.92');
    await page.getByText('it is test 1 of the first 6').waitFor();
    await expectNothing(page, 'a test while it is typed');
    await shoot(page, 'biological-control');
    await page.getByRole('button', { name: 'Record test' }).click();
    await page.getByText(/^Saved\. Test of /).waitFor();

    const analyzerId = new URL(page.url()).hash.split('/').at(-1) ?? '';
    await page.goto(at(`/control/simulator/${analyzerId}`));
    const level = (name: string) => page.getByRole('group', { name });
    await level('Low level').getByLabel('Target DLCO').fill('14');
    await level('Low level').getByLabel('DLCO as reported').fill('14.2');
    await level('High level').getByLabel('Target', { exact: true }).selectOption('computed');
    for (const [label, text] of [
      ['Inspired CO', '0.3'],
      ['Inspired tracer', '0.3'],
      ['Alveolar CO', '0.12'],
      ['Alveolar tracer', '0.21'],
      ['Simulated VA', '4.5'],
      ['Breath-hold time', '10'],
      ['Barometric pressure', '760'],
    ] as const) {
      await level('High level').getByLabel(label).fill(text);
    }
    // ln(0.7/0.4) · 60000/760 · 273.15/310.15 · 4.5 L / 10 s, by hand.
    await level('High level').getByText('17.51').waitFor();
    await level('High level').getByLabel('DLCO as reported').fill('19.6');
    // What is half typed outlives a look at another page.
    await goTo(page, 'Today');
    await page.goBack();
    await page.getByText('2.09 above its target, 17.51: outside the published').waitFor();
    await expectNothing(page, 'a session while it is typed');
    await shoot(page, 'simulator-session');
    await page.getByRole('button', { name: 'Record session' }).click();
    await page.getByText(/^Saved\. Session of /).waitFor();

    await page.getByRole('link', { name: 'Its own page' }).click();
    await page.reload();
    await page.getByRole('heading', { level: 1, name: /^Precision-gas simulator of .*, Room 2$/ }).waitFor();
    await page.getByRole('button', { name: 'Amend…' }).click();
    await page.getByRole('group', { name: 'High level' }).getByLabel('DLCO as reported').fill('17.6');
    await page.getByLabel('Reason for the amendment').fill('Read off the line above.');
    await page.getByRole('button', { name: 'Amend session' }).click();
    await page.getByText('Saved: the session is amended.').waitFor();
    await page.reload();
    const verdicts = page.getByRole('region', { name: 'Verdicts of the control' });
    expect(await verdicts.textContent()).toMatch(/On the day.*Fail.*\+2\.09.*As amended.*Pass.*\+0\.09/s);
    await expectNothing(page, 'the page of a session');
    await shoot(page, 'simulator-session-amended');
  });
});
