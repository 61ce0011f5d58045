import 'fake-indexeddb/auto';
import { fireEvent, screen } from '@testing-library/react';
import { beforeEach, describe, expect, it } from 'vitest';
import type { EntryBody, EntryDraft } from '../../../src/journal/entries.ts';
import { analyzerAdded } from '../../journal/fixtures.ts';
import { axe } from '../charts/axe.ts';
import { draft, ids, run } from '../laboratory.ts';
import { openStore, staffed, takeInHand, withOneFailure } from '../onLogbook.tsx';
import { button, choice, heading, kindsAfter, onEquipment, textbox, writtenAfter } from './onEquipment.tsx';

const before = staffed().length;
const testGas: EntryBody<'cylinder-added'> = {
  cylinderId: 'cylinder-number-4',
  label: 'Test gas 4',
  serial: '',
  contents: [
    { gas: 'CO', fraction: 0.003 },
    { gas: 'CH4', fraction: 0.003 },
    { gas: 'O2', fraction: 0.21 },
  ],
  expiresOn: '2190-06-30',
};
const withGas = (changes: Partial<typeof testGas> = {}): EntryDraft[] => [
  ...staffed(),
  draft('cylinder-added', { ...testGas, ...changes }),
];
const onCylinder = `/equipment/cylinder/${testGas.cylinderId}`;

beforeEach(() => takeInHand(ids.supervisor));

describe('a cylinder', () => {
  it('is added in per cent and kept in fractions', async () => {
    const handle = await openStore(staffed());
    const { user, container } = await onEquipment(handle, '/equipment/new/cylinder');
    expect(await axe(container)).toEqual([]);
    await user.click(button('Add cylinder'));
    expect(textbox('Name')).toHaveFocus();
    expect(textbox('Carbon monoxide (CO)')).toHaveAccessibleDescription(/at least one gas/);
    await user.type(textbox('Name'), 'Test gas 5');
    await user.type(textbox('Carbon monoxide (CO)'), '0.3');
    await user.type(textbox('Helium (He)'), '10');
    expect(screen.getByText('Balance: 89.7 %.')).toBeInTheDocument();
    await user.click(button('Add cylinder'));
    await heading('Test gas 5');
    expect(screen.getByText('89.7 %')).toBeInTheDocument();
    expect((await writtenAfter(before, handle))[0]).toMatchObject({
      kind: 'cylinder-added',
      body: {
        contents: [
          { gas: 'CO', fraction: 0.003 },
          { gas: 'He', fraction: 0.1 },
        ],
        expiresOn: null,
      },
    });
    expect(await axe(container)).toEqual([]);
  });

  it('with ten times the usual CO is asked about, and what was asked is not skipped by typing on', async () => {
    const handle = await openStore(staffed());
    const { user, container } = await onEquipment(handle, '/equipment/new/cylinder');
    await user.type(textbox('Name'), 'Test gas 5');
    await user.type(textbox('Carbon monoxide (CO)'), '3');
    await user.click(button('Add cylinder'));
    expect(screen.getByRole('alert')).toHaveTextContent(
      /Carbon monoxide \(CO\): 3 %\. In a test gas 0\.3 % is usual/,
    );
    expect(await axe(container)).toEqual([]);
    await user.type(textbox('Carbon monoxide (CO)'), '0');
    expect(screen.queryByRole('alert')).not.toBeInTheDocument();
    await user.click(button('Add cylinder'));
    expect(screen.getByRole('alert')).toHaveTextContent(/Carbon monoxide \(CO\): 30 %/);
    expect(await kindsAfter(before, handle)).toEqual([]);
    await user.click(button('Yes: add cylinder'));
    await heading('Test gas 5');
    expect(await kindsAfter(before, handle)).toEqual(['cylinder-added']);
  });

  it('of a name in use is refused beside the field; of a retired one’s it is not', async () => {
    const handle = await openStore(withGas());
    const { user, unmount } = await onEquipment(handle, '/equipment/new/cylinder');
    await user.type(textbox('Name'), 'test gas 4');
    await user.type(textbox('Carbon monoxide (CO)'), '0.3');
    await user.click(button('Add cylinder'));
    expect(textbox('Name')).toHaveAccessibleDescription(/A cylinder in use is called “Test gas 4” already\./);
    expect(await kindsAfter(before + 1, handle)).toEqual([]);
    unmount();
    await handle.appendEntries([
      draft('cylinder-retired', { cylinderId: testGas.cylinderId, reason: 'Empty.' }),
    ]);
    const again = await onEquipment(handle, '/equipment/new/cylinder');
    await again.user.type(textbox('Name'), 'Test gas 4');
    await again.user.type(textbox('Carbon monoxide (CO)'), '0.3');
    await again.user.click(button('Add cylinder'));
    await heading('Test gas 4');
    expect(await kindsAfter(before + 2, handle)).toEqual(['cylinder-added']);
  });

  it('is changed with a reason; the history tells gas by gas what stood', async () => {
    const handle = await openStore(withGas());
    const { user } = await onEquipment(handle, onCylinder);
    await user.click(button('Change…'));
    await user.clear(textbox('Methane (CH₄)'));
    await user.type(textbox('Neon (Ne)'), '0.5');
    await user.type(textbox('Reason'), 'The label was read wrong.');
    await user.click(button('Save the change'));
    await screen.findByText(/: The label was read wrong\./);
    const [newest] = screen
      .getAllByRole('listitem')
      .filter((item) => /Changed: The label was read wrong\./.test(item.textContent ?? ''));
    expect(newest).toHaveTextContent(/Methane \(CH₄\)was 0\.3 % → –/);
    expect(newest).toHaveTextContent(/Neon \(Ne\)was – → 0\.5 %/);
  });

  it('that has expired says so, names where it is on, and stands so in the list', async () => {
    const handle = await openStore([
      ...withGas({ expiresOn: '2025-01-31' }),
      draft('cylinder-fitted', {
        fittingId: 'fitting-number-1',
        analyzerId: ids.analyzer,
        cylinderId: testGas.cylinderId,
        fittedAt: '2025-01-06T08:00:00.000Z',
      }),
    ]);
    const { container } = await onEquipment(handle, onCylinder);
    expect(screen.getByRole('status')).toHaveTextContent(
      /Expired: its last day was 31 Jan 2025.*It is on Room 2 now\./,
    );
    expect(
      screen.getByRole('link', { name: /Test gas 4.*expired, last day 31 Jan 2025/ }),
    ).toBeInTheDocument();
    expect(await axe(container)).toEqual([]);
  });

  it('retired stands apart at the end of the list and can no longer be fitted', async () => {
    const handle = await openStore(withGas());
    const { user } = await onEquipment(handle, onCylinder);
    await user.click(button('Retire…'));
    await user.type(textbox('Reason'), 'Empty.');
    await user.click(button('Retire'));
    expect(await screen.findByText(/^Retired on /)).toBeInTheDocument();
    const apart = screen.getByRole('heading', { level: 2, name: 'Retired' }).closest('section');
    expect(apart).toHaveTextContent('Test gas 4 cylinder');
    expect(screen.queryByRole('button', { name: 'Fit to an analyzer…' })).not.toBeInTheDocument();
    expect(await kindsAfter(before + 1, handle)).toEqual(['cylinder-retired']);
  });
});

describe('fitting a cylinder', () => {
  it('writes the fitting and its event in one save, and both records tell it', async () => {
    takeInHand(ids.technologist);
    const handle = await openStore([
      ...withGas(),
      draft('analyzer-added', { ...analyzerAdded, analyzerId: 'analyzer-room-3', label: 'Room 3' }),
    ]);
    const { user, container } = await onEquipment(handle, onCylinder);
    await user.click(button('Fit to an analyzer…'));
    await user.click(button('Record the fitting'));
    expect(choice('Analyzer')).toHaveAccessibleDescription('Choose the analyzer.');
    await user.selectOptions(choice('Analyzer'), ids.analyzer);
    expect(await axe(container)).toEqual([]);
    await user.click(button('Record the fitting'));
    expect(await screen.findByText('Now:')).toBeInTheDocument();
    const written = await writtenAfter(before + 2, handle);
    expect(written.map(({ kind, by }) => [kind, by])).toEqual([
      ['cylinder-fitted', ids.technologist],
      ['event-recorded', ids.technologist],
    ]);
    const [fitting, event] = written;
    expect(event?.body).toMatchObject({
      type: 'cylinder',
      happenedAt: fitting?.body.fittedAt,
      description: 'Test gas 4 fitted: CO 0.3 %, CH₄ 0.3 %, O₂ 21 %.',
    });
    await user.click(screen.getByRole('link', { name: 'Room 2' }));
    await heading('Room 2');
    expect(screen.getByRole('link', { name: 'Test gas 4' })).toBeInTheDocument();
    expect(screen.getByText(/: Test gas 4 fitted/)).toBeInTheDocument();
  });

  it('that changes the mean starts a baseline from that time on, by a supervisor', async () => {
    takeInHand(ids.technologist);
    const handle = await openStore(withGas());
    const { user } = await onEquipment(handle);
    await user.click(button('Fit a cylinder…'));
    await user.selectOptions(choice('Cylinder'), testGas.cylinderId);
    fireEvent.change(screen.getByLabelText('Fitted on'), { target: { value: '2026-03-02T09:30' } });
    expect(screen.getByText(/The next 10 accepted runs build the new one/)).toBeInTheDocument();
    await user.click(screen.getByRole('checkbox', { name: 'This changes the mean: start a new baseline.' }));
    await user.click(button('Record the fitting'));
    expect(choice('Supervisor')).toHaveAccessibleDescription('This needs a supervisor.');
    expect(await kindsAfter(before + 1, handle)).toEqual([]);
    await user.selectOptions(choice('Supervisor'), ids.supervisor);
    await user.click(button('Record the fitting'));
    await screen.findByText('New baseline');
    const [fitting, , baseline] = await writtenAfter(before + 1, handle);
    expect(baseline).toMatchObject({ kind: 'baseline-started', by: ids.supervisor });
    expect(baseline?.body.from).toBe(fitting?.body.fittedAt);
  });

  it('starts no baseline while a failure is open, but is written', async () => {
    const handle = await openStore([...withGas(), run(0, 3.37)]);
    const { user } = await onEquipment(handle);
    await user.click(button('Fit a cylinder…'));
    await user.selectOptions(choice('Cylinder'), testGas.cylinderId);
    expect(screen.getByRole('checkbox')).toBeDisabled();
    expect(screen.getByRole('link', { name: 'close it under Review' })).toHaveAttribute('href', '/review');
    await user.click(button('Record the fitting'));
    expect(await screen.findByText('Now:')).toBeInTheDocument();
    expect(await kindsAfter(before + 2, handle)).toEqual(['cylinder-fitted', 'event-recorded']);
  });

  it('of an expired one without the analyzer’s tracer is asked about', async () => {
    const handle = await openStore([
      ...withGas({ expiresOn: '2025-01-31' }),
      draft('analyzer-changed', { ...analyzerAdded, tracer: 'He', reason: 'Said.' }),
    ]);
    const { user, container } = await onEquipment(handle, onCylinder);
    await user.click(button('Fit to an analyzer…'));
    await user.click(button('Record the fitting'));
    const asked = screen.getByRole('alert');
    expect(asked).toHaveTextContent(/ran out on 31 Jan 2025/);
    expect(asked).toHaveTextContent(/Room 2 measures Helium \(He\) as its tracer/);
    expect(await axe(container)).toEqual([]);
    expect(await kindsAfter(before + 2, handle)).toEqual([]);
    await user.click(button('Yes: record the fitting'));
    expect(await screen.findByText('Now:')).toBeInTheDocument();
    expect(await kindsAfter(before + 2, handle)).toEqual(['cylinder-fitted', 'event-recorded']);
  });

  it('can be undone by writing down that none is fitted', async () => {
    const handle = await openStore([
      ...withGas(),
      draft('cylinder-fitted', {
        fittingId: 'fitting-number-1',
        analyzerId: ids.analyzer,
        cylinderId: testGas.cylinderId,
        fittedAt: '2026-01-06T08:00:00.000Z',
      }),
    ]);
    const { user } = await onEquipment(handle);
    await user.click(button('Fit a cylinder…'));
    await user.selectOptions(choice('Cylinder'), 'none');
    await user.click(button('Record that none is fitted'));
    expect(await screen.findByText(/None fitted/)).toBeInTheDocument();
    expect((await writtenAfter(before + 2, handle))[0]).toMatchObject({ body: { cylinderId: null } });
  });
});

describe('a save that was reported as failed after it was written', () => {
  it('does not find its own name taken', async () => {
    const handle = await openStore(staffed());
    const { user } = await onEquipment(withOneFailure(handle, 'after'), '/equipment/new/cylinder');
    await user.type(textbox('Name'), 'Test gas 5');
    await user.type(textbox('Carbon monoxide (CO)'), '0.3');
    await user.click(button('Add cylinder'));
    expect(await screen.findByText(/^Not saved\./)).toBeInTheDocument();
    await user.click(button('Add cylinder'));
    await heading('Test gas 5');
    expect(await kindsAfter(before, handle)).toEqual(['cylinder-added']);
  });
});
