import 'fake-indexeddb/auto';
import { screen, within } from '@testing-library/react';
import { strFromU8, unzipSync } from 'fflate';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import PackageScreen from '../../../src/views/package/packageScreen.tsx';
import { analyzerAdded } from '../../journal/fixtures.ts';
import { bytesOf, caughtDownloads } from '../caughtDownloads.ts';
import { draft, run } from '../laboratory.ts';
import { openStore, show, staffed } from '../onLogbook.tsx';

const saved = caughtDownloads();
beforeEach(() => {
  vi.useFakeTimers({ now: Date.UTC(2026, 5, 1, 12), toFake: ['Date'] });
});
afterEach(() => {
  vi.useRealTimers();
});

const room3 = 'analyzer-room-3';
const twoAnalyzers = () => [
  ...staffed(),
  draft('analyzer-added', { ...analyzerAdded, analyzerId: room3, label: 'Room 3' }),
  run(0, 3.01, { madeAt: '2026-03-02T07:45:00.000Z' }),
  run(1, 3.02, { madeAt: '2026-04-02T07:45:00.000Z' }),
  run(2, 3.03, { madeAt: '2026-04-03T07:45:00.000Z', analyzerId: room3 }),
];

const onPage = async () => show(await openStore(twoAnalyzers()), <PackageScreen />);

async function rowsOf(file: string) {
  const row = await screen.findByRole('row', { name: new RegExp(`^${file}\\.csv `) });
  return within(row).getAllByRole('cell').at(-1)?.textContent;
}

/** Twenty files are hashed and packed, here on the page's own thread and beside other tests. */
const patience = { timeout: 20_000 };
const saidToBeMade = () => screen.findByText(/^dlco-qc-package/, {}, patience);

const counted = (file: string, rows: string) =>
  vi.waitFor(async () => expect(await rowsOf(file)).toBe(rows), patience);

describe('the package page', { timeout: 40_000 }, () => {
  it('counts what will be in it, and counts anew with every choice', async () => {
    const { user } = await onPage();
    await counted('runs', '3');
    await counted('analyzers', '2');
    await user.click(screen.getByLabelText('Room 3'));
    await counted('runs', '2');
    await counted('analyzers', '1');
    const from = screen.getByLabelText('From');
    await user.clear(from);
    await user.type(from, '2026-04-01');
    await counted('runs', '1');
    // The analyzer that was taken out, and its run. All was written today: the run of March, too, is in the audit trail.
    expect(screen.getByText(/^2 of the 8 entries of the journal are of other times/)).toBeDefined();
  });

  it('hands a package to the browser that holds what was counted', async () => {
    const { user } = await onPage();
    await user.click(screen.getByLabelText('Room 3'));
    await counted('runs', '2');
    await user.click(screen.getByRole('button', { name: 'Make the package' }));
    expect((await saidToBeMade()).textContent).toMatch(/_2025-06-02_2026-06-01\.zip, \d/);
    const [file] = saved;
    expect(file?.name).toBe('dlco-qc-package_2025-06-02_2026-06-01.zip');
    // The reference implementation opens no ZIP where it takes itself to be in a browser; tests/exchange reads them by it.
    const files = unzipSync(await bytesOf(file?.blob));
    const linesOf = (name: string) =>
      strFromU8(files[name] ?? new Uint8Array())
        .trimEnd()
        .split('\r\n');
    expect(linesOf('runs.csv')).toHaveLength(1 + 2);
    expect(linesOf('analyzers.csv').slice(1)).toEqual([expect.stringContaining(',Room 2,')]);
    expect(JSON.parse(linesOf('datapackage.json').join('')).created).toMatch(/^2026-06-01T12:00:/);
  });

  it('forgets what it said of a package as soon as another is chosen', async () => {
    const { user } = await onPage();
    await user.click(screen.getByRole('button', { name: 'Make the package' }));
    await saidToBeMade();
    await user.click(screen.getByLabelText('Room 3'));
    expect(screen.queryByText(/^dlco-qc-package/)).toBeNull();
  });

  it('makes nothing while a field is wrong, says so beside it, and goes there', async () => {
    const { user } = await onPage();
    const to = screen.getByLabelText('Up to and including');
    await user.clear(to);
    await user.click(screen.getByRole('button', { name: 'Make the package' }));
    expect(document.activeElement).toBe(to);
    expect(to.getAttribute('aria-invalid')).toBe('true');
    for (const label of ['Room 2', 'Room 3']) await user.click(screen.getByLabelText(label));
    expect(screen.getByRole('group', { name: 'Analyzers' }).textContent).toContain(
      'Tick one analyzer at least.',
    );
    expect(screen.getByText(/stands here as soon as period and analyzers are chosen/)).toBeDefined();
    expect(saved).toEqual([]);
  });

  it('says what went wrong where a package could not be made, and leaves the page usable', async () => {
    const { user } = await onPage();
    await counted('runs', '3');
    const digest = vi.spyOn(crypto.subtle, 'digest').mockRejectedValueOnce(new Error('No memory left.'));
    await user.click(screen.getByRole('button', { name: 'Make the package' }));
    const alert = await screen.findByRole('alert', {}, patience);
    expect(alert.textContent).toContain('No memory left.');
    expect(saved).toEqual([]);
    digest.mockRestore();
    await user.click(screen.getByRole('button', { name: 'Make the package' }));
    await saidToBeMade();
    expect(saved).toHaveLength(1);
  });

  it('asks whether a period without a run is the one that is meant', async () => {
    const { user } = await onPage();
    const from = screen.getByLabelText('From');
    await user.clear(from);
    await user.type(from, '2026-05-30');
    await screen.findByText(/No run of these analyzers was made in this period/, {}, patience);
  });
});
