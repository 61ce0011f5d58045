/** On the demonstration's logbook, from Today on: the slow leak is found, dated, explained, repaired, proven and closed. */
import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { calendarUntil } from '../../src/demo/calendar.ts';
import { demonstrationEntries } from '../../src/demo/laboratory.ts';
import { weeks } from '../../src/demo/plan.ts';
import { analyzers } from '../../src/demo/scenario.ts';
import { axe } from './axe.ts';
import { shoot } from './chromium.ts';
import { openedProfiles } from './openedProfiles.ts';
import { goTo, recordAgain, sayWhy, writeAction } from './steps.ts';

const { opened } = openedProfiles();

const zone = Intl.DateTimeFormat().resolvedOptions().timeZone;

/** The scenario's own truth: from which run day on the analyzer leaks whose leak nobody has found. ms. */
function leakBegan(): number {
  const leaking = analyzers.find(
    ({ fault }) => fault !== null && fault.leakPerWeek > 0 && fault.repair === null,
  );
  const calendar = calendarUntil(Date.now(), zone, weeks);
  return Date.parse(calendar.date(calendar.runDay(leaking?.fault?.fromWeek ?? Number.NaN)));
}

/** A run of the analyzer from before the leak, near its own mean: what it reports once it is repaired. */
async function asBefore() {
  const entries = await demonstrationEntries({ seed: 20_170_103, endAt: Date.now(), zone });
  const analyzer = entries.find(
    ({ kind, body }) => kind === 'analyzer-added' && 'label' in body && body.label === leaky,
  );
  const id = analyzer?.kind === 'analyzer-added' ? analyzer.body.analyzerId : '';
  for (const entry of entries) {
    if (entry.kind !== 'run-recorded' || entry.body.analyzerId !== id) continue;
    const { judged } = entry.body;
    if (Math.abs(judged?.va.z ?? 9) < 0.8 && Math.abs(judged?.dlco.z ?? 9) < 1) return entry.body;
  }
  throw new Error('no run of the analyzer lies near its mean');
}

const leaky = 'Room 7 sample-bag';
const supervisor = 'LN  Leila Novak';

async function axeInBoth(page: Page) {
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
    expect(await axe(page)).toEqual([]);
  }
}

/** The dates in a sentence as the demonstration's laboratory writes them, `20 Oct 2026`; ms. */
const datesIn = (sentence: string) =>
  [...sentence.matchAll(/\d{1,2} [A-Z][a-z]{2} \d{4}/g)].map(([date]) => Date.parse(`${date} UTC`));

it('the slow leak of the demonstration is led from Today to its closure', async () => {
  const profile = await opened();
  const { page } = profile;
  page.setDefaultTimeout(15_000);
  await page.emulateMedia({ reducedMotion: 'reduce' });
  await page.goto(profile.at('/', '?demonstration'));
  await page.getByRole('heading', { level: 1, name: 'Today' }).waitFor({ timeout: 60_000 });

  const line = page.locator('.ledger__line', { hasText: leaky });
  expect(await line.textContent()).toMatch(/Failing.*Failure open: VA, patient test/);
  await line.getByRole('link', { name: 'Look into it' }).click();
  const causes = page.getByRole('region', { name: 'What it points to' }).locator('li');
  await causes.first().waitFor();
  expect((await causes.allTextContents()).slice(0, 2).join()).toMatch(
    /a leak in a sample bag, line or valve/,
  );

  await goTo(page, 'Review');
  await page.getByRole('link', { name: new RegExp(`^${leaky}, VA`) }).click();
  await page.getByRole('heading', { level: 1, name: `VA of ${leaky}` }).waitFor();
  const began = page.locator('section', { has: page.getByRole('heading', { name: 'When it began' }) });
  const [, steadily = ''] = ((await began.textContent()) ?? '').split('steadily');
  const [after = 0, before = 0] = datesIn(steadily);
  const fortnight = 14 * 86_400_000;
  expect(Math.abs(after - leakBegan())).toBeLessThanOrEqual(fortnight);
  expect(Math.abs(before - leakBegan())).toBeLessThanOrEqual(fortnight);
  const likely = page.locator('section', { has: page.getByRole('heading', { name: 'What it may be' }) });
  expect((await likely.locator('li').allTextContents()).slice(0, 2).join()).toMatch(/a leak in a sample bag/);
  const close = page.getByRole('button', { name: 'Close failure' });
  expect(await close.isDisabled()).toBe(true);
  expect(await page.locator('.missing-list li').count()).toBe(3);
  await axeInBoth(page);
  await shoot(page, 'failure-open');

  await writeAction(page, 'Valve seat replaced, line pressure-tested.', 'MH  Mei Hartmann');
  await page.getByRole('button', { name: 'Write down the review…' }).click();
  const form = page.getByRole('form', { name: 'Write down the review' });
  expect(await form.textContent()).toContain('No names, numbers or dates of birth here.');
  await axeInBoth(page);
  await shoot(page, 'failure-look-back');
  await form.getByLabel('Outcome').selectOption('results-corrected');
  await form.getByLabel('Patients tested').fill('9');
  await form.getByLabel('Results affected').fill('2');
  await form.getByLabel('Supervisor').selectOption({ label: supervisor });
  await form.getByRole('button', { name: 'Write it down' }).click();
  await form.waitFor({ state: 'detached' });
  expect(await page.locator('.missing-list li').allTextContents()).toEqual([
    expect.stringMatching(/^1 passing run needed after the last action/),
  ]);

  const { ambient, pressureAsTyped, reading } = await asBefore();
  await goTo(page, 'Bench');
  await page.getByLabel('Analyzer', { exact: true }).selectOption({ label: leaky });
  await page.getByLabel('Temperature').fill(String(ambient.temperatureC));
  await page.getByLabel('Barometric pressure').fill(String(pressureAsTyped.value));
  await page.getByLabel('Alveolar volume, VA').fill(String(reading.vaL));
  await page.getByLabel('DLCO', { exact: true }).fill(String(reading.dlco));
  await recordAgain(page);

  await goTo(page, 'Review');
  await page.getByRole('link', { name: new RegExp(`^${leaky}, VA`) }).click();
  await sayWhy(page, {
    cause: 'The valve of the sample bag leaked since it was cleaned.',
    reason: 'The run after the repair is inside 2 SD.',
  });
  await page.getByLabel('New passphrase').fill('a few plain words');
  await page.getByLabel('The same again').fill('a few plain words');
  await axeInBoth(page);
  await shoot(page, 'failure-closing');
  await close.click();
  await page.getByText(/^Signed by LN, verified/).waitFor();
  await shoot(page, 'failure-closed');
  expect(await page.getByRole('article').textContent()).toMatch(
    /Valve seat replaced, line pressure-tested\..*2 affected.*The valve of the sample bag leaked since it was cleaned/,
  );
  await goTo(page, 'Today');
  await line.waitFor();
  expect(await line.textContent()).not.toMatch(/Failing|Failure open/);
});
