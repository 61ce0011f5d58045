/** A supervisor's passphrase in real Chromium: its cryptography, its storage, and a copy in another profile. */
import { readFile } from 'node:fs/promises';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { shoot } from './chromium.ts';
import { openedProfiles } from './openedProfiles.ts';
import {
  dayFromToday,
  goTo,
  recordRun,
  sayWhy,
  setUpLaboratory,
  typeRun,
  writeAction,
  writeLookBack,
} from './steps.ts';

const { opened, folder } = openedProfiles();

const passphrase = 'four grey herons';

/** 3.90 L BTPS is 3.37 L in the syringe (22 °C, 760 mmHg, 110 mL): more than the published 300 mL high. */
const outOfLimits = { temperature: '22', pressure: '760', va: '3.90', dlco: '0.12' };

describe('a supervisor’s signature', () => {
  it('closes a failure with the right passphrase alone, and verifies after a reload and in a fresh profile', async () => {
    const first = await opened();
    const { page } = first;
    await setUpLaboratory(first);
    await typeRun(page, outOfLimits);
    await recordRun(page);

    await page.getByRole('link', { name: 'Equipment' }).click();
    await page.getByRole('link', { name: /Ada Example/ }).click();
    await page.getByRole('button', { name: 'Register a passphrase…' }).click();
    await page.getByLabel('New passphrase').fill(passphrase);
    await page.getByLabel('The same again').fill(passphrase);
    await shoot(page, 'signing-register');
    await page.getByRole('button', { name: 'Register the passphrase' }).click();
    await page.getByText('registered on this workstation').waitFor();

    await goTo(page, 'Review');
    await writeAction(page, 'Coupling tightened.', 'AE  Ada Example');
    await writeLookBack(page, 'AE  Ada Example', `${dayFromToday(-1)}T08:00`);
    await goTo(page, 'Bench');
    // 3.49 · 0.8928 − 0.110 = 3.006 L.
    await typeRun(page, { ...outOfLimits, va: '3.49' });
    await recordRun(page);
    await goTo(page, 'Review');
    await sayWhy(page, { cause: 'A loose coupling.', reason: 'The next run lies inside.' });
    await page.getByLabel('Supervisor').selectOption({ label: 'AE  Ada Example' });
    await page.getByLabel('Passphrase', { exact: true }).fill('four grey heron');
    await page.getByRole('button', { name: 'Close failure' }).click();
    await page.getByText('This is not the passphrase registered on this workstation').waitFor();
    await shoot(page, 'signing-wrong-passphrase');
    expect(await page.getByLabel('Why it may be closed').inputValue()).toBe('The next run lies inside.');
    expect(await page.getByLabel('Passphrase', { exact: true }).inputValue()).toBe('');

    await page.getByLabel('Passphrase', { exact: true }).fill(passphrase);
    await page.getByRole('button', { name: 'Close failure' }).click();
    await page.getByText(/^Signed by AE, verified/).waitFor();
    await shoot(page, 'signing-closed');
    await page.reload();
    await page.getByText(/^Signed by AE, verified/).waitFor();

    await page.getByRole('link', { name: 'Records' }).click();
    const downloading = page.waitForEvent('download');
    await page.getByRole('button', { name: /^Save a backup file/ }).click();
    const file = path.join(folder(), 'backup.jsonl');
    await (await downloading).saveAs(file);
    const text = await readFile(file, 'utf8');
    expect(text).toContain('"key-registered"');
    // Neither the passphrase nor the key it opens, wrapped or not, goes with a copy.
    expect(text).not.toMatch(/four grey heron|privateKey|"salt"/);

    const second = await opened();
    await second.page.goto(second.at('/'));
    await second.page.getByLabel('Backup file').setInputFiles(file);
    await second.page.getByRole('button', { name: 'Add 10 entries' }).click();
    await second.page.getByRole('navigation', { name: 'Screens' }).waitFor();
    await second.page.goto(second.at('/review'));
    await second.page.getByText(/^Signed by AE, verified/).waitFor();
    await second.page.getByRole('link', { name: 'Records' }).click();
    const verified = second.page.locator('dt:text-is("Signed and verified") + dd');
    await expect.poll(() => verified.textContent()).toBe('1');
    await shoot(second.page, 'signing-records');
  });
});
