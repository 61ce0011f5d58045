import 'fake-indexeddb/auto';
import { screen } from '@testing-library/react';
import { describe, expect, it } from 'vitest';
import { exportFileName } from '../../../src/views/parts/saveFile.ts';
import RecordsScreen from '../../../src/views/records/recordsScreen.tsx';
import { analyzerAdded } from '../../journal/fixtures.ts';
import { caughtDownloads, textOf } from '../caughtDownloads.ts';
import { draft, ids, run } from '../laboratory.ts';
import { openStore, show, staffed } from '../onLogbook.tsx';

describe('exportFileName', () => {
  const noon = new Date(2026, 2, 2, 12).getTime();

  it.each([
    ['Room 2', 'dlco-qc-runs_room-2_2026-03-02.csv'],
    ['all analyzers', 'dlco-qc-runs_all-analyzers_2026-03-02.csv'],
    ['Ærø / 1. etasje', 'dlco-qc-runs_ærø-1-etasje_2026-03-02.csv'],
    ['  -(A)- ', 'dlco-qc-runs_a_2026-03-02.csv'],
    ['../..', 'dlco-qc-runs_analyzer_2026-03-02.csv'],
  ])('makes of "%s" a name that every disk takes', (what, expected) => {
    expect(exportFileName(what, noon)).toBe(expected);
  });
});

describe('the export', () => {
  const saved = caughtDownloads();

  const twoAnalyzers = () => [
    ...staffed(),
    draft('analyzer-added', { ...analyzerAdded, analyzerId: 'analyzer-room-3', label: 'Room 3' }),
    run(0, 3.01),
    run(1, 3.02),
    run(2, 3.03, { analyzerId: 'analyzer-room-3' }),
  ];

  it('has nothing to give before the first run, and says so', async () => {
    await show(await openStore(staffed()), <RecordsScreen />);
    expect(screen.getByRole('button', { name: 'Export 0 runs as CSV' })).toBeDisabled();
    expect(screen.getByText('There are no runs to export yet.')).toBeInTheDocument();
  });

  it('holds the runs of all analyzers, a row each under one head', async () => {
    const { user } = await show(await openStore(twoAnalyzers()), <RecordsScreen />);
    await user.click(screen.getByRole('button', { name: 'Export 3 runs as CSV' }));
    expect(await screen.findByText(/^3 runs written to dlco-qc-runs_all-analyzers_/)).toBeInTheDocument();
    const [file] = saved;
    expect(file?.name).toMatch(/^dlco-qc-runs_all-analyzers_\d{4}-\d\d-\d\d\.csv$/);
    expect((await textOf(file?.blob)).trim().split('\r\n')).toHaveLength(4);
  });

  it('holds the runs of the chosen analyzer alone', async () => {
    const { user } = await show(await openStore(twoAnalyzers()), <RecordsScreen />);
    await user.selectOptions(screen.getByRole('combobox', { name: 'Runs of' }), ids.analyzer);
    await user.click(screen.getByRole('button', { name: 'Export 2 runs as CSV' }));
    expect(await screen.findByText(/^2 runs written to dlco-qc-runs_room-2_/)).toBeInTheDocument();
    const text = await textOf(saved[0]?.blob);
    expect(text).toContain(ids.run(0));
    expect(text).toContain(ids.run(1));
    expect(text).not.toContain(ids.run(2));
  });
});

describe('the journal', () => {
  it('is counted, and holds', async () => {
    const { user } = await show(await openStore([...staffed(), run(0, 3)]), <RecordsScreen />);
    expect(screen.getByText('Entries').nextElementSibling).toHaveTextContent('5');
    await user.click(screen.getByRole('button', { name: 'Check every entry' }));
    expect(await screen.findByText('Every entry fits its hash and the entry before it.')).toBeInTheDocument();
    expect(screen.getByText('5, the last is number 5')).toBeInTheDocument();
  });

  it('tells where it was changed from outside', async () => {
    const handle = await openStore([...staffed(), run(0, 3)]);
    await changeStored(handle.name, 1, { by: ids.technologist });
    const { user } = await show(await openStore([], handle.name), <RecordsScreen />);
    await user.click(screen.getByRole('button', { name: 'Check every entry' }));
    const alert = await screen.findByRole('alert');
    expect(alert).toHaveTextContent('1 break in the chain');
    expect(alert).toHaveTextContent(/was changed after it was written: its hash does not fit/);
    expect(screen.queryByText(/Every entry fits/)).not.toBeInTheDocument();
  });
});

/** As a hand in the browser's database does it: an entry says something else under its old hash. */
async function changeStored(name: string, index: number, changes: object) {
  const database = await settled(indexedDB.open(name));
  const entries = database.transaction('entries', 'readwrite').objectStore('entries');
  const [keys, rows] = await Promise.all([settled(entries.getAllKeys()), settled(entries.getAll())]);
  await settled(
    entries.put({ ...Object(rows[index]), ...changes }, entries.keyPath === null ? keys[index] : undefined),
  );
  database.close();
}

function settled<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}
