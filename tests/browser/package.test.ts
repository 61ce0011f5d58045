import { readFile } from 'node:fs/promises';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { opened } from '../exchange/package/packages.ts';
import { axe } from './axe.ts';
import { openProfile, type Profile, shoot } from './chromium.ts';

let profile: Profile;
beforeEach(async () => {
  profile = await openProfile();
});
afterEach(() => profile.close());

it('makes a package of the demonstration’s year on a thread of its own, which another program reads', async () => {
  const { page } = profile;
  await page.goto(profile.at('/records', '?demonstration'));
  const thread = page.waitForEvent('worker', {
    predicate: (worker) => worker.url().includes('packageWorker'),
  });
  await page.getByRole('link', { name: 'Make a package' }).click({ timeout: 60_000 });
  await thread;
  const runs = page
    .getByRole('row', { name: /^runs\.csv/ })
    .getByRole('cell')
    .last();
  const counted = Number(await runs.textContent());
  expect(counted).toBeGreaterThan(200);
  expect(await axe(page)).toEqual([]);

  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Make the package' }).click();
  await page.getByText(/^dlco-qc-package_.+\.zip, /).waitFor();
  await shoot(page, 'package');
  const file = await download;
  expect(file.suggestedFilename()).toMatch(/^dlco-qc-package_\d{4}-\d\d-\d\d_\d{4}-\d\d-\d\d\.zip$/);

  const inside = await opened(await readFile(await file.path()));
  expect(inside.read.errors).toEqual([]);
  for (const { name, rows } of inside.read.descriptor.resources)
    expect(await inside.resource(name).read({ keyed: true, relations: true }), name).toHaveLength(rows);
  expect(await inside.rows('runs')).toHaveLength(counted);
  await inside.dispose();
}, 120_000);
