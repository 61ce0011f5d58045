/** The program kept in the browser: without its server, and from one version to the next. */
import { cp, readFile, rm, writeFile } from 'node:fs/promises';
import path from 'node:path';
import type { Page } from 'playwright-core';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { distDir } from '../../.scripts/build.mjs';
import { workerFile, writeWorker } from '../../.scripts/offline.mjs';
import { serveBuild } from '../../.scripts/serve.mjs';
import { axe } from './axe.ts';
import { makeProfileDir, openProfile, type Profile, removeProfile, shoot } from './chromium.ts';
import { exportedRows, recordRun, setUpLaboratory, typeRun, verdictPanel } from './steps.ts';

const aRun = { temperature: '22', pressure: '760', va: '3.45', dlco: '0.12' };

let dir: string;
let server: Awaited<ReturnType<typeof serveBuild>>;
let profile: Profile;

const open = () => openProfile(path.join(dir, 'profile'), { baseUrl: server.url, isKept: true });
/** The data is tied to the address, and so is the program that is kept. */
const serveAgain = async (build: string) => {
  server = await serveBuild(Number(new URL(server.url).port), path.join(dir, build));
};

beforeEach(async () => {
  dir = await makeProfileDir();
  await cp(distDir, path.join(dir, 'now'), { recursive: true, filter: (file) => !file.endsWith('.map') });
  server = await serveBuild(0, path.join(dir, 'now'));
  profile = await open();
});
afterEach(async () => {
  await server.close();
  await profile.context.close();
  await removeProfile(dir);
});

/** The versions are told apart by what the page says of its language, which nothing else changes. */
const marks = { now: 'en', next: 'en-GB' };
const markOf = (page: Page) => page.locator('html').getAttribute('lang');

async function makeNextVersion() {
  const next = path.join(dir, 'next');
  await cp(path.join(dir, 'now'), next, { recursive: true });
  const page = path.join(next, 'index.html');
  await writeFile(
    page,
    (await readFile(page, 'utf8')).replace(`lang="${marks.now}"`, `lang="${marks.next}"`),
  );
  await writeWorker(next);
}

const isKept = (page: Page) =>
  page.evaluate(async () => (await navigator.serviceWorker.ready).active?.state === 'activated');
/** Asks, and waits until a version that comes in is here whole, or given up. */
const askForNews = (page: Page) =>
  page.evaluate(async () => {
    const registration = await navigator.serviceWorker.ready;
    await registration.update().catch(() => undefined);
    while (registration.installing !== null) await new Promise((resolve) => setTimeout(resolve, 50));
  });
const keptVersions = (page: Page) => page.evaluate(async () => (await caches.keys()).length);
const line = (page: Page) => page.getByText('A new version is ready. Reload when you have finished.');

describe('without its server', () => {
  it('the logbook opens, takes a run and shows its verdict, also after the browser was closed', async () => {
    await setUpLaboratory(profile);
    await expect.poll(() => isKept(profile.page)).toBe(true);
    await server.close();

    await profile.page.reload();
    await profile.page.getByLabel('Analyzer', { exact: true }).selectOption({ label: 'Room 2' });
    await profile.page.getByLabel('Technologist', { exact: true }).selectOption({ index: 1 });
    await typeRun(profile.page, aRun);
    await recordRun(profile.page);
    expect(await verdictPanel(profile.page).textContent()).toContain('Pass');

    await profile.context.close();
    profile.expectQuiet();
    profile = await open();
    const { page, at } = profile;
    await page.goto(at('/charts'));
    await page.getByRole('img', { name: /VA/ }).first().waitFor();
    const rows = await exportedRows(page);
    expect(rows.map(({ verdict }) => verdict)).toEqual(['pass']);
    // 3.45 · 0.8928 − 0.110 = 2.970 L
    expect(Number(rows[0]?.simulated_va_l)).toBeCloseTo(2.97, 3);
    await page.goto(at('/today', '?demonstration'));
    await page.getByText('Demonstration data').waitFor();
    profile.expectQuiet();
  });
});

describe('a new version', () => {
  beforeEach(async () => {
    await setUpLaboratory(profile);
    await expect.poll(() => isKept(profile.page)).toBe(true);
    await server.close();
  });

  it('waits until a person takes it up; what is typed is still there, and the former one goes', async () => {
    const { page, context, at } = profile;
    await makeNextVersion();
    await serveAgain('next');
    const another = await context.newPage();
    await another.goto(at('/today'));
    await typeRun(page, aRun);
    await askForNews(page);
    await line(page).waitFor();
    expect(await markOf(page)).toBe(marks.now);
    expect(await page.getByLabel('Alveolar volume, VA').inputValue()).toBe('3.45');
    expect(await axe(page)).toEqual([]);
    await shoot(page, 'new-version');

    await page.getByRole('button', { name: 'Reload', exact: true }).click();
    await page.locator(`html[lang="${marks.next}"]`).waitFor();
    await page.getByRole('heading', { name: 'Record a run' }).waitFor();
    await expect.poll(() => page.getByLabel('Alveolar volume, VA').inputValue()).toBe('3.45');
    expect(await line(page).count()).toBe(0);

    // The other window was left alone, is told, and still has the files of its own version.
    expect(await markOf(another)).toBe(marks.now);
    await line(another).waitFor();
    expect(await keptVersions(another)).toBe(2);
    await another.getByRole('link', { name: 'Records' }).click();
    await another.getByRole('heading', { name: 'Records' }).waitFor();
    await another.close();
    await page.reload();
    await page.getByRole('heading', { name: 'Record a run' }).waitFor();
    await expect.poll(() => keptVersions(page)).toBe(1);
    profile.expectQuiet();
  });

  it('asks before it drops what a form holds that is kept nowhere', async () => {
    const { page, at } = profile;
    await makeNextVersion();
    await serveAgain('next');
    await page.goto(at('/equipment/new/person'));
    await page.getByLabel('Name').fill('Half a name');
    await askForNews(page);
    await page.getByRole('button', { name: 'Reload', exact: true }).click();
    await page.getByText('not saved and would be lost').waitFor();
    await page.getByRole('button', { name: 'Not now' }).click();
    await line(page).waitFor();
    expect(await page.getByLabel('Name').inputValue()).toBe('Half a name');
    expect(await markOf(page)).toBe(marks.now);
  });

  it('of which a file is missing or another than it says is not taken up at all', async () => {
    const { page } = profile;
    await makeNextVersion();
    const listed = await readFile(path.join(dir, 'next', workerFile), 'utf8');
    const [screen] = /assets\/recordsScreen[^"]*\.js/.exec(listed) ?? [];
    if (screen === undefined) throw new Error('no file of the records screen');
    const file = path.join(dir, 'next', screen);
    await writeFile(file, 'half a file');
    await serveAgain('next');
    const expectNothingNew = async () => {
      await askForNews(page);
      expect(await line(page).count()).toBe(0);
      expect(await keptVersions(page)).toBe(1);
    };
    await expectNothingNew();
    await rm(file);
    await expectNothingNew();
    await server.close();
    await page.reload();
    await page.getByRole('link', { name: 'Records' }).click();
    await page.getByRole('heading', { name: 'Records' }).waitFor();
    expect(await markOf(page)).toBe(marks.now);
  });
});
