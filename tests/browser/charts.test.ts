import { readFile } from 'node:fs/promises';
import type { Page } from 'playwright-core';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { EntryDraft } from '../../src/journal/entries.ts';
import { draft, ids, laboratoryDrafts, runRecorded } from '../journal/fixtures.ts';
import { axe } from './axe.ts';
import { openProfile, type Profile, shoot } from './chromium.ts';
import { prepareLogbook } from './preparedLogbook.ts';

let profile: Profile;
beforeEach(async () => {
  profile = await openProfile();
  await profile.page.emulateMedia({ reducedMotion: 'reduce' });
});
afterEach(() => profile.close());

const week = 7 * 86_400_000;

/** Sixty weekly runs about 2.97 L, the last two of them far above; a cylinder changed in the middle. */
function drafts(): EntryDraft[] {
  const first = Date.now() - 60 * week;
  const instant = (index: number) => new Date(first + index * week).toISOString();
  const steps = [0, 0.02, -0.02, 0.01, -0.01, 0.03, -0.03];
  return [
    ...laboratoryDrafts(),
    ...Array.from({ length: 60 }, (_, index) => {
      const vaL = Math.round((3.45 + (steps[index % 7] ?? 0) + (index > 57 ? 0.2 : 0)) * 100) / 100;
      const reading = {
        vaL,
        vaReportedAs: 'BTPS',
        dlco: (steps[index % 7] ?? 0) * 2,
        dlcoUnit: 'mL/min/mmHg',
      } as const;
      return draft('run-recorded', runRecorded(index, { madeAt: instant(index), reading }));
    }),
    draft('event-recorded', {
      eventId: 'event-number-1',
      analyzerId: ids.analyzer,
      happenedAt: instant(30.5),
      type: 'cylinder',
      description: 'New cylinder',
    }),
  ];
}

const strip = (page: Page) => page.getByRole('slider', { name: 'Part of the time shown' });
const dots = (page: Page) => page.locator('.control-chart__dots path').first();

async function openChart(): Promise<Page> {
  await prepareLogbook(profile, drafts());
  const { page } = profile;
  await page.goto(profile.at(`/charts/${ids.analyzer}/patient-test/va`));
  await dots(page).waitFor();
  return page;
}

async function saved(page: Page, kind: 'SVG' | 'PNG'): Promise<Buffer> {
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: `Save as ${kind}` }).click(),
  ]);
  expect(download.suggestedFilename()).toMatch(
    new RegExp(`^dlco-qc-chart_va-room-2-patient-test_.*\\.${kind.toLowerCase()}$`),
  );
  return readFile(await download.path());
}

describe('a chart', () => {
  it('shows the part of the time that is drawn on its strip, and still does after a reload', async () => {
    const page = await openChart();
    const box = await strip(page).boundingBox();
    if (box === null) throw new Error('there is no strip');
    const y = box.y + box.height / 2;
    await page.mouse.move(box.x + box.width * 0.25, y);
    await page.mouse.down();
    await page.mouse.move(box.x + box.width * 0.75, y, { steps: 4 });
    await page.mouse.up();
    await page
      .getByText(/^Shown: /)
      .first()
      .waitFor();
    const shown = await strip(page).getAttribute('aria-valuetext');
    expect(page.url()).toMatch(/\/between\/\d{4}-\d\d-\d\d\/\d{4}-\d\d-\d\d$/);
    await page.reload();
    await dots(page).waitFor();
    expect(await strip(page).getAttribute('aria-valuetext')).toBe(shown);

    await strip(page).focus();
    await page.keyboard.press('End');
    expect(await strip(page).getAttribute('aria-valuetext')).not.toBe(shown);
    await page.keyboard.press('0');
    expect(page.url()).not.toContain('/between/');
  });

  it('is drawn on by a finger too, and scrolls up and down under it', async () => {
    const page = await openChart();
    expect(await strip(page).evaluate((element) => getComputedStyle(element).touchAction)).toBe('pan-y');
    const box = await strip(page).boundingBox();
    if (box === null) throw new Error('there is no strip');
    const touch = await page.context().newCDPSession(page);
    const y = box.y + box.height / 2;
    const at = (share: number) => [{ x: box.x + box.width * share, y }];
    await touch.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: at(0.5) });
    for (const share of [0.6, 0.7, 0.8]) {
      await touch.send('Input.dispatchTouchEvent', { type: 'touchMove', touchPoints: at(share) });
    }
    await touch.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
    await page.waitForURL(/\/between\//);
  });

  it('tells of a run by keyboard, and marks the runs behind a signal at Enter', async () => {
    const page = await openChart();
    await page.locator('.control-chart [tabindex="0"], .control-chart[tabindex="0"]').first().focus();
    await page.keyboard.press('ArrowRight');
    await page.locator('.point-details[role="status"] p').first().waitFor();
    for (let step = 0; step < 60; step += 1) await page.keyboard.press('ArrowRight');
    await page.locator('.point-details').getByText(/^Fail/).waitFor();
    expect(await page.locator('.control-chart__behind circle').count()).toBeGreaterThan(1);
    await page.keyboard.press('Enter');
    const panel = page.getByRole('region', { name: 'Runs behind a signal' });
    await panel.getByRole('link').first().waitFor();
    expect(await panel.getByRole('combobox').inputValue()).toBe(ids.run(59));
  });

  it('is saved as a picture that stands by itself, under the page’s own policy', async () => {
    const page = await openChart();
    await page.getByText('EWMA and CUSUM below').click();
    await page.getByRole('img', { name: /^CUSUM/ }).waitFor();
    const svg = (await saved(page, 'SVG')).toString('utf8');
    expect(svg).toMatch(/^<svg xmlns=/);
    expect(svg).toContain('VA, Room 2, patient test');
    expect(svg).toMatch(/hash/);
    expect(svg).not.toMatch(/var\(|class=|href/);
    const wide = Number(/width="(\d+)"/.exec(svg)?.[1]);
    const png = await saved(page, 'PNG');
    // PNG: eight bytes of signature, then IHDR with width and height as 32-bit numbers (ISO/IEC 15948, 11.2.2).
    expect(png.subarray(1, 4).toString('latin1')).toBe('PNG');
    expect(png.readUInt32BE(16)).toBe(2 * wide);
    expect(png.length).toBeGreaterThan(20_000);
  });

  it.each(['light', 'dark'] as const)(
    'gives axe nothing to find with all of it open, %s',
    async (colorScheme) => {
      const page = await openChart();
      await page.emulateMedia({ colorScheme });
      await page.getByText('EWMA and CUSUM below').click();
      await page.getByText('z in place of values').click();
      await page
        .getByRole('region', { name: 'Before and after' })
        .getByRole('combobox')
        .selectOption({ index: 1 });
      await page
        .getByRole('region', { name: 'Runs behind a signal' })
        .getByRole('combobox')
        .selectOption({ index: 1 });
      await page.getByRole('button', { name: 'Last 3 months' }).click();
      expect(await axe(page)).toEqual([]);
      await page.setViewportSize({ width: 390, height: 844 });
      expect(await axe(page)).toEqual([]);
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(390);
      await shoot(page, `chart-narrow-${colorScheme}`);
    },
  );
});
