/** A logbook that was in use before the test begins: its entries are put straight into the browser's storage. */
import type { EntryDraft } from '../../src/journal/entries.ts';
import { sealChain } from '../journal/fixtures.ts';
import type { Profile } from './chromium.ts';
import { changeRows, leaveApp } from './rawStorage.ts';

/** So many rows are handed to the browser at once: a message of all would be tens of megabytes. */
const rowsAtOnce = 2000;

/** Seals drafts as another workstation's chain, written a second apart up to now, and leaves the app on an empty page. */
export async function prepareLogbook(profile: Profile, drafts: readonly EntryDraft[]): Promise<void> {
  const { page } = profile;
  // The app makes its own tables.
  await page.goto(profile.at('/'));
  await page.getByRole('button', { name: 'Add me' }).waitFor();
  await leaveApp(profile);
  const now = Date.now();
  const at = drafts.map((_, index) => new Date(now - (drafts.length - index) * 1000).toISOString());
  const entries = await sealChain(drafts, { at });
  for (let start = 0; start < entries.length; start += rowsAtOnce) {
    await changeRows(page, { add: entries.slice(start, start + rowsAtOnce) });
  }
}
