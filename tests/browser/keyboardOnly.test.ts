/** The weekly job from Today to the assessor's package by keys alone: nothing on any page is pointed at. */
import type { Locator, Page } from 'playwright-core';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { draft, laboratoryDrafts, runRecorded } from '../journal/fixtures.ts';
import { openProfile, type Profile } from './chromium.ts';
import { prepareLogbook } from './preparedLogbook.ts';

let profile: Profile;
beforeEach(async () => {
  profile = await openProfile();
});
afterEach(() => profile.close());

const week = 7 * 86_400_000;

/** Half a year about 3.45 L BTPS, which is 2.970 L at 22 °C and 760 mmHg (wholePath.test.ts), and a person to be tested. */
const halfAYear = () => [
  ...laboratoryDrafts(),
  draft('subject-added', { subjectId: 'subject-number-1', code: 'B1', note: '' }),
  ...Array.from({ length: 25 }, (_, index) =>
    draft(
      'run-recorded',
      runRecorded(index, {
        madeAt: new Date(Date.now() - (25 - index) * week).toISOString(),
        reading: {
          vaL: 3.43 + (index % 5) / 100,
          vaReportedAs: 'BTPS',
          dlco: 0.1 + (index % 3) / 50,
          dlcoUnit: 'mL/min/mmHg',
        },
      }),
    ),
  ),
];

/** Goes by the Tab key, as somebody does who sees where the focus is, and says where it could not be seen. */
function keysOn(page: Page) {
  const unseen = new Set<string>();
  const look = async () => {
    const stop = await page.evaluate(() => {
      const { activeElement: focused, body } = document;
      // A heading that was given the focus, as after a save, is no stop of the key.
      if (focused === null || focused === body || (focused as HTMLElement).tabIndex < 0) return null;
      const { outlineStyle, outlineWidth } = getComputedStyle(focused);
      const [label] = (focused as HTMLInputElement).labels ?? [];
      const name = focused.getAttribute('aria-label') ?? (label ?? focused).textContent ?? '';
      return {
        isRinged: outlineStyle !== 'none' && outlineWidth !== '0px',
        name: `${focused.localName} ${name}`,
      };
    });
    if (stop !== null && !stop.isRinged) unseen.add(stop.name.slice(0, 60));
  };
  const press = async (...keys: readonly string[]) => {
    for (const key of keys) await page.keyboard.press(key);
  };
  async function reach(target: Locator) {
    await target.waitFor();
    for (let presses = 0; presses < 200; presses += 1) {
      if (await target.evaluate((element) => element === document.activeElement)) return;
      await press('Tab');
      await look();
    }
    throw new Error(`the Tab key does not come to ${target}`);
  }
  return {
    press,
    reach,
    unseen,
    async go(target: Locator) {
      await reach(target);
      await press('Enter');
    },
    async type(field: Locator, text: string) {
      await reach(field);
      await page.keyboard.type(text);
    },
    /** A closed list takes the choice whose first letters are typed. */
    async choose(list: Locator, value: string) {
      await reach(list);
      const words = await list.locator(`option[value="${value}"]`).textContent();
      await page.keyboard.type((words ?? '').slice(0, 12));
      expect(await list.inputValue()).toBe(value);
    },
  };
}

it('the whole weekly job is done without a mouse, with the focus in sight and each new page named', async () => {
  await prepareLogbook(profile, halfAYear());
  const { page } = profile;
  page.setDefaultTimeout(20_000);
  await page.emulateMedia({ reducedMotion: 'reduce' });
  const { press, reach, go, type, choose, unseen } = keysOn(page);
  const field = (label: string) => page.getByLabel(label, { exact: true });
  const button = (name: string | RegExp) => page.getByRole('button', { name, exact: true });
  const isAt = (field: string) => page.locator(`[data-field="${field}"]:focus`).waitFor();
  const isCalled = (title: string) => expect.poll(() => page.title()).toBe(`${title} – Diffusion QC Logbook`);
  const goTo = (screen: string) =>
    go(page.getByRole('navigation', { name: 'Screens' }).getByRole('link', { name: screen, exact: true }));
  const recorded = page.getByRole('group', { name: 'The run and what comes next' });

  // Today, the bench, and a run that fails.
  await page.goto(profile.at('/today'));
  await page
    .getByRole('button', { name: /Room 2/ })
    .first()
    .waitFor();
  await isCalled('Today');
  await press('1');
  await isAt('technologistId');
  await isCalled('Record a run – Bench');
  await press('i', 'Enter');
  await isAt('temperature');
  await page.keyboard.type('22');
  await press('Enter');
  await isAt('pressure');
  await page.keyboard.type('760');
  await press('Enter');
  await isAt('va');
  // 60 mL above the mean of 3.43, 3.44 … 3.47 L, whose SD is 14 to 15 mL: beyond 3 SD, not so far that the next would suffer.
  await page.keyboard.type('3.51');
  await press('Enter');
  await isAt('dlco');
  await page.keyboard.type('0.12');
  await press('Enter');
  await page.getByText('Saved.', { exact: true }).waitFor();
  expect(await recorded.textContent()).toContain('Fail');

  // The failure: what was done, and whose tests are in doubt.
  await goTo('Review');
  await isCalled('VA of Room 2 – Review');
  await expect.poll(() => page.evaluate(() => document.activeElement?.id)).toBe('page');
  await go(button('Write down an action…'));
  await type(field('What was done'), 'Coupling tightened.');
  await go(button('Write it down'));
  await go(button('Write down the review…'));
  await choose(field('Outcome'), 'nobody-tested');
  await go(button('Write it down'));
  await button('Write down the review…').waitFor();

  // The run that proves it: the room and the person are carried over.
  await goTo('Today');
  await isCalled('Today');
  await press('1');
  await isAt('va');
  await page.keyboard.type('3.45');
  await press('Enter');
  await isAt('dlco');
  await page.keyboard.type('0.12');
  await press('Enter');
  await page.getByText('Saved.', { exact: true }).waitFor();
  expect(await recorded.textContent()).toContain('Pass');

  // Closed, and signed with a passphrase chosen in the same step.
  await goTo('Review');
  await type(field('What the cause was'), 'A loose coupling.');
  await type(field('Why it may be closed'), 'The next run lies inside.');
  await type(field('New passphrase'), 'four grey herons');
  await type(field('The same again'), 'four grey herons');
  await go(button('Close failure'));
  await page.getByText(/^Signed by IM, verified/).waitFor();

  // The chart, run by run.
  await goTo('Charts');
  await isCalled('VA, Room 2, patient test – Charts');
  await reach(page.locator('.control-chart [tabindex="0"], .control-chart[tabindex="0"]').first());
  const told = page.locator('.point-details[role="status"]');
  await press('ArrowRight');
  await told.locator('p').first().waitFor();
  const first = await told.textContent();
  const failing = told.getByText(/^Fail/);
  for (let step = 0; step < 30 && !(await failing.isVisible()); step += 1) await press('ArrowRight');
  await failing.waitFor();
  expect(await told.textContent()).not.toBe(first);
  await reach(page.getByRole('region', { name: /the runs of the chart$/ }));

  // A person's test.
  await goTo('Controls');
  await go(page.getByRole('link', { name: 'Enter a biological control' }).first());
  await isCalled('Biological control, Room 2');
  await type(field('DLCO'), '25.4');
  await type(field('Alveolar volume, VA'), '5.92');
  await go(button('Record test'));
  await page.getByText(/^Saved\. Test of /).waitFor();

  // All of it for an assessor.
  await goTo('Records');
  await go(page.getByRole('link', { name: 'Make a package' }));
  const download = page.waitForEvent('download');
  await go(button('Make the package'));
  expect((await download).suggestedFilename()).toMatch(/^dlco-qc-package_.*\.zip$/);

  expect([...unseen], 'stops of the Tab key without a ring').toEqual([]);
});
