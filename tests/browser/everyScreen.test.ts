/** Every screen on the demonstration's logbook, in both widths and both colour schemes: nothing that axe finds. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { axe } from './axe.ts';
import { openProfile, type Profile } from './chromium.ts';
import { openDemonstration, openRoute, routesLinked } from './demonstration.ts';
import { verdictPanel } from './steps.ts';

/** The second is the narrowest that WCAG 2.2 asks for (1.4.10). */
const widths = [1440, 320];
const schemes = ['light', 'dark'] as const;

let profile: Profile;
let page: Page;
beforeAll(async () => {
  profile = await openProfile();
  page = profile.page;
  await openDemonstration(profile);
});
afterAll(() => profile.close());

const open = (route: string) => openRoute(profile, route);

/** The page as it stands. Where a form is open it stays so: only the window and its colours change. */
async function expectNothing(state: string) {
  for (const width of widths) {
    await page.setViewportSize({ width, height: 900 });
    for (const colorScheme of schemes) {
      await page.emulateMedia({ colorScheme });
      const found = await axe(page, colorScheme === 'dark' ? 'colour' : undefined);
      expect.soft(found, `${state}, ${width} px, ${colorScheme}`).toEqual([]);
    }
    const beside = await page.evaluate(
      () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
    );
    expect.soft(beside, `${state}, px beside a window of ${width}`).toBe(0);
  }
  await page.setViewportSize({ width: 1440, height: 900 });
}

/** The addresses that the links of a page lead to, as routes, each once and in their order. */
async function routesOn(route: string, pattern: RegExp): Promise<string[]> {
  await open(route);
  return (await routesLinked(page)).filter((href) => pattern.test(href));
}

const firstOf = ([first]: readonly string[], what: string): string => {
  if (first === undefined) throw new Error(`the demonstration has no ${what}`);
  return first;
};

/** Opens each form that the buttons of a page lead to, one after the other, and leaves it again. */
async function eachForm(route: string) {
  await open(route);
  const names = await page.getByRole('button', { name: /…$/ }).allTextContents();
  expect(names, `forms of ${route}`).not.toEqual([]);
  for (const name of new Set(names)) {
    await page.getByRole('button', { name, exact: true }).click();
    const leave = page.getByRole('button', { name: /^(Leave it|Back)$/ });
    await leave.waitFor();
    const send = page.locator('form').filter({ has: leave }).locator('button[type=submit]');
    // Pressed before anything is typed: what is missing is said beside the fields.
    if ((await send.count()) > 0) await send.click();
    await expectNothing(`${route}, ${name}`);
    await leave.click();
  }
}

const word = async () =>
  (await verdictPanel(page).locator('.verdict__word').textContent())?.match(/Pass|Warning|Fail/)?.[0];

/** Types a VA from `from` upwards until the live verdict is the wanted one; null where it never is. */
async function typeVaUntil(wanted: 'Pass' | 'Warning' | 'Fail', from: number): Promise<number | null> {
  for (let va = from; va < from + 0.8; va += 0.01) {
    await page.getByLabel('Alveolar volume, VA').fill(va.toFixed(2));
    if ((await word()) === wanted) return va;
  }
  return null;
}

async function typeRoom(analyzer: string) {
  await page.getByLabel('Analyzer', { exact: true }).selectOption({ label: analyzer });
  await page.getByLabel('Technologist').selectOption({ index: 1 });
  await page.getByLabel('Route').selectOption('patient-test');
  await page.getByLabel('Unit of pressure').selectOption('hPa');
  await page.getByLabel('Temperature', { exact: true }).fill('22');
  await page.getByLabel('Barometric pressure').fill('1013');
}

const isShown = (text: string | RegExp) => page.getByText(text).first().isVisible();

/** An analyzer whose own limits pass, warn and fail as VA rises: in service and without an open failure. */
async function putJudgingAnalyzerOnBench(): Promise<{ pass: number; warn: number; fail: number }> {
  const labels = await page.getByLabel('Analyzer', { exact: true }).locator('option').allTextContents();
  for (const label of labels.filter((one) => one !== 'Choose…')) {
    await typeRoom(label);
    await page.getByLabel('Unit of DLCO').selectOption('mL/min/mmHg');
    await page.getByLabel('DLCO', { exact: true }).fill('0.05');
    await page.getByLabel('Alveolar volume, VA').fill('3.00');
    await verdictPanel(page).getByText('Not recorded yet').waitFor();
    if (await isShown(/No own baseline yet|out of service|failure is open|Failures are open/)) continue;
    const pass = await typeVaUntil('Pass', 3);
    const warn = pass === null ? null : await typeVaUntil('Warning', pass);
    const fail = warn === null ? null : await typeVaUntil('Fail', warn);
    if (pass !== null && warn !== null && fail !== null) return { pass, warn, fail };
  }
  throw new Error('no analyzer of the demonstration passes, warns and fails as VA rises');
}

describe('nothing that axe finds stands', () => {
  it('on Today', async () => {
    await open('/today');
    await page.locator('summary').last().click();
    await expectNothing('Today');
    await page
      .getByRole('button', { name: /^Void…/ })
      .first()
      .click();
    await expectNothing('Today, voiding a check');
  });

  it('on the bench, from the empty form to a failed run and what comes next', async () => {
    await open('/bench');
    await expectNothing('bench, empty');
    await page.getByRole('button', { name: 'Record run' }).click();
    await page.getByText('Choose the analyzer.').waitFor();
    await page.getByRole('button', { name: 'Paste a report…' }).click();
    await page.getByRole('button', { name: 'Hose or filter…' }).click();
    await expectNothing('bench, everything missing, report and hose open');
    await open('/today');
    await open('/bench');
    const { pass, warn, fail } = await putJudgingAnalyzerOnBench();
    for (const [state, va] of Object.entries({ pass, warn, fail })) {
      await page.getByLabel('Alveolar volume, VA').fill(va.toFixed(2));
      await expectNothing(`bench, ${state}`);
    }
    await verdictPanel(page).getByText('Why', { exact: true }).click();
    await verdictPanel(page).getByText('Conversion factor').waitFor();
    await expectNothing('bench, why');
    await page.getByRole('button', { name: 'Record run' }).click();
    await page.getByText('Saved.', { exact: true }).waitFor();
    await page.getByRole('button', { name: /^Repeat this run/ }).waitFor();
    await expectNothing('bench, a failure recorded');
    await page.getByRole('button', { name: /^Repeat this run/ }).click();
    await page.getByText('Looks into the failed run').waitFor();
    await expectNothing('bench, its repeat begun');
  });

  it('on each step of the guided run', async () => {
    await open('/guided');
    for (let step = 1; step <= 10; step += 1) {
      await page.getByRole('heading', { level: 1, name: `Step ${step} of 10` }).waitFor();
      if (step === 4) await page.getByLabel('Volume check').fill('3.05');
      if (step === 9) {
        await page.getByLabel('Alveolar volume, VA').fill('3.40');
        await page.getByLabel('DLCO', { exact: true }).fill('0.05');
      }
      await expectNothing(`guided, step ${step}`);
      if (step < 10) await page.locator('.guide-step__go').first().click();
    }
  });

  it('on the comparison of routes, in an investigation and on the form of each check', async () => {
    const analyzers = await routesOn('/equipment', /^\/equipment\/analyzer\//);
    const [one, other] = analyzers.map((route) => route.replace('/equipment/analyzer/', '/compare/'));
    for (const route of [one, other]) {
      await open(route ?? '');
      await expectNothing(route ?? '');
    }
    const investigation = firstOf(await routesOn('/review', /^\/investigation\//), 'open failure');
    await open(investigation);
    await expectNothing('investigation');
    const checks = await routesOn('/today', /^\/check\//);
    const kinds = new Map(checks.map((route) => [route.split('/')[2], route]));
    expect([...kinds.keys()].sort()).toEqual([
      'barometer',
      'linearity',
      'syringe-calibration',
      'syringe-leak',
      'volume-check',
    ]);
    for (const route of kinds.values()) {
      await open(route);
      if (route.includes('volume-check')) await page.getByLabel('Slow flow').fill('3.2');
      if (route.includes('linearity')) await page.getByLabel('Reads, CO, 1', { exact: true }).fill('0.1');
      await page.getByRole('button', { name: 'Note this check' }).click();
      await expectNothing(route);
    }
  });

  it('on each kind of record under Equipment, with each of its forms open', async () => {
    await open('/equipment');
    await expectNothing('equipment');
    for (const kind of ['analyzer', 'syringe', 'cylinder', 'subject', 'person']) {
      const records = await routesOn('/equipment', new RegExp(`^/equipment/${kind}/`));
      await eachForm(firstOf(records, kind));
      await open(`/equipment/new/${kind}`);
      await page.locator('form button[type=submit]').click();
      await expectNothing(`equipment, a new ${kind}`);
    }
    const analyzers = await routesOn('/equipment', /^\/equipment\/analyzer\//);
    for (const route of analyzers) {
      await open(route);
      const back = page.getByRole('button', { name: 'Put back in service…' });
      if (!(await back.isVisible())) continue;
      await back.click();
      await expectNothing(`${route}, back in service`);
    }
  });

  it('on each page of the laboratory, with its form open', async () => {
    const settings = await routesOn('/laboratory', /^\/laboratory\//);
    // A policy's page is the same for every analyzer.
    const policies = settings.filter((route) => route.includes('/policy/'));
    for (const route of settings.filter((one) => !policies.slice(1).includes(one))) {
      await open(route);
      await expectNothing(route);
      await eachForm(route);
    }
  });

  it('on the charts, under Review, Records and import', async () => {
    const series = await routesOn('/charts', /^\/charts\/.+/);
    for (const route of [
      series.find((one) => one.endsWith('/va')),
      series.find((one) => one.endsWith('/dlco')),
    ]) {
      await open(route ?? '');
      await expectNothing(route ?? '');
    }
    const stories = await routesOn('/review', /^\/review\/.+/);
    for (const route of new Set([stories[0], stories.at(-1)])) {
      await open(route ?? '');
      await expectNothing(route ?? '');
    }
    await eachForm(firstOf(stories, 'open failure'));
    for (const route of ['/records', '/import']) {
      await open(route);
      await expectNothing(route);
    }
  });

  it('on the method, and with words explained on a chart', async () => {
    await open('/method/rules');
    await expectNothing('method');
    await open(firstOf(await routesOn('/charts', /^\/charts\/.+/), 'series'));
    for (const word of ['Own limits', 'z']) {
      await page.getByRole('button', { name: `${word} (what it means)` }).click();
    }
    await expectNothing('charts, two words explained');
  });

  it('on the printed report of the last weeks, whole and with a period that is none', async () => {
    const day = (daysAgo: number) => new Date(Date.now() - daysAgo * 86_400_000).toISOString().slice(0, 10);
    await open(`/report/${day(60)}/${day(1)}`);
    await page.getByText('The browser’s print dialog can also save it as a PDF.').waitFor();
    await expectNothing('report');
    await open(`/report/${day(1)}/${day(60)}`);
    await expectNothing('report, turned round');
  });

  it('on the controls: a person, a simulator, the flows of a volume check and the gases of a linearity check', async () => {
    await open('/controls');
    await expectNothing('controls');
    const lines = await routesOn('/controls', /^\/controls\/.+/);
    for (const kind of ['/biological/', '/simulator/', '/volume-check', '/linearity']) {
      const route = firstOf(
        lines.filter((line) => line.includes(kind)),
        `charted ${kind}`,
      );
      await open(route);
      await expectNothing(route);
    }
  });

  it('on the weeks with and without a run, giving a reason, and on an open failure of controls', async () => {
    await open('/completeness');
    await expectNothing('completeness');
    for (const route of await routesOn('/completeness', /^\/completeness\/.+/)) {
      await open(route);
      const reason = page.getByRole('button', { name: /^Give the reason/ }).first();
      if (!(await reason.isVisible())) continue;
      await page
        .getByRole('button', { name: /: (Passed|Failed)/ })
        .last()
        .click();
      await page.getByText('The weeks as a table').click();
      await reason.click();
      await page.getByRole('button', { name: 'Write the reason down' }).click();
      await expectNothing(route);
      break;
    }
    const failures = await routesOn('/review', /^\/review\/control\//);
    await open(firstOf(failures, 'failure of controls'));
    await page.getByRole('button', { name: 'Close failure' }).click();
    await page.getByText('Say what the cause was, or that none was found.').waitFor();
    await expectNothing('a failure of controls');
  });

  it('on the fleet, on a day that analyzers share and on technologists compared', async () => {
    await open('/fleet');
    await expectNothing('fleet');
    await page
      .getByRole('columnheader', { name: /^Drift/ })
      .getByRole('button')
      .click();
    await expectNothing('fleet, sorted by drift');
    const compared = await routesOn('/common', /^\/common\/.+/);
    for (const route of [compared[0], compared.find((one) => one.includes('/technologists/'))]) {
      await open(route ?? '');
      await expectNothing(route ?? '');
    }
  });

  it('on the sign-off, a baseline and how soon a shift is noticed', async () => {
    await open('/sign-off');
    await expectNothing('sign-off');
    const series = firstOf(await routesOn('/charts', /^\/charts\/.+/), 'series');
    const desk = await routesOn(series, /^\/(baseline|notice)\/.+/);
    expect(desk.length).toBeGreaterThan(1);
    for (const route of desk) {
      await open(route);
      await expectNothing(route);
    }
  });

  it('on the page of a run, amending it and voiding it', async () => {
    const runs = await routesOn('/review', /^\/run\//);
    await open(firstOf(runs.reverse(), 'run'));
    await expectNothing('run');
    await page.getByRole('button', { name: 'Amend…' }).click();
    await page.getByLabel('Alveolar volume, VA').fill('3.41');
    await page.getByRole('button', { name: 'Amend run' }).click();
    await page.getByText('Say why it is amended.').waitFor();
    await expectNothing('run, amending');
    await page.getByRole('button', { name: 'Leave it' }).click();
    await page.getByRole('button', { name: 'Void…' }).click();
    await page.getByRole('button', { name: 'Void run' }).click();
    await expectNothing('run, voiding');
  });
});
