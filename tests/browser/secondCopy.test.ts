/** Backup, restore, merge and the standing copy in real Chromium: its threads, its storage, its file system. */
import { readFile, writeFile } from 'node:fs/promises';
import path from 'node:path';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { type ReadBackup, readBackup } from '../../src/exchange/readBackup.ts';
import { chainSummaries } from '../../src/journal/chain.ts';
import { backupBytes, chainOf } from '../exchange/backupFixtures.ts';
import { type Profile, shoot } from './chromium.ts';
import { openedProfiles } from './openedProfiles.ts';
import { dropDatabase, leaveApp, readRows } from './rawStorage.ts';
import { exportedRows, recordRun, setUpLaboratory, typeRun } from './steps.ts';

const { opened, folder } = openedProfiles();

const aRun = (va: string) => ({ temperature: '22', pressure: '760', va, dlco: '0.12' });

async function record(profile: Profile, va: string) {
  await profile.page.goto(profile.at('/bench'));
  await profile.page.getByLabel('Analyzer', { exact: true }).selectOption({ label: 'Room 2' });
  await typeRun(profile.page, aRun(va));
  await recordRun(profile.page);
}

async function saveBackup({ page, at }: Profile, name = 'backup.jsonl'): Promise<string> {
  await page.goto(at('/records'));
  const downloading = page.waitForEvent('download');
  await page.getByRole('button', { name: /^Save a backup file/ }).click();
  const download = await downloading;
  expect(download.suggestedFilename()).toMatch(/^dlco-qc-backup_.*\.jsonl$/);
  const file = path.join(folder(), name);
  await download.saveAs(file);
  await page.getByText(/written to dlco-qc-backup/).waitFor();
  return file;
}

async function merge({ page, at }: Profile, file: string, entries: number) {
  await page.goto(at('/records'));
  await page.getByLabel('Backup file').setInputFiles(file);
  await page.getByRole('button', { name: `Add ${entries} ` }).click();
  await page.getByText(new RegExp(`^${entries} entr(y|ies) added from`)).waitFor();
}

async function readFromDisk(file: string): Promise<ReadBackup> {
  const read = await readBackup(new Uint8Array(await readFile(file)));
  if (read.state === 'refused') throw new Error(read.sentence);
  return read;
}

/** The head of every chain as the page's own check tells it. */
async function checkedHeads(page: Page): Promise<string[]> {
  await page.getByRole('button', { name: 'Check every entry' }).click();
  await page.getByText('Every entry fits its hash').waitFor();
  return (await page.locator('dt:text-is("Head hash") + dd').allTextContents()).sort();
}

const headsIn = ({ rows }: ReadBackup) =>
  chainSummaries(rows)
    .map(({ headHash }) => headHash)
    .sort();

describe('a backup file', () => {
  it('restored in a fresh profile gives the same runs, verdicts and head hash', async () => {
    const first = await opened();
    await setUpLaboratory(first);
    await typeRun(first.page, aRun('3.45'));
    await recordRun(first.page);
    await record(first, '4.20'); // far outside the published limits
    await first.page.getByRole('link', { name: '5 entries not yet copied' }).waitFor();
    const file = await saveBackup(first);
    await first.page.getByRole('link', { name: 'Backup file: just now' }).waitFor();
    const read = await readFromDisk(file);
    expect(read).toMatchObject({ isWhole: true, counts: { known: 5, newer: 0, damaged: 0 } });
    const heads = await checkedHeads(first.page);
    expect(headsIn(read)).toEqual(heads);
    const rows = await exportedRows(first.page);
    expect(rows.map(({ verdict }) => verdict)).toEqual(['pass', 'fail']);

    const second = await opened();
    await second.page.goto(second.at('/'));
    await second.page.getByLabel('Backup file').setInputFiles(file);
    await second.page.getByRole('heading', { name: 'In backup.jsonl' }).waitFor();
    await shoot(second.page, 'restore-judged');
    await second.page.getByRole('button', { name: 'Add 5 entries' }).click();
    await second.page.getByRole('heading', { name: 'Today' }).waitFor();
    expect(await exportedRows(second.page)).toEqual(rows);
    expect(await checkedHeads(second.page)).toEqual(heads);
    await shoot(second.page, 'records-second-copy');
  });

  it('of each of two profiles, merged into the other, makes one same logbook', async () => {
    const one = await opened();
    await setUpLaboratory(one);
    const two = await opened();
    const start = await saveBackup(one);
    await two.page.goto(two.at('/'));
    await two.page.getByLabel('Backup file').setInputFiles(start);
    await two.page.getByRole('button', { name: 'Add 3 entries' }).click();
    await two.page.getByRole('heading', { name: 'Today' }).waitFor();
    await two.page.goto(two.at('/bench'));

    await record(one, '3.45');
    await two.page.getByLabel('Technologist', { exact: true }).selectOption({ index: 1 });
    await record(two, '3.47');
    const [ofOne, ofTwo] = [await saveBackup(one, 'one.jsonl'), await saveBackup(two, 'two.jsonl')];
    await merge(one, ofTwo, 1);
    await merge(two, ofOne, 1);
    const [seenByOne, seenByTwo] = [await exportedRows(one.page), await exportedRows(two.page)];
    const runs = (rows: typeof seenByOne) =>
      rows.map(({ run_id, simulated_va_l, verdict_recomputed, entry_hash }) => ({
        run_id,
        simulated_va_l,
        verdict_recomputed,
        entry_hash,
      }));
    expect(seenByOne).toHaveLength(2);
    expect(runs(seenByTwo)).toEqual(runs(seenByOne));
    const heads = await checkedHeads(one.page);
    expect(heads).toHaveLength(2);
    expect(await checkedHeads(two.page)).toEqual(heads);
    // Once more: everything is here already.
    await two.page.getByLabel('Backup file').setInputFiles(ofOne);
    await two.page.getByText('Everything in it is here already.').waitFor();
  });

  it('that is none, or is cut off, is told for what it is, and nothing is written', async () => {
    const profile = await opened();
    const { page } = profile;
    await setUpLaboratory(profile);
    const backup = await readFile(await saveBackup(profile), 'utf8');
    const wrong = path.join(folder(), 'runs.csv');
    await writeFile(wrong, 'date;va\n2026-01-05;3,45\n');
    await page.getByLabel('Backup file').setInputFiles(wrong);
    await page.getByText('This is a table, such as a CSV file, not a backup of this logbook.').waitFor();
    const cut = path.join(folder(), 'cut.jsonl');
    await writeFile(cut, backup.slice(0, -200));
    await page.getByLabel('Backup file').setInputFiles(cut);
    await page.getByText(/The file is cut off|changed after it was written/).waitFor();
    await page.getByText('Everything in it is here already.').waitFor();
    const empty = path.join(folder(), 'empty.jsonl');
    await writeFile(empty, '');
    await page.getByLabel('Backup file').setInputFiles(empty);
    await page.getByText('The file is empty.').waitFor();
  });
});

describe('a logbook whose database was dropped', () => {
  it('is restored from its backup on the recovery screen, and goes on', async () => {
    const profile = await opened();
    const { page } = profile;
    await setUpLaboratory(profile);
    await typeRun(page, aRun('3.45'));
    await recordRun(page);
    const file = await saveBackup(profile);
    const rows = await exportedRows(page);
    await leaveApp(profile);
    await dropDatabase(page);
    await page.goto(profile.at('/bench'));
    await page.getByRole('heading', { name: 'The logbook came back empty' }).waitFor();
    await page.getByLabel('Backup file').setInputFiles(file);
    await page.getByRole('button', { name: 'Add 4 entries' }).click();
    await page.getByRole('heading', { name: 'Record a run' }).waitFor();
    const same = (rows: readonly Record<string, string>[]) => rows.map(({ entry_hash }) => entry_hash);
    expect(same(await exportedRows(page))).toEqual(same(rows));
    await page.goto(profile.at('/bench'));
    await page.getByLabel('Technologist', { exact: true }).selectOption({ index: 1 });
    await record(profile, '3.46');
    await page.getByRole('link', { name: 'Records' }).click();
    expect(await checkedHeads(page)).toHaveLength(2);
  });
});

describe('a full disk', () => {
  it('leaves nothing of a merge behind, says so, and the merge can be tried again', async () => {
    const profile = await opened();
    const { page } = profile;
    const file = path.join(folder(), 'large.jsonl');
    await writeFile(file, await backupBytes(await chainOf(4000)));
    const devtools = await profile.context.newCDPSession(page);
    const { origin } = new URL(profile.at('/'));
    // Before the first page: the browser remembers for a while how much room there was. Enough for an empty logbook.
    await devtools.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: 1_000_000 });
    await page.goto(profile.at('/'));
    await page.getByLabel('Backup file').setInputFiles(file);
    await page.getByRole('button', { name: 'Add 4000 entries' }).click();
    await page.getByText('Nothing was added. The disk is full.').waitFor();
    expect(await readRows(page)).toEqual([]);
    await devtools.send('Storage.overrideQuotaForOrigin', { origin });
    await page.getByRole('button', { name: 'Add 4000 entries' }).click();
    await page.getByRole('heading', { name: 'Today' }).waitFor();
    expect(await readRows(page)).toHaveLength(4000);
  });
});

describe('the standing second copy', () => {
  it('is written after each save into the folder that was picked, also after a restart', async () => {
    const profile = await opened();
    const { page } = profile;
    // No test can press a button of the browser's own picker: the page's private file system is a folder like any other.
    await page.addInitScript(() => {
      Object.assign(window, { showDirectoryPicker: () => navigator.storage.getDirectory() });
    });
    await setUpLaboratory(profile);
    await page.getByRole('link', { name: 'Records' }).click();
    await page.getByRole('button', { name: 'Pick a folder…' }).click();
    await page.getByRole('link', { name: 'Second copy: just now' }).waitFor();
    const inFolder = async () => {
      const text = await page.evaluate(async () => {
        const root = await navigator.storage.getDirectory();
        const texts: string[] = [];
        for await (const handle of (
          root as unknown as { values(): AsyncIterable<FileSystemFileHandle> }
        ).values())
          texts.push(await (await handle.getFile()).text());
        return texts.join('');
      });
      return readBackup(new TextEncoder().encode(text));
    };
    expect(await inFolder()).toMatchObject({ isWhole: true, counts: { known: 3 } });
    await record(profile, '3.45');
    await expect.poll(inFolder, { timeout: 10_000 }).toMatchObject({ isWhole: true, counts: { known: 4 } });
    await page.reload();
    await record(profile, '3.46');
    await expect.poll(inFolder, { timeout: 10_000 }).toMatchObject({ isWhole: true, counts: { known: 5 } });
    await page.getByRole('link', { name: /^Second copy: (just now|1 minute ago)$/ }).waitFor();
    await page.getByRole('link', { name: 'Records' }).click();
    await page.getByRole('button', { name: 'Write it no more' }).waitFor();
    await shoot(page, 'records-standing-copy');
  });
});
