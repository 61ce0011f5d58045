import { afterEach, beforeEach, describe, expect, inject, it } from 'vitest';
import { type KillableChromium, startChromium } from '../endurance/killableChromium.ts';
import { axe } from './axe.ts';
import { makeProfileDir, openProfile, type Profile, removeProfile, shoot } from './chromium.ts';
import {
  addPerson,
  exportedRows,
  goTo,
  lastRuns,
  recordRun,
  saidWith,
  setUpLaboratory,
  typeRun,
  verdictPanel,
} from './steps.ts';

/** With the fixed factor 1 and 110 mL of dead space the simulated VA is the reported one less 0.11 L: here 3.000 L. */
const analyzer = { label: 'Room 2', fixedFactor: '1' };
const run = { temperature: '22', pressure: '760', va: '3.11', dlco: '0.12' };

describe('a browser that is killed while a run is typed', () => {
  let profileDir = '';
  let running: KillableChromium | null = null;
  beforeEach(async () => {
    profileDir = await makeProfileDir();
  });
  afterEach(async () => {
    running?.kill();
    await running?.ended;
    await removeProfile(profileDir);
  });

  it('has the draft again, and asks anew for what was only carried over', async () => {
    const at = (route: string) => `${inject('baseUrl')}/#${route}`;
    running = await startChromium(profileDir);
    const before = running.page;
    await setUpLaboratory({ page: before, at }, analyzer);
    await typeRun(before, run);
    await recordRun(before);
    await before.getByLabel('Barometric pressure').fill('758');
    await before.getByLabel('Alveolar volume, VA').fill('3.12');
    await before.getByLabel('Comment').fill('New mouthpiece.');
    await before.waitForTimeout(500); // the draft is kept a moment after the last letter

    // A reload is the same visit: what is carried stays, and goes on saying where it comes from.
    await before.reload();
    await before.getByText('Carried over: person, syringe, temperature').waitFor();
    expect(await before.getByLabel('Alveolar volume, VA').inputValue()).toBe('3.12');
    expect(await before.getByLabel('Temperature', { exact: true }).inputValue()).toBe('22');
    expect(await saidWith(before.getByLabel('Temperature', { exact: true }))).toContain(
      'carried from Room 2',
    );
    expect(await saidWith(before.getByLabel('Barometric pressure'))).not.toContain('carried');

    running.kill();
    await running.ended;
    running = await startChromium(profileDir);
    const { page } = running;
    await page.goto(at('/bench'));
    await expect.poll(() => page.getByLabel('Alveolar volume, VA').inputValue()).toBe('3.12');
    expect(await page.getByLabel('Barometric pressure').inputValue()).toBe('758');
    expect(await page.getByLabel('Comment').inputValue()).toBe('New mouthpiece.');
    expect(await page.getByLabel('Analyzer', { exact: true }).locator('option:checked').textContent()).toBe(
      'Room 2',
    );
    // Nobody typed these for this run, and whoever starts the browser again may be somebody else in another room.
    expect(await page.getByText('Carried over:').count()).toBe(0);
    await page.getByLabel('DLCO', { exact: true }).fill('0.10');
    await page.getByRole('button', { name: 'Record run' }).click();
    await page.getByText('Choose who made the run.').waitFor();
    await page.getByText('Type the temperature of the room.').waitFor();
    await page.getByLabel('Technologist').selectOption({ label: 'AE  Ada Example' });
    await page.getByLabel('Temperature', { exact: true }).fill('21.5');
    await recordRun(page);
    const rows = lastRuns(page, 'Room 2').getByRole('row');
    await expect.poll(() => rows.count()).toBe(3);
    expect(await rows.nth(1).textContent()).toContain('3.010');
  });
});

describe('entry at the bench', () => {
  let profile: Profile;
  beforeEach(async () => {
    profile = await openProfile();
    await profile.page.emulateMedia({ reducedMotion: 'reduce' });
    await setUpLaboratory(profile, analyzer);
  });
  afterEach(() => profile.close());

  it('puts each technologist’s own initials to their run when one takes over from the other', async () => {
    await addPerson(profile, { name: 'Ben Sample', initials: 'BS', role: 'technologist' });
    const { page } = profile;
    await goTo(page, 'Bench');
    await typeRun(page, run);
    await recordRun(page);
    await page.getByText(/recorded by AE/).waitFor();

    // Ada is carried over, and says so; Ben says that it is he.
    expect(await saidWith(page.getByLabel('Technologist'))).toContain('carried from Room 2');
    await page.getByLabel('Technologist').selectOption({ label: 'BS  Ben Sample' });
    expect(await saidWith(page.getByLabel('Technologist'))).not.toContain('carried');
    await typeRun(page, { ...run, va: '3.12' });
    await recordRun(page);
    await page.getByText(/recorded by BS/).waitFor();
    await expect
      .poll(() => page.getByLabel('Technologist').locator('option:checked').textContent())
      .toBe('BS  Ben Sample');
    const rows = lastRuns(page, 'Room 2').getByRole('row');
    expect(await rows.nth(1).textContent()).toMatch(/3\.010.*BS$/);
    expect(await rows.nth(2).textContent()).toMatch(/3\.000.*AE$/);

    // Ben voids what Ada recorded: her initials stay at the run, his stand at the line through it.
    await rows.nth(2).getByRole('link').click();
    await page.getByRole('button', { name: 'Void…' }).click();
    await page.getByLabel('Reason').fill('The stopcock was closed.');
    expect(await page.getByLabel('Written by').locator('option:checked').textContent()).toBe(
      'BS  Ben Sample',
    );
    await page.getByRole('button', { name: 'Void run' }).click();
    await page.getByText(/^Voided by BS/).waitFor();
    expect(await axe(page)).toEqual([]);
    const [first, second] = await exportedRows(page);
    expect(first).toMatchObject({
      technologist_initials: 'AE',
      recorded_by: 'AE, Ada Example',
      voided_by: 'BS, Ben Sample',
    });
    expect(second).toMatchObject({
      technologist_initials: 'BS',
      recorded_by: 'BS, Ben Sample',
      voided_by: '',
    });
  });

  it('tells a pressure in another unit beside its field, and one press keeps it as it was typed', async () => {
    const { page } = profile;
    const pressure = page.getByLabel('Barometric pressure');
    await typeRun(page, { ...run, pressure: '1013' });
    // 1 hPa is 0.750062 mmHg: 1 mmHg = 133.322 Pa (BIPM, The International System of Units; recalled).
    await expect
      .poll(() => saidWith(pressure))
      .toContain(
        '1013 mmHg cannot be: it looks like hPa (759.8 mmHg). Expected: pressure from 375 to 825 mmHg.',
      );
    expect(await pressure.getAttribute('aria-invalid')).toBe('true');
    expect(await axe(page)).toEqual([]);
    await shoot(page, 'unhappy-pressure-unit');
    await page.getByRole('button', { name: 'Record run' }).click();
    await page.getByText('Nothing is written yet: see the marked fields.').waitFor();

    await page.getByRole('button', { name: 'Switch to hPa' }).click();
    expect(await pressure.inputValue()).toBe('1013');
    expect(await page.getByLabel('Unit of pressure').inputValue()).toBe('hPa');
    expect(await pressure.getAttribute('aria-invalid')).toBeNull();
    await recordRun(page);
    const [row, ...others] = await exportedRows(page);
    expect(others).toEqual([]);
    expect(row).toMatchObject({ pressure_as_typed: '1013', pressure_unit: 'hPa' });
    expect(Number(row?.barometric_mmhg)).toBeCloseTo(759.81, 2);
  });

  it('lets the published limits judge while there is no baseline, and counts the runs towards one', async () => {
    const { page } = profile;
    await typeRun(page, run);
    const verdict = verdictPanel(page);
    await verdict.getByText('No own baseline yet').waitFor();
    const found = async () => (await verdict.textContent()) ?? '';
    expect(await found()).toMatch(/Pass/);
    expect(await found()).toContain(
      'Simulated VA is on target. No own limits yet (0 of 10 runs); inside the published 300 mL.',
    );
    expect(await found()).toContain('Run weekly until your own limits can judge.');
    // 3.45 − 0.11 − 3.00 = 0.34 L, outside 0.3 L (ERS/ATS standard 2017, equipment table).
    await page.getByLabel('Alveolar volume, VA').fill('3.45');
    await verdict.getByText('Fail', { exact: true }).waitFor();
    expect(await found()).toContain('Simulated VA is 340 mL high.');
    expect(await found()).toContain('outside the published 300 mL');
    await shoot(page, 'unhappy-no-baseline');

    await page.getByLabel('Alveolar volume, VA').fill('3.11');
    await recordRun(page);
    await typeRun(page, { ...run, va: '3.12' });
    await verdict
      .getByText(/1 of 10 runs/)
      .first()
      .waitFor();
    await recordRun(page);
    await goTo(page, 'Charts');
    await page
      .getByText(
        '2 of 10 runs. Own limits begin at 10 accepted runs; until then only the published limits judge.',
      )
      .first()
      .waitFor();
    expect(await axe(page)).toEqual([]);
  });
});
