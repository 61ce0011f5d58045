import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { axe } from './axe.ts';
import { openProfile, type Profile, shoot } from './chromium.ts';

describe('the built app on a fresh profile', () => {
  let profile: Profile;
  beforeEach(async () => {
    profile = await openProfile();
  });
  afterEach(() => profile.close());

  it('opens under its title, with something to read and nothing on the console', async () => {
    const { page } = profile;
    await page.goto(profile.at('/bench'));
    await page.getByRole('heading').first().waitFor();
    expect(await page.title()).toBe('Diffusion QC Logbook');
    await shoot(page, 'opens');
    profile.expectQuiet();
  });

  it('keeps to WCAG 2.2 AA on its first page, in light and dark', async () => {
    const { page } = profile;
    for (const colorScheme of ['light', 'dark'] as const) {
      await page.emulateMedia({ colorScheme });
      await page.goto(profile.at('/bench'));
      await page.getByRole('heading').first().waitFor();
      expect(await axe(page), colorScheme).toEqual([]);
    }
  });
});
