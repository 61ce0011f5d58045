import { afterEach, describe, expect, it } from 'vitest';
import { makeProfileDir, openProfile, type Profile, removeProfile, shoot } from './chromium.ts';
import { exportedRows, recordRun, setUpLaboratory, typeRun, verdictWithReason } from './steps.ts';

/**
 * 3.45 L BTPS at 22 °C and 760 mmHg, 110 mL dead space, by the mass balance done on paper:
 * dry: 3.45 · (713/310.15) / (760/295.15) = 3.080, less 0.110 = 2.970 L; fixed: 3.45 · 0.91 − 0.110 = 3.0295 L.
 */
const checkCase = { temperature: '22', pressure: '760', va: '3.45', dlco: '0.12' };

describe('from a reading to a verdict to an audit file', () => {
  const open: Profile[] = [];
  const opened = async (dir?: string) => {
    const profile = await openProfile(dir);
    open.push(profile);
    return profile;
  };
  afterEach(async () => {
    for (const profile of open.splice(0)) await profile.close();
  });

  it('a first analyzer, a run, a reload, an export, a closed browser: the same verdict', async () => {
    const dir = await makeProfileDir();
    try {
      const first = await openProfile(dir);
      const { page } = first;
      await setUpLaboratory(first);
      await typeRun(page, checkCase);
      const live = await verdictWithReason(page);
      expect(await live.textContent()).toMatch(/Pass/);
      expect(await live.textContent()).toMatch(/Simulated VA\s*2\.970 L/);
      expect(await live.textContent()).toContain('The fixed 0.91 would have given 3.030 L');
      await recordRun(page);
      await shoot(page, 'whole-path-recorded');

      await page.reload();
      const lastRuns = page.getByRole('region', { name: /Last runs of Room 2/ }).first();
      await page.getByLabel('Analyzer', { exact: true }).waitFor();
      expect(await lastRuns.textContent()).toMatch(/2\.970[\s\S]*Pass/);

      const [row, ...others] = await exportedRows(page);
      expect(others).toEqual([]);
      expect(row).toMatchObject({ verdict: 'pass', verdict_recomputed: 'pass', technologist_initials: 'AE' });
      expect(Number(row?.simulated_va_l)).toBeCloseTo(2.97, 3);
      expect(row?.entry_hash).toMatch(/^[0-9a-f]{64}$/);
      await first.close();

      const again = await opened(dir);
      await again.page.goto(again.at('/bench'));
      const kept = again.page
        .getByRole('region', { name: /Last runs of Room 2/ })
        .first()
        .first();
      expect(await kept.textContent()).toMatch(/2\.970[\s\S]*Pass/);
      const [keptRow] = await exportedRows(again.page);
      expect(keptRow).toEqual(row);
      await again.page.getByRole('button', { name: 'Check every entry' }).click();
      await again.page.getByText('Every entry fits its hash').waitFor();
      await open.pop()?.close();
    } finally {
      await removeProfile(dir);
    }
  });

  it('a fixed factor shows what the computed one would have given', async () => {
    const profile = await opened();
    await setUpLaboratory(profile, { label: 'Room 3', fixedFactor: '0.91' });
    await typeRun(profile.page, checkCase);
    const verdict = await (await verdictWithReason(profile.page)).textContent();
    expect(verdict).toMatch(/Simulated VA\s*3\.030 L/);
    expect(verdict).toContain('it would be 2.970 L');
  });

  it('at 630 mmHg the fixed factor is said to be about 100 mL off', async () => {
    const profile = await opened();
    await setUpLaboratory(profile, { label: 'On the mountain', fixedFactor: '0.91' });
    // 3.45 · (0.91 − (583/310.15)/(630/295.15)) = 3.45 · 0.0294 = 0.101 L
    await typeRun(profile.page, { ...checkCase, pressure: '630' });
    const verdict = await (await verdictWithReason(profile.page)).textContent();
    expect(verdict).toMatch(/The fixed factor is 101 mL off here/);
  });

  it('writes nothing while a value cannot be, names the slip, and keeps what was typed', async () => {
    const { page, ...profile } = await opened();
    await setUpLaboratory({ page, ...profile });
    await typeRun(page, { temperature: '72', pressure: '7600', va: '33', dlco: 'O.12' });
    await page.getByRole('button', { name: 'Record run' }).click();
    await page.getByText('Nothing is written yet').waitFor();
    const field = (label: string) => page.getByLabel(label, { exact: label === 'DLCO' });
    for (const [label, slip] of [
      ['Temperature', '°F'],
      ['Barometric pressure', '760'],
      ['Alveolar volume, VA', '3.3'],
      ['DLCO', 'is not a number'],
    ] as const) {
      const describedBy = await field(label).getAttribute('aria-describedby');
      expect(await field(label).getAttribute('aria-invalid'), label).toBe('true');
      expect(await page.locator(`[id="${describedBy?.split(' ')[0]}"]`).textContent(), label).toContain(slip);
    }
    expect(await field('Temperature').inputValue()).toBe('72');
    await page.getByRole('link', { name: 'Records' }).click();
    const exporting = page.getByRole('button', { name: 'Export 0 runs as CSV' });
    await exporting.waitFor();
    expect(await exporting.isDisabled()).toBe(true);
    await page.getByRole('link', { name: 'Bench' }).click();
    expect(await field('Temperature').inputValue()).toBe('72');
  });

  it('shows a run saved in one tab in the other', async () => {
    const profile = await opened();
    await setUpLaboratory(profile);
    const other = await profile.context.newPage();
    await other.goto(profile.at('/records'));
    await other.getByRole('button', { name: 'Export 0 runs as CSV' }).waitFor();
    await typeRun(profile.page, checkCase);
    await recordRun(profile.page);
    await other.getByRole('button', { name: 'Export 1 run as CSV' }).waitFor({ timeout: 5000 });
  });
});

describe('the demonstration', () => {
  it('opens an invented laboratory under a banner and leaves the own logbook empty', async () => {
    const profile = await openProfile();
    const { page } = profile;
    await page.goto(profile.at('/charts', '?demonstration'));
    await page.getByText('Demonstration data').waitFor();
    await page.getByRole('img', { name: /VA/ }).first().waitFor();
    await shoot(page, 'demonstration-charts');
    const rows = await exportedRows(page);
    expect(rows.length).toBeGreaterThan(150);
    expect(new Set(rows.map(({ analyzer_id }) => analyzer_id)).size).toBe(7);
    await page.goto(profile.at('/bench'));
    await page.getByRole('button', { name: 'Add me' }).waitFor();
    await profile.close();
  });
});
