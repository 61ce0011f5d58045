import { afterEach, describe, expect, it } from 'vitest';
import { axe } from './axe.ts';
import { openProfile, type Profile, shoot } from './chromium.ts';
import { addAnalyzer, exportedRows, recordRun, setUpLaboratory, typeRun } from './steps.ts';

/** 3.80 L BTPS at 22 °C and 760 mmHg is 3.8 · 0.8928 − 0.110 = 3.283 L: inside 0.3 L. 3.95 L is 3.417 L: outside. */
const typed = { temperature: '22', pressure: '760', va: '3.95', dlco: '0.12' };

describe('a run put down to the wrong analyzer', () => {
  let profile: Profile | undefined;
  afterEach(() => profile?.context.close());

  it('is amended: both values and both verdicts stand, after a reload and in the export', async () => {
    profile = await openProfile();
    const { page } = profile;
    // A verdict that is still fading in has not its full contrast yet.
    await page.emulateMedia({ reducedMotion: 'reduce' });
    await setUpLaboratory(profile);
    await addAnalyzer(profile, { label: 'Room 5', fixedFactor: '0.8' });
    await page.getByRole('link', { name: 'Bench' }).click();
    await page.getByLabel('Analyzer', { exact: true }).selectOption({ label: 'Room 2' });
    await typeRun(page, typed);
    await recordRun(page);
    const lastRuns = page.getByRole('region', { name: /Last runs of Room 2/ }).first();
    expect(await lastRuns.textContent()).toMatch(/3\.417[\s\S]*Fail/);

    await lastRuns.getByRole('link').first().click();
    await page.getByRole('heading', { name: /^Run of .*, Room 2$/ }).waitFor();
    expect(await axe(page)).toEqual([]);
    await page.getByRole('button', { name: 'Amend…' }).click();
    await page.getByLabel('Analyzer', { exact: true }).selectOption({ label: 'Room 5' });
    // 3.95 · 0.8 − 0.110 = 3.050 L
    const preview = page.getByRole('region', { name: 'Verdict as amended' });
    expect(await preview.textContent()).toMatch(
      /It stands as Fail[\s\S]*Pass[\s\S]*Simulated VA is 50 mL high\./,
    );
    await page.getByLabel('Reason for the amendment').fill('Room 5 was tested; Room 2 was still chosen.');
    expect(await axe(page)).toEqual([]);
    await shoot(page, 'amend-form');
    await page.getByRole('button', { name: 'Amend run' }).click();
    await page.getByText('Saved: the run is amended.').waitFor();

    await page.reload();
    await page.getByRole('heading', { name: /^Run of .*, Room 5$/ }).waitFor();
    expect(await page.locator('.figures').textContent()).toMatch(
      /Analyzerwas Room 2 AE, corrected .*, now Room 5/,
    );
    const [, ofTheDay, asAmended] = await page
      .getByRole('region', { name: 'Verdicts', exact: true })
      .getByRole('row')
      .allTextContents();
    expect(ofTheDay).toMatch(/^On the day.*Fail.*3\.417/);
    expect(asAmended).toMatch(/^As amended.*Pass.*3\.050/);
    expect(await page.locator('.history').textContent()).toMatch(
      /Amended: Room 5 was tested.*Analyzerwas Room 2 → Room 5.*Recorded/s,
    );
    expect(await axe(page)).toEqual([]);
    await shoot(page, 'amended-run');

    const [row, ...others] = await exportedRows(page);
    expect(others).toEqual([]);
    expect(row).toMatchObject({
      analyzer: 'Room 5',
      verdict: 'fail',
      verdict_of_amendment: 'pass',
      verdict_recomputed: 'pass',
      amendments: '1',
      amend_reason: 'Room 5 was tested; Room 2 was still chosen.',
    });
    expect(Number(row?.simulated_va_l)).toBeCloseTo(3.05, 3);
    expect(Number(row?.va_judged_l)).toBeCloseTo(3.417, 3);
    await page.getByRole('button', { name: 'Check every entry' }).click();
    await page.getByText('Every entry fits its hash').waitFor();
    profile.expectQuiet();
  });
});
