import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { checkChains } from '../../src/journal/chain.ts';
import { axe } from './axe.ts';
import { makeProfileDir, openProfile, type Profile, removeProfile, shoot } from './chromium.ts';
import { changeRows, dropDatabase, leaveApp, readRows, upgradeDatabase } from './rawStorage.ts';
import { recordRun, setUpLaboratory, typeRun, verdictWithReason } from './steps.ts';

const goodRun = { temperature: '22', pressure: '760', va: '3.45', dlco: '0.12' };
/** The three entries of the set-up and one run. */
const entriesBefore = 4;

let profile: Profile;
beforeEach(async () => {
  profile = await openProfile();
});
afterEach(() => profile.close());

/** A laboratory with one recorded run, and the app left. */
async function usedLogbook() {
  await setUpLaboratory(profile);
  await typeRun(profile.page, goodRun);
  await recordRun(profile.page);
  await leaveApp(profile);
}

async function openBench() {
  await profile.page.goto(profile.at('/bench'));
}

describe('a database that is gone', () => {
  it('is told from a first day, can be given up under initials, and stays told', async () => {
    const { page } = profile;
    await usedLogbook();
    await dropDatabase(page);
    await openBench();
    await page.getByRole('heading', { name: 'The logbook came back empty' }).waitFor();
    expect(await page.getByRole('main').textContent()).toContain(`stored ${entriesBefore} entries here`);
    expect(await page.getByRole('button', { name: 'Add me' }).count()).toBe(0);
    expect(await axe(page)).toEqual([]);
    await shoot(page, 'recovery');

    await page.reload();
    await page.getByRole('button', { name: 'Go on without them…' }).click();
    await page.getByRole('button', { name: 'Begin an empty logbook' }).click();
    await page.getByText('Type your initials, one to four letters').waitFor();
    expect(await readRows(page)).toEqual([]);
    expect(await axe(page)).toEqual([]);
    await shoot(page, 'recovery-second-step');
    await page.getByLabel('Your initials').fill('AE');
    await page.getByRole('button', { name: 'Begin an empty logbook' }).click();
    await page.getByRole('button', { name: 'Add me' }).waitFor();

    await setUpLaboratory(profile);
    await page.goto(profile.at('/records'));
    await page.getByText(`${entriesBefore} entries were lost from this browser`).waitFor();
    expect(await page.getByText('AE went on without them').isVisible()).toBe(true);
    expect(await readRows(page)).toMatchObject([
      { kind: 'entries-lost', body: { initials: 'AE' } },
      {},
      {},
      {},
    ]);
  });

  it('is restored from a backup file on the spot, and what follows is recorded', async () => {
    const { page } = profile;
    await setUpLaboratory(profile);
    await typeRun(page, goodRun);
    await recordRun(page);
    await page.getByRole('link', { name: 'Records' }).click();
    const downloading = page.waitForEvent('download');
    await page.getByRole('button', { name: /^Save a backup file/ }).click();
    const backup = await (await downloading).path();
    await leaveApp(profile);
    const before = await readRows(page);
    await dropDatabase(page);
    await openBench();
    await page.getByRole('heading', { name: 'The logbook came back empty' }).waitFor();
    await page.getByLabel('Backup file').setInputFiles(backup);
    await page.getByRole('button', { name: `Add ${entriesBefore} entries` }).click();
    await page.getByRole('heading', { name: 'Record a run' }).waitFor();
    expect(await readRows(page)).toEqual(before);
    await page.getByLabel('Analyzer', { exact: true }).selectOption({ label: 'Room 2' });
    await page.getByLabel('Technologist').selectOption({ index: 1 });
    await typeRun(page, { ...goodRun, va: '3.44' });
    await recordRun(page);
    const rows = await readRows(page);
    // The lost database took this browser's chain with it: the restored one is another's, and a new one begins.
    expect(rows).toMatchObject([...before, { seq: 1, prev: '' }]);
    expect((await checkChains(rows)).breaks).toEqual([]);
  });

  it('is noticed as well when only a part of it comes back', async () => {
    const { page } = profile;
    await usedLogbook();
    await changeRows(page, { replace: { 3: null } });
    await openBench();
    await page.getByRole('heading', { name: 'The logbook came back with less' }).waitFor();
    expect(await page.getByText('Now it gives back 3.').isVisible()).toBe(true);
  });
});

describe('the check on start-up', () => {
  it('runs on a thread of its own and says on every screen that an entry was changed', async () => {
    const { page } = profile;
    await usedLogbook();
    const rows = await readRows(page);
    await changeRows(page, { replace: { 1: { ...Object(rows[1]), by: 'somebody-else' } } });
    const worker = page.waitForEvent('worker');
    await openBench();
    expect((await worker).url()).toContain('chainCheckWorker');
    const told = page.getByText('The journal is not as it was written.');
    await told.waitFor();
    for (const screen of ['Charts', 'Review', 'Equipment', 'Bench']) {
      await page.getByRole('link', { name: screen, exact: true }).click();
      expect(await told.isVisible(), screen).toBe(true);
    }
    await shoot(page, 'chain-broken');
    await page.getByRole('link', { name: 'See under Records which entries' }).click();
    await page.getByText('was changed after it was written: its hash does not fit').waitFor();
    await typeAndRecordAgain();
  });

  it('says nothing where the chain holds, and Records has its result', async () => {
    const { page } = profile;
    await usedLogbook();
    await page.goto(profile.at('/records'));
    await page.getByText('Every entry fits its hash and the entry before it.').waitFor();
    expect(await page.getByText(`${entriesBefore}, the last is number ${entriesBefore}`).isVisible()).toBe(
      true,
    );
    expect(await page.getByText('The journal is not as it was written.').count()).toBe(0);
  });
});

async function typeAndRecordAgain() {
  await openBench();
  await typeRun(profile.page, { ...goodRun, va: '3.44' });
  await recordRun(profile.page);
}

describe('beside another release', () => {
  it('an entry of a newer version lets the logbook be read, and every form says so before typing', async () => {
    const { page } = profile;
    await usedLogbook();
    const newer = {
      id: 'entry-of-tomorrow',
      workstation: 'workstation-z',
      seq: 1,
      kind: 'forecast',
      version: 3,
    };
    await changeRows(page, { add: [newer] });
    await openBench();
    await page.getByText('it can be read here, not written').waitFor();
    const note = page.getByText('This form cannot be saved on this version.');
    expect(await note.isVisible()).toBe(true);
    expect(await page.getByRole('button', { name: 'Record run' }).isDisabled()).toBe(true);
    await shoot(page, 'newer-version');
    expect(
      await page
        .getByRole('region', { name: /Last runs/ })
        .first()
        .textContent(),
    ).toContain('2.970');
    await page.getByRole('link', { name: 'Equipment' }).click();
    const adding = page.getByRole('link', { name: /^Add / });
    await adding.first().waitFor();
    expect(await adding.count()).toBe(5);
    for (const form of await adding.all()) {
      await form.click();
      await note.waitFor();
      expect(await page.locator('form button[type=submit]').isDisabled()).toBe(true);
    }
    expect(await readRows(page)).toHaveLength(entriesBefore + 1);
  });

  it('an upgrade in another tab locks this one, and what was typed is there after the reload', async () => {
    const { page, context } = profile;
    await setUpLaboratory(profile);
    await typeRun(page, goodRun);
    await page.waitForTimeout(400); // the draft is kept a moment after the last key
    const other = await context.newPage();
    await leaveApp({ ...profile, page: other });
    await upgradeDatabase(other);
    await page.getByRole('heading', { name: 'The logbook was opened by a newer version' }).waitFor();
    expect(await page.getByRole('button', { name: 'Record run' }).count()).toBe(0);
    await page.getByRole('button', { name: 'Reload' }).click();
    await page.getByRole('heading', { name: 'The logbook was opened by a newer version' }).waitFor();
    // The newer release, which this reload would have brought, finds the draft where it was kept.
    const kept = await other.evaluate(
      (name) =>
        new Promise<unknown>((resolve, reject) => {
          const opening = indexedDB.open(name);
          opening.onerror = () => reject(opening.error);
          opening.onsuccess = () => {
            const reading = opening.result.transaction('settings').objectStore('settings').get('bench-draft');
            reading.onsuccess = () => resolve(reading.result);
          };
        }),
      'diffusion-qc-logbook',
    );
    expect(kept).toMatchObject({ value: { draft: { va: '3.45', temperature: '22' } } });
  });

  it('a damaged row is told, and writing goes on', async () => {
    const { page } = profile;
    await usedLogbook();
    await changeRows(page, { add: [{ id: 'entry-damaged', kind: 'run-recorded', version: 1 }] });
    await openBench();
    await page.getByText('Some entries cannot be read.').waitFor();
    await typeAndRecordAgain();
    await page.getByRole('link', { name: 'Records' }).click();
    await page.getByText('Stored entry 5 cannot be read').waitFor();
    expect(await readRows(page)).toHaveLength(entriesBefore + 2);
  });
});

describe('storage that is refused', () => {
  it('a full disk: nothing is half-written, the message stands, what was typed stays and is saved once there is room', async () => {
    const dir = await makeProfileDir();
    try {
      const first = await openProfile(dir);
      await setUpLaboratory(first);
      await typeRun(first.page, goodRun);
      await first.page.waitForTimeout(400); // the draft is kept a moment after the last key
      const before = await readRows(first.page);
      // A browser goes on for a while by the room that it last saw: only a fresh one looks again.
      await first.close();

      const again = await openProfile(dir);
      const { page, context } = again;
      const devTools = await context.newCDPSession(page);
      const origin = new URL(again.at('/')).origin;
      await devTools.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: 1 });
      await page.goto(again.at('/bench'));
      const va = page.getByLabel('Alveolar volume, VA');
      await expect.poll(() => va.inputValue()).toBe('3.45');
      await page.getByRole('button', { name: 'Record run' }).click();
      await page.getByText('Not saved. The disk is full.').waitFor();
      expect(await page.getByText('Saved.', { exact: true }).count()).toBe(0);
      expect(await va.inputValue()).toBe('3.45');
      expect(await axe(page)).toEqual([]);
      await shoot(page, 'disk-full');
      expect(await readRows(page)).toEqual(before);

      await devTools.send('Storage.overrideQuotaForOrigin', { origin });
      await recordRun(page);
      expect(await readRows(page)).toHaveLength(before.length + 1);
      expect(await (await verdictWithReason(page)).textContent()).toMatch(/2\.970/);
      await again.close();
    } finally {
      await removeProfile(dir);
    }
  });

  it('the small storage forbidden: the logbook works and Records says what that costs', async () => {
    const { page, context } = profile;
    await context.addInitScript(() => {
      Object.defineProperty(window, 'localStorage', {
        get() {
          throw new DOMException('Access is denied for this document.', 'SecurityError');
        },
      });
    });
    await setUpLaboratory(profile);
    await typeRun(page, goodRun);
    await recordRun(page);
    await page.getByRole('link', { name: 'Records' }).click();
    await page.getByText('Refused by the browser').waitFor();
  });

  it('the database forbidden: the page says so and what to do', async () => {
    const { page, context } = profile;
    await context.addInitScript(() => {
      IDBFactory.prototype.open = () => {
        throw new DOMException('Access is denied for this document.', 'SecurityError');
      };
    });
    await openBench();
    await page
      .getByRole('heading', { name: 'This browser does not let the logbook store anything' })
      .waitFor();
    expect(await axe(page)).toEqual([]);
  });

  it('the browser is asked to keep the storage after the first save, not before, and once', async () => {
    const { page, context } = profile;
    await context.addInitScript(() => {
      const { persist } = StorageManager.prototype;
      StorageManager.prototype.persisted = async () => false;
      StorageManager.prototype.persist = function asked() {
        document.documentElement.dataset.asked = `${Number(document.documentElement.dataset.asked ?? 0) + 1}`;
        return persist.call(this);
      };
    });
    const asked = () => page.locator('html').getAttribute('data-asked');
    await openBench();
    await page.getByRole('button', { name: 'Add me' }).waitFor();
    expect(await asked()).toBeNull();
    await setUpLaboratory(profile);
    expect(await asked()).toBe('1');
    await page.getByRole('link', { name: 'Records' }).click();
    await page.getByRole('heading', { name: 'Will this browser keep it?' }).waitFor();
    await page.getByText(/\d (bytes|kB|MB) of \d/).waitFor();
    await shoot(page, 'records-storage');
  });
});

describe('a print', () => {
  it('ends with the head of the journal, which no screen shows', async () => {
    const { page } = profile;
    await usedLogbook();
    const rows = await readRows(page);
    await openBench();
    await page.getByRole('heading', { name: 'Record a run' }).waitFor();
    const { hash } = Object(rows[3]);
    await page.evaluate(() => window.dispatchEvent(new Event('beforeprint')));
    const foot = page.getByText(`hash ${hash}`);
    expect(await foot.isVisible()).toBe(false);
    await page.emulateMedia({ media: 'print' });
    expect(await foot.isVisible()).toBe(true);
    expect(await foot.textContent()).toContain('entry 4 is the last');
  });
});
