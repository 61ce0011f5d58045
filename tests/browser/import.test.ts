import { readFile } from 'node:fs/promises';
import path from 'node:path';
import type { Page } from 'playwright-core';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { projectRoot } from '../../.scripts/command.mjs';
import { axe } from './axe.ts';
import { makeProfileDir, openProfile, type Profile, removeProfile, shoot } from './chromium.ts';
import { readRows } from './rawStorage.ts';
import { setUpLaboratory } from './steps.ts';

const exampleFile = path.join(projectRoot, 'public', 'import-example.csv');

let profileDir: string;
let profile: Profile;
beforeEach(async () => {
  profileDir = await makeProfileDir();
  profile = await openProfile(profileDir);
  await setUpLaboratory(profile);
});
afterEach(async () => {
  await profile.close();
  await removeProfile(profileDir);
});

/** To the columns of a file, with what the example lacks chosen. */
async function mapFile(page: Page, file: Parameters<ReturnType<Page['locator']>['setInputFiles']>[0]) {
  await page.getByLabel('File with runs').setInputFiles(file);
  await page.getByLabel('All runs are of').selectOption({ label: 'Room 2' });
  await page.getByLabel('All runs were made by').selectOption({ label: 'AE  Ada Example' });
}

const confirm = (page: Page) => page.getByLabel(/The first rows are understood as they were meant/).check();

async function judge(page: Page) {
  await confirm(page);
  await page.getByRole('button', { name: /^Judge \d+ rows?$/ }).click();
  await page.getByRole('heading', { name: 'Every row judged' }).waitFor();
}

const openImport = async ({ page, at }: Profile) => {
  await page.goto(at('/records'));
  await page.getByRole('link', { name: 'Import runs' }).click();
  await page.getByRole('heading', { name: 'Import runs' }).waitFor();
};

const rowsOf = (page: Page, name: string) => page.getByRole('radio', { name: new RegExp(`^${name} `) });

describe('the example file', () => {
  it('is mapped, judged, recorded, found there the second time, and voided as a whole', async () => {
    const { page } = profile;
    await openImport(profile);
    expect(await axe(page)).toEqual([]);
    await shoot(page, 'import-1-pick');

    const thread = page.waitForEvent('worker');
    await mapFile(page, exampleFile);
    expect((await thread).url()).toMatch(/importWorker/);
    // What the proposals rest on, counted in the file: its dates have days above 12, its numbers commas.
    await page.getByText(/dates can only have the day first, none only the month/).waitFor();
    await page.getByText(/numbers with a comma, none with a point/).waitFor();
    const preview = page.getByRole('region', { name: 'The first rows as understood' });
    expect(await preview.textContent()).toContain('9 Jan 2024, 07:24');
    expect(await page.getByRole('button', { name: /^Judge/ }).isDisabled()).toBe(true);
    expect(await axe(page)).toEqual([]);
    await shoot(page, 'import-2-map');

    await judge(page);
    // By the file itself: 73 rows, of which a VA in mL, a missing pressure and a 31 February are refused, one row
    // stands twice, and one pressure lies 95 hPa below the others, so that it and the run after it jump.
    const count = async (name: string) =>
      (await rowsOf(page, name).locator('..').textContent())?.match(/\d+/)?.[0];
    expect(await count('Refused')).toBe('3');
    expect(await count('Already there')).toBe('1');
    expect(await count('With a warning')).toBe('2');
    expect(await count('Accepted')).toBe('67');
    expect(await page.getByRole('region', { name: 'Rows: Refused' }).textContent()).toMatch(
      /it looks like mL/,
    );
    expect(await axe(page)).toEqual([]);
    await shoot(page, 'import-3-judged');
    const downloading = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Save 3 refused rows as CSV' }).click();
    const refused = await readFile(await (await downloading).path(), 'utf8');
    expect(refused.split('\r\n')).toHaveLength(5);
    expect(refused).toMatch(/31\.02\.2025;.*is no day of the calendar/);

    await page.getByRole('button', { name: 'Record 69 runs' }).click();
    await page.getByText(/Recorded\. 69 runs of import-example\.csv stand in the logbook/).waitFor();
    expect(await axe(page)).toEqual([]);
    await shoot(page, 'import-4-done');

    await page
      .getByLabel('Why they may be closed')
      .fill('Leak found and mended in 2024; the runs after it show it.');
    await page.getByLabel('New passphrase').fill('a long invented passphrase');
    await page.getByLabel('The same again').fill('a long invented passphrase');
    await page.getByRole('button', { name: /^Close \d failures?$/ }).click();
    await page.getByText('None is open.').waitFor();
    await shoot(page, 'import-5-closed');

    await page.getByRole('link', { name: 'See them in the charts' }).click();
    await page.getByRole('img', { name: /VA/ }).first().waitFor();
    await shoot(page, 'import-6-charts');

    await openImport(profile);
    await mapFile(page, exampleFile);
    await judge(page);
    expect(await count('Already there')).toBe('70');
    expect(await page.getByText('There is nothing to record').isVisible()).toBe(true);
    await page.getByRole('button', { name: 'Leave it' }).click();

    await page.getByRole('button', { name: 'Void this import…' }).click();
    await page.getByLabel('Reason').fill('Imported to the wrong analyzer.');
    await page.getByRole('button', { name: 'Void import' }).click();
    await page.getByText(/voided .* by AE: Imported to the wrong analyzer/).waitFor();
    await shoot(page, 'import-7-voided');
    await page.getByRole('link', { name: 'Records' }).click();
    await page.getByRole('button', { name: 'Check every entry' }).click();
    await page.getByText('Every entry fits its hash').waitFor();
  });
});

describe('a full disk', () => {
  it('leaves nothing half-written and keeps the mapping for the next try', async () => {
    const before = await readRows(profile.page);
    // A browser goes on for a while by the room that it last saw: only a fresh one looks again.
    await profile.close();
    profile = await openProfile(profileDir);
    const { page, context } = profile;
    const devTools = await context.newCDPSession(page);
    const { origin } = new URL(profile.at('/'));
    await devTools.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: 1 });
    await openImport(profile);
    await mapFile(page, exampleFile);
    await judge(page);
    await page.getByLabel('Supervisor').selectOption({ label: 'AE  Ada Example' });
    await page.getByRole('button', { name: 'Record 69 runs' }).click();
    await page.getByText('Not saved. The disk is full.').waitFor();
    expect(await readRows(page)).toEqual(before);
    expect(await axe(page)).toEqual([]);
    await shoot(page, 'import-quota');
    await page.getByRole('button', { name: 'Back to the columns' }).click();
    expect(await page.getByLabel('All runs are of').inputValue()).not.toBe('');

    await devTools.send('Storage.overrideQuotaForOrigin', { origin });
    await judge(page);
    await page.getByRole('button', { name: 'Record 69 runs' }).click();
    await page.getByText(/Recorded\. 69 runs/).waitFor();
    // The batch and its runs: the failed try left none.
    expect(await readRows(page)).toHaveLength(before.length + 1 + 69);
  });
});

describe('a hostile file', () => {
  it('comes to the page as text, whatever it says', async () => {
    const { page } = profile;
    await openImport(profile);
    const hostile = [
      'date,VA (L),DLCO (mL/min/mmHg),temperature (°C),pressure (mmHg),comment,__proto__,<img src=x onerror=alert(1)>',
      '2025-03-02,3.4,0.1,22,760,<img src=x onerror=alert(1)>,constructor,=1+1',
      '=HYPERLINK("x"),<script>alert(1)</script>,0.1,22,760,x,y,z',
    ].join('\n');
    page.on('dialog', () => {
      throw new Error('a text of the file was run');
    });
    const file = { name: '<b>=1+1</b>.csv', mimeType: 'text/csv', buffer: Buffer.from(hostile) };
    await mapFile(page, file);
    expect(await page.locator('main img, main b, main script').count()).toBe(0);
    await judge(page);
    await page.getByRole('button', { name: 'Record 1 run' }).click();
    await page.getByText('Recorded. 1 run of <b>=1+1</b>.csv stand').waitFor();
    expect(await page.locator('main img, main b, main script').count()).toBe(0);
  });

  it('that is a workbook is refused in words', async () => {
    const { page } = profile;
    await openImport(profile);
    const buffer = Buffer.from([0x50, 0x4b, 0x03, 0x04, 0, 0, 1, 2, 3]);
    await page.getByLabel('File with runs').setInputFiles({ name: 'runs.xlsx', mimeType: 'x/y', buffer });
    await page.getByText('save the sheet as CSV').waitFor();
  });
});

/** One run an hour. */
function hourlyRuns(count: number) {
  const start = Date.UTC(2000, 0, 1, 8);
  const lines = Array.from({ length: count }, (_, index) => {
    const madeAt = new Date(start + index * 3_600_000).toISOString();
    return `${madeAt},3.${400 + (index % 90)},0.${10 + (index % 9)},22.${index % 9},760`;
  });
  const text = ['date,VA (L),DLCO (mL/min/mmHg),temperature (°C),pressure (mmHg)', ...lines].join('\n');
  return { name: 'many.csv', mimeType: 'text/csv', buffer: Buffer.from(text) };
}

describe('a large file', () => {
  it('is read and judged while the page answers, and can be left at any time', async () => {
    const { page } = profile;
    await openImport(profile);
    await mapFile(page, hourlyRuns(60_000));
    await confirm(page);
    await page.getByRole('button', { name: 'Judge 60000 rows' }).click();
    await page.getByRole('button', { name: 'Leave it' }).click();
    await page.getByLabel('File with runs').waitFor();
    await mapFile(page, hourlyRuns(60_000));
    const startedAt = performance.now();
    await judge(page);
    // Some seconds on one core of a small computer; a hang would take for ever.
    expect(performance.now() - startedAt).toBeLessThan(30_000);
  });

  it('of 5000 runs is recorded in one step', async () => {
    const { page } = profile;
    const before = (await readRows(page)).length;
    await openImport(profile);
    await mapFile(page, hourlyRuns(5000));
    await judge(page);
    const startedAt = performance.now();
    await page.getByRole('button', { name: 'Record 5000 runs' }).click();
    await page.getByText(/Recorded\. 5000 runs/).waitFor();
    expect(performance.now() - startedAt).toBeLessThan(30_000);
    expect(await readRows(page)).toHaveLength(before + 5001);
  });
});
