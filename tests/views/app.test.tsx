import 'fake-indexeddb/auto';
import { act, render, screen, within } from '@testing-library/react';
import userEvent from '@testing-library/user-event';
import { beforeEach, describe, expect, it } from 'vitest';
import type { LogbookHandle } from '../../src/store/openLogbook.ts';
import { App } from '../../src/views/app.tsx';
import { emptyDraft } from '../../src/views/runForm/benchDraft.ts';
import { ids } from './laboratory.ts';
import { entriesOf, openStore, staffed } from './onLogbook.tsx';

async function open(handle: LogbookHandle) {
  render(<App demonstration={false} handle={handle} />);
  await act(() => handle.writeSetting('shown', null));
  return userEvent.setup({ delay: null });
}

beforeEach(() => {
  window.location.hash = '';
});

const textbox = (name: string) => screen.getByRole('textbox', { name });
const button = (name: string) => screen.getByRole('button', { name });

describe('an empty logbook', () => {
  it('leads from three short forms to the bench, with the person and the analyzer in hand', async () => {
    const handle = await openStore();
    const user = await open(handle);
    await user.type(await screen.findByRole('textbox', { name: 'Name' }), 'Ilse Marong');
    await user.click(button('Add me'));
    expect(textbox('Initials')).toHaveFocus();
    expect(entriesOf(handle)).toEqual([]);
    await user.type(textbox('Initials'), 'IM');
    await user.selectOptions(screen.getByRole('combobox', { name: 'Role' }), 'supervisor');
    await user.click(button('Add me'));

    expect(await screen.findByRole('heading', { name: '2. The syringe' })).toBeInTheDocument();
    await user.type(textbox('Name'), '3 L syringe A');
    await user.type(textbox('Dead space'), '110');
    await user.click(button('Add syringe'));

    expect(await screen.findByRole('heading', { name: '3. The analyzer' })).toBeInTheDocument();
    await user.type(textbox('Name'), 'Room 2');
    expect(screen.getByRole('combobox', { name: 'Usual syringe' })).toHaveDisplayValue('3 L syringe A');
    await user.click(button('Add analyzer'));

    expect(await screen.findByRole('heading', { name: 'Record a run' })).toBeInTheDocument();
    expect(screen.getByRole('combobox', { name: 'Technologist' })).toHaveDisplayValue(/Ilse Marong/);
    expect(screen.getByRole('combobox', { name: 'Analyzer' })).toHaveDisplayValue('Room 2');
    expect(screen.getByRole('combobox', { name: 'Syringe' })).toHaveDisplayValue('3 L syringe A');
    expect(screen.getByRole('banner')).toHaveTextContent('In hand: Room 2');
    const entries = entriesOf(handle);
    expect(entries.map(({ kind }) => kind)).toEqual([
      'technologist-added',
      'syringe-added',
      'analyzer-added',
    ]);
    expect(new Set(entries.map(({ by }) => by)).size).toBe(1);
  });
});

describe('the top line', () => {
  it('names the screens, where one is, and the analyzer in hand', async () => {
    const user = await open(await openStore(staffed()));
    // An address that names no screen is Today's.
    expect(await screen.findByRole('heading', { level: 1, name: 'Today' })).toBeInTheDocument();
    const links = within(screen.getByRole('navigation', { name: 'Screens' })).getAllByRole('link');
    expect(links.map(({ textContent }) => textContent)).toEqual([
      'Today',
      'Bench',
      'Charts',
      'Controls',
      'Review',
      'Equipment',
      'Records',
      'Laboratory',
    ]);
    expect(screen.getByRole('link', { name: 'Today' })).toHaveAttribute('aria-current', 'page');
    expect(screen.getByText('No analyzer in hand')).toBeInTheDocument();
    await user.click(screen.getByRole('link', { name: 'Bench' }));
    await screen.findByRole('heading', { name: 'Record a run' });
    await user.selectOptions(screen.getByRole('combobox', { name: 'Analyzer' }), 'Room 2');
    expect(screen.getByRole('banner')).toHaveTextContent('In hand: Room 2');
    await user.click(screen.getByRole('link', { name: 'Records' }));
    expect(await screen.findByRole('heading', { level: 1, name: 'Records' })).toBeInTheDocument();
  });

  it('still names the analyzer in hand, and who writes, after a reload of another screen than the bench', async () => {
    const handle = await openStore(staffed());
    const kept = { ...emptyDraft, analyzerId: ids.analyzer, technologistId: ids.supervisor };
    await handle.writeSetting('bench-draft', { draft: kept, recordingAs: null });
    window.location.hash = '#/equipment/new/analyzer';
    await open(handle);
    expect(await screen.findByText(/In hand:/)).toHaveTextContent('In hand: Room 2');
    expect(await screen.findByRole('combobox', { name: 'Written by' })).toHaveValue(ids.supervisor);
  });
});

describe('a logbook that is not whole', () => {
  async function withStored(changes: object) {
    const handle = await openStore(staffed());
    const snapshot = { ...handle.getSnapshot(), ...changes };
    await open({ ...handle, getSnapshot: () => snapshot });
    await screen.findByRole('heading', { level: 1, name: 'Today' });
  }

  it('says that damaged entries are left out, and that runs can still be recorded', async () => {
    await withStored({ damaged: [{ key: 2, problem: 'body.label: too long' }] });
    const notice = screen.getByText('Some entries cannot be read.').parentElement;
    expect(notice).toHaveTextContent('1 stored entry is damaged');
    expect(notice).toHaveTextContent('Runs can still be recorded');
  });

  it('says that entries of a newer version stop this one from writing', async () => {
    await withStored({ newer: { count: 2, kind: 'sign-off', version: 2 } });
    const notice = screen.getByText(/it can be read here, not written/).parentElement;
    expect(notice).toHaveTextContent('2 entries are unknown to this version');
  });
});
