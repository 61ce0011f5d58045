import 'fake-indexeddb/auto';
import { screen, within } from '@testing-library/react';
import { describe, expect, it } from 'vitest';
import { runsToCsv } from '../../../src/exchange/runsCsv.ts';
import type { EntryDraft } from '../../../src/journal/entries.ts';
import ImportScreen from '../../../src/views/import/importScreen.tsx';
import { ids, opened, run, tenGoodRuns } from '../laboratory.ts';
import {
  entriesOf,
  openStore,
  settledEntriesOf,
  show,
  staffed,
  takeInHand,
  withOneFailure,
} from '../onLogbook.tsx';
import { whenSigned } from '../signing.ts';

const header = 'date,VA (L),DLCO (mL/min/mmHg),temperature (°C),pressure (mmHg)';
const rows = ['2026-03-02 08:00,3.45,0.12,22,760', '2026-03-09 08:00,3450,0.12,22,760'];
const csv = (text: string, name = 'history.csv') => {
  const file = new File([text], name, { type: 'text/csv' });
  // jsdom's files have no streams.
  file.stream = () => new Response(text).body ?? new ReadableStream();
  return file;
};

async function mapped(text: string, drafts: readonly EntryDraft[] = staffed(), fails = false) {
  const store = await openStore(drafts);
  takeInHand();
  const page = await show(fails ? withOneFailure(store, 'before') : store, <ImportScreen />);
  const { user } = page;
  await user.upload(screen.getByLabelText('File with runs'), csv(text));
  await screen.findByRole('heading', { name: 'history.csv' });
  return { ...page, store };
}

async function judged(text: string, drafts?: readonly EntryDraft[], fails?: boolean) {
  const page = await mapped(text, drafts, fails);
  const { user } = page;
  await user.selectOptions(screen.getByLabelText('All runs are of'), 'Room 2');
  await user.selectOptions(screen.getByLabelText('All runs were made by'), ids.supervisor);
  await user.click(screen.getByLabelText(/first rows are understood/));
  await user.click(screen.getByRole('button', { name: /^Judge/ }));
  await screen.findByRole('heading', { name: 'Every row judged' });
  return page;
}

describe('the import', () => {
  it('asks for what the file does not say, and judges nothing before the first rows are confirmed', async () => {
    const { user } = await mapped([header, ...rows].join('\n'));
    const button = screen.getByRole('button', { name: 'Judge 2 rows' });
    expect(button).toBeDisabled();
    expect(screen.getByText('Still to choose: analyzer, made by.')).toBeVisible();
    await user.selectOptions(screen.getByLabelText('All runs are of'), 'Room 2');
    await user.selectOptions(screen.getByLabelText('All runs were made by'), ids.technologist);
    expect(button).toBeDisabled();
    await user.click(screen.getByLabelText(/first rows are understood/));
    expect(button).toBeEnabled();
    // What was confirmed is no longer what stands there.
    await user.selectOptions(screen.getByLabelText('Dates are written'), 'DMY');
    expect(button).toBeDisabled();
    expect(screen.getByLabelText(/first rows are understood/)).not.toBeChecked();
  });

  it('shows the first rows as they would be read, and again as soon as a column changes', async () => {
    const { user } = await mapped(
      ['date,VA,reading two,DLCO,temp,pressure', '02/03/2026,3.45,3.4,0.12,22,760'].join('\n'),
    );
    const preview = screen.getByRole('region', { name: 'The first rows as understood' });
    expect(preview).toHaveTextContent(/which number is the day has not been chosen/);
    expect(screen.getByText(/No day above 12 tells day from month in 1 date/)).toBeVisible();
    await user.selectOptions(screen.getByLabelText('Dates are written'), 'DMY');
    await user.selectOptions(screen.getByLabelText('Unit of DLCO as reported'), 'mL/min/mmHg');
    await user.selectOptions(screen.getByLabelText('Unit of Barometric pressure'), 'mmHg');
    await user.selectOptions(screen.getByLabelText('All runs are of'), 'Room 2');
    await user.selectOptions(screen.getByLabelText('All runs were made by'), ids.supervisor);
    expect(preview).toHaveTextContent('2 Mar 2026, 12:00');
    expect(preview).toHaveTextContent(/3\.45 BTPS/);
    await user.selectOptions(screen.getByLabelText('VA as reported'), 'reading two');
    expect(preview).toHaveTextContent(/3\.4 BTPS/);
  });

  it('writes the batch and its runs in one save, and lists it', async () => {
    const { user, store } = await judged([header, ...rows].join('\n'));
    expect(screen.getByRole('radio', { name: /Refused 1/ })).toBeChecked();
    expect(screen.getByText(/it looks like mL/)).toBeVisible();
    await user.click(screen.getByRole('button', { name: 'Record 1 run' }));
    await screen.findByText('Recorded. 1 run of history.csv stand in the logbook.');
    const written = entriesOf(store).slice(staffed().length);
    expect(written).toMatchObject([
      {
        kind: 'runs-imported',
        by: ids.supervisor,
        body: { fileName: 'history.csv', accepted: 1, refused: 1 },
      },
      { kind: 'run-recorded', body: { judged: null, origin: { kind: 'import', row: 2 } } },
    ]);
    const imports = screen.getByRole('heading', { name: 'Imports so far' }).closest('section');
    expect(imports).toHaveTextContent('history.csv: 1 run, 1 row refused');
  });

  it('asks a supervisor', async () => {
    const { user, store } = await judged([header, ...rows].join('\n'));
    takeInHand(ids.technologist);
    await user.click(await screen.findByRole('button', { name: 'Record 1 run' }));
    await screen.findByText('This needs a supervisor.');
    expect(await settledEntriesOf(store)).toHaveLength(staffed().length);
  });

  it('keeps the rows and the mapping when the save fails, and writes once it is tried again', async () => {
    const { user, store } = await judged([header, ...rows].join('\n'), staffed(), true);
    await user.click(screen.getByRole('button', { name: 'Record 1 run' }));
    await screen.findByText(/Not saved\. The disk is full/);
    expect(await settledEntriesOf(store)).toHaveLength(staffed().length);
    await user.click(screen.getByRole('button', { name: 'Record 1 run' }));
    await screen.findByText(/^Recorded/);
    expect(entriesOf(store)).toHaveLength(staffed().length + 2);
  });

  it('finds the same file there the second time', async () => {
    const first = await judged([header, ...rows].join('\n'));
    await first.user.click(screen.getByRole('button', { name: 'Record 1 run' }));
    await first.user.click(await screen.findByRole('button', { name: 'Import another file' }));
    await first.user.upload(screen.getByLabelText('File with runs'), csv([header, rows[0]].join('\n')));
    await first.user.selectOptions(await screen.findByLabelText('All runs are of'), 'Room 2');
    await first.user.selectOptions(screen.getByLabelText('All runs were made by'), ids.supervisor);
    await first.user.click(screen.getByLabelText(/first rows are understood/));
    await first.user.click(screen.getByRole('button', { name: 'Judge 1 row' }));
    await screen.findByText('There is nothing to record: no row is new and in order.');
    expect(screen.getByText('This run is in the logbook already.')).toBeVisible();
  });

  it('voids an import as a whole, with a reason', async () => {
    const { user, store } = await judged([header, ...rows].join('\n'));
    await user.click(screen.getByRole('button', { name: 'Record 1 run' }));
    await user.click(await screen.findByRole('button', { name: 'Void this import…' }));
    await user.click(screen.getByRole('button', { name: 'Void import' }));
    await screen.findByText('Say why.');
    await user.type(screen.getByLabelText('Reason'), 'wrong analyzer');
    await user.click(screen.getByRole('button', { name: 'Void import' }));
    await screen.findByText(/voided .* by IM: wrong analyzer/);
    expect(entriesOf(store).at(-1)).toMatchObject({
      kind: 'import-voided',
      body: { reason: 'wrong analyzer' },
    });
    expect(screen.queryByRole('button', { name: 'Void this import…' })).toBeNull();
  });

  it('asks whose the names are that the logbook does not know', async () => {
    const text = `analyzer,${header}\nthe old one,${rows[0]}\nRoom 2,2026-03-16 08:00,3.45,0.12,22,760`;
    const { user } = await mapped(text);
    const names = screen.getByRole('heading', { name: 'Names in the file' }).closest('section');
    if (!names) throw new Error('no section of names');
    const preview = screen.getByRole('region', { name: 'The first rows as understood' });
    expect(preview).toHaveTextContent('“the old one” is not an analyzer of this logbook.');
    await user.selectOptions(within(names).getByLabelText(/the old one/), 'Room 2');
    expect(preview).not.toHaveTextContent('is not an analyzer of this logbook');
  });

  it('names the equipment of another logbook’s export by its labels, not by ids that nobody knows', async () => {
    const { logbook, assessments } = await opened(tenGoodRuns());
    const exported = runsToCsv(logbook, assessments, { heads: new Map() })
      .replaceAll(ids.analyzer, 'analyzer-elsewhere')
      .replaceAll('Room 2', 'Room 9');
    const { user } = await mapped(exported);
    const analyzer = screen.getByLabelText(/^Analyzer Room 9 analyzer-elsewhere$/);
    await user.selectOptions(analyzer, 'Room 2');
    const preview = screen.getByRole('region', { name: /^The first .* as understood$/ });
    expect(preview).not.toHaveTextContent('is not an analyzer of this logbook');
  });

  it('says of a file that cannot be read why, and takes another', async () => {
    const { user } = await show(await openStore(staffed()), <ImportScreen />);
    await user.upload(screen.getByLabelText('File with runs'), csv('', 'nothing.csv'));
    await screen.findByText('Nothing was taken from nothing.csv.');
    expect(screen.getByText('The file is empty.')).toBeVisible();
    expect(screen.getByLabelText('File with runs')).toBeEnabled();
  });
});

describe('failures that an import brought along', () => {
  /** Ten good runs here, then a history whose newest run lies far outside. */
  const bad = '2026-03-30T08:00:00Z,3.95,0.01,22,760';

  it('are closed together with one reason and one entry for each analyzer', async () => {
    const { user, store } = await judged([header, bad].join('\n'), [
      ...staffed(),
      ...tenGoodRuns(),
      run(10, 3.0),
    ]);
    await user.click(screen.getByRole('button', { name: 'Record 1 run' }));
    await screen.findByRole('heading', { name: 'Close them together' });
    expect(screen.getByRole('checkbox')).toBeChecked();
    await user.click(screen.getByRole('button', { name: 'Close 1 failure' }));
    await screen.findByText(/Say why they may be closed/);
    await user.type(screen.getByLabelText('Why they may be closed'), 'mended at the time');
    await user.type(await screen.findByLabelText('New passphrase'), 'an invented passphrase');
    await user.type(screen.getByLabelText('The same again'), 'an invented passphrase');
    await user.click(screen.getByRole('button', { name: 'Close 1 failure' }));
    await screen.findByText('None is open.', {}, whenSigned);
    const closed = entriesOf(store).filter(({ kind }) => kind === 'failure-closed');
    expect(closed).toMatchObject([
      { by: ids.supervisor, body: { closedAt: '2026-03-30T08:00:00.000Z', reason: 'mended at the time' } },
    ]);
  });
});
