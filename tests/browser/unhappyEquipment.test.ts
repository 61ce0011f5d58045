import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { axe } from './axe.ts';
import { openProfile, type Profile, shoot } from './chromium.ts';
import {
  addPerson,
  dayFromToday,
  goTo,
  openRecordForm,
  recordRun,
  saidWith,
  setUpLaboratory,
  typeRun,
  verdictPanel,
} from './steps.ts';

/** With the fixed factor 1 and 110 mL of dead space the simulated VA is the reported one less 0.11 L. */
const run = { temperature: '22', pressure: '760', va: '3.11', dlco: '0.12' };

describe('equipment that is not in order', () => {
  let profile: Profile;
  beforeEach(async () => {
    profile = await openProfile();
    await profile.page.emulateMedia({ reducedMotion: 'reduce' });
    await setUpLaboratory(profile, { label: 'Room 2', fixedFactor: '1' });
  });
  afterEach(() => profile.close());

  /** The analyzer's line of Today. */
  const line = () => profile.page.locator('.ledger__line').first();

  it('such as a syringe overdue for calibration is named on Today and at the bench, and stops no run', async () => {
    const { page } = profile;
    await openRecordForm(page, /^Syringe A/, 'Change…');
    await page.getByLabel('Calibration due on').fill(dayFromToday(-30));
    await page.getByLabel('Reason').fill('As the sticker on it says.');
    await page.getByRole('button', { name: 'Save the change' }).click();
    await page
      .getByText(/Syringe calibration overdue by 30 days/)
      .first()
      .waitFor();
    expect(await axe(page)).toEqual([]);

    await goTo(page, 'Today');
    await page
      .getByText(/^Syringe A: Syringe calibration overdue by 30 days, was due /)
      .first()
      .waitFor();
    expect(await axe(page)).toEqual([]);
    await shoot(page, 'unhappy-syringe-today');

    await page.getByRole('button', { name: 'Run Room 2' }).click();
    const syringe = page.getByLabel('Syringe', { exact: true });
    expect(await saidWith(syringe)).toMatch(/Syringe A is overdue: calibration was due on /);
    expect(await axe(page)).toEqual([]);
    await typeRun(page, run);
    await recordRun(page);
    await verdictPanel(page).getByText('Pass', { exact: true }).waitFor();

    // Noted from Today's own line, it is over in both places.
    await goTo(page, 'Today');
    await page
      .getByRole('link', { name: /^Note it.*Syringe calibration, Syringe A$/ })
      .first()
      .click();
    await page.getByLabel('How it came out').selectOption('passed');
    await page.getByRole('button', { name: 'Note this check' }).click();
    await page.getByRole('heading', { name: 'Today', level: 1 }).waitFor();
    expect(await page.getByText(/calibration overdue/).count()).toBe(0);
    await goTo(page, 'Bench');
    expect(await saidWith(syringe)).not.toContain('overdue');
  });

  it('such as an expired cylinder is called by its name on Today and at the bench, until another is fitted', async () => {
    const { page, at } = profile;
    const addCylinder = async (name: string, until: string) => {
      await page.goto(at('/equipment/new/cylinder'));
      await page.getByLabel('Name').fill(name);
      await page.getByLabel('Carbon monoxide (CO)').fill('0.3');
      await page.getByLabel('Methane (CH₄)').fill('0.3');
      await page.getByLabel('Oxygen (O₂)').fill('21');
      await page.getByLabel('Certified until').fill(until);
      await page.getByRole('button', { name: 'Add cylinder' }).click();
    };
    const putOn = async (name: string) => {
      await page.getByRole('button', { name: 'Fit to an analyzer…' }).click();
      expect(await page.getByLabel('Cylinder').locator('option:checked').textContent()).toContain(name);
      await page.getByRole('button', { name: 'Record the fitting' }).click();
    };
    await addCylinder('Test gas 4', dayFromToday(-3));
    await page.getByText(/^Its certificate ran out on .* Is the date right\?$/).waitFor();
    await page.getByRole('button', { name: 'Yes: add cylinder' }).click();
    await page.getByRole('heading', { name: 'Test gas 4', level: 1 }).waitFor();
    await putOn('Test gas 4');
    await page.getByText(/^The certificate of Test gas 4 ran out on /).waitFor();
    await page.getByRole('button', { name: 'Yes: record the fitting' }).click();
    await page.getByText('It is on Room 2 now.').waitFor();
    expect(await axe(page)).toEqual([]);

    await goTo(page, 'Today');
    await line()
      .getByText(/^Test gas 4: Expired 3 days ago: last day was /)
      .waitFor();
    expect(await axe(page)).toEqual([]);
    await shoot(page, 'unhappy-cylinder-today');

    await page.getByRole('button', { name: 'Run Room 2' }).click();
    const analyzer = page.getByLabel('Analyzer', { exact: true });
    expect(await saidWith(analyzer)).toMatch(/Its cylinder Test gas 4 has expired: its last day was /);
    await shoot(page, 'unhappy-cylinder-bench');
    await typeRun(page, run);
    await recordRun(page);

    await addCylinder('Test gas 5', dayFromToday(300));
    await page.getByRole('heading', { name: 'Test gas 5', level: 1 }).waitFor();
    await putOn('Test gas 5');
    await page.getByText(/^since /).waitFor();
    await goTo(page, 'Bench');
    expect(await saidWith(analyzer)).not.toContain('expired');
    await goTo(page, 'Today');
    expect(await line().textContent()).not.toContain('Test gas 4');
  });

  it('such as an analyzer out of service is asked about, is not overdue, and comes back only by a supervisor', async () => {
    await addPerson(profile, { name: 'Ben Sample', initials: 'BS', role: 'technologist' });
    const { page } = profile;
    await goTo(page, 'Bench');
    await page.getByLabel('Technologist').selectOption({ label: 'BS  Ben Sample' });
    await typeRun(page, run);
    await page.getByLabel('Made at').fill(`${dayFromToday(-10)}T08:00`);
    await recordRun(page);
    // A run of another day leaves the room behind, and whoever writes it down in hand.
    await page.getByText('Carried over: person, syringe', { exact: true }).waitFor();
    expect(await page.getByLabel('Temperature', { exact: true }).inputValue()).toBe('');
    await goTo(page, 'Today');
    await line()
      .getByText(/^Simulation overdue by 3 days/)
      .waitFor();

    await openRecordForm(page, /^Room 2/, 'Take out of service…');
    await page.getByLabel('Reason').fill('Demand valve sticks.');
    await page.getByRole('button', { name: 'Take out of service' }).click();

    await page.getByText('Out of service since').first().waitFor();
    expect(await axe(page)).toEqual([]);

    await goTo(page, 'Today');
    expect(await line().textContent()).toMatch(/Out of service.*Out of service since.*Demand valve sticks\./);
    expect(await page.locator('#page, main').first().textContent()).not.toMatch(/Simulation overdue/);
    expect(await line().getByRole('button').count()).toBe(0);
    expect(await page.getByText('No analyzer is in use.').count()).toBe(0);
    expect(await axe(page)).toEqual([]);
    await shoot(page, 'unhappy-out-of-service-today');

    await goTo(page, 'Bench');
    expect(await saidWith(page.getByLabel('Analyzer', { exact: true }))).toMatch(
      /Room 2 is out of service since .*: Demand valve sticks\./,
    );
    await typeRun(page, { ...run, va: '3.12' });
    await verdictPanel(page)
      .getByText('No patients yet: out of service until a supervisor puts it back.')
      .waitFor();
    await page.getByRole('button', { name: 'Record run' }).click();
    await page
      .getByText(/^The analyzer is out of service since .* Is this run meant to be recorded/)
      .waitFor();
    expect(await axe(page)).toEqual([]);
    await shoot(page, 'unhappy-out-of-service-asked');
    await page.getByRole('button', { name: 'Back to the form' }).click();
    expect(await page.getByText('Saved.', { exact: true }).count()).toBe(0);
    await page.getByRole('button', { name: 'Record run' }).click();
    await page.getByRole('button', { name: 'Record it as a run after service' }).click();
    await page.getByText('Saved.', { exact: true }).waitFor();

    await openRecordForm(page, /^Room 2/, 'Put back in service…');
    await page.getByLabel('Reason').fill('Valve replaced; the run of today passes.');
    const supervisor = page.getByLabel('Supervisor');
    expect(await supervisor.locator('option').allTextContents()).toEqual(['Choose…', 'AE  Ada Example']);
    await page.getByRole('button', { name: 'Put back in service' }).click();
    await page.getByText('This needs a supervisor.').waitFor();
    await supervisor.selectOption({ label: 'AE  Ada Example' });
    await page.getByRole('button', { name: 'Put back in service' }).click();
    await page.getByText('Put back, AE:').waitFor();
    await goTo(page, 'Today');
    await line()
      .getByText(/^Simulation due in 7 days/)
      .waitFor();
    // Who works here has not changed by it.
    await goTo(page, 'Bench');
    expect(await page.getByLabel('Technologist').locator('option:checked').textContent()).toBe(
      'BS  Ben Sample',
    );
  });
});
