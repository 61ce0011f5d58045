import 'fake-indexeddb/auto';
import { act, screen, waitFor } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { usualDescription } from '../../../src/journal/standing.ts';
import { analyzerAdded } from '../../journal/fixtures.ts';
import { axe } from '../charts/axe.ts';
import { draft, ids, run } from '../laboratory.ts';
import { openStore, settledEntriesOf, staffed, takeInHand } from '../onLogbook.tsx';
import { button, choice, kindsWritten, onEquipment, textbox } from './onEquipment.tsx';

beforeEach(() => takeInHand(ids.supervisor));
afterEach(() => vi.useRealTimers());

describe('the equipment', () => {
  it('lists analyzers, syringes and people, and shows the first analyzer', async () => {
    await onEquipment(await openStore(staffed()), '/equipment');
    expect(screen.getByRole('link', { name: /Room 2/ })).toHaveAttribute('aria-current', 'true');
    expect(screen.getByRole('link', { name: /Dedicated 3 L syringe/ })).toBeInTheDocument();
    expect(screen.getByRole('link', { name: /OF\s+Orla Fenn/ })).toBeInTheDocument();
    expect(screen.getByRole('heading', { level: 1, name: 'Room 2' })).toBeInTheDocument();
  });

  it('says so when an address names nothing', async () => {
    await onEquipment(await openStore(staffed()), '/equipment/syringe/nothing-of-that-name');
    expect(screen.getByText('This address names nothing in the logbook.')).toBeInTheDocument();
  });

  it('adds an analyzer once the form is whole, and opens its record', async () => {
    const handle = await openStore(staffed());
    const { user } = await onEquipment(handle, '/equipment/new/analyzer');
    await user.click(button('Add analyzer'));
    expect(textbox('Name')).toHaveFocus();
    expect(textbox('Name')).toHaveAccessibleDescription('Type a name that everyone in the laboratory uses.');
    expect(await kindsWritten(handle)).toEqual([]);
    await user.type(textbox('Name'), 'Room 5');
    await user.click(button('Add analyzer'));
    expect(await screen.findByRole('heading', { level: 1, name: 'Room 5' })).toBeInTheDocument();
    expect(await kindsWritten(handle)).toEqual(['analyzer-added']);
  });

  it('adds a person and a syringe', async () => {
    const handle = await openStore(staffed());
    const person = await onEquipment(handle, '/equipment/new/person');
    await person.user.type(textbox('Name'), 'Nils Tarrow');
    await person.user.type(textbox('Initials'), 'NT');
    await person.user.click(button('Add person'));
    expect(await screen.findByRole('heading', { level: 1, name: 'Nils Tarrow' })).toBeInTheDocument();
    person.unmount();
    const syringe = await onEquipment(handle, '/equipment/new/syringe');
    await syringe.user.type(textbox('Name'), 'Syringe B');
    await syringe.user.type(textbox('Dead space'), '85');
    await syringe.user.click(button('Add syringe'));
    expect(await screen.findByText('85 mL')).toBeInTheDocument();
    expect(await kindsWritten(handle)).toEqual(['technologist-added', 'syringe-added']);
  });
});

describe('an analyzer', () => {
  it('says how it samples its gas and by which tracer, and can leave either unsaid', async () => {
    const handle = await openStore(staffed());
    const { user, container } = await onEquipment(handle);
    await user.click(button('Change…'));
    expect(await axe(container)).toEqual([]);
    await user.selectOptions(choice(/Gas analysis/), 'sample-bag');
    await user.selectOptions(choice(/Tracer gas/), 'CH4');
    await user.type(textbox('Reason'), 'From its manual.');
    await user.click(button('Save the change'));
    await screen.findByText(/: From its manual\./);
    expect(screen.getByText('With a sample bag', { selector: 'dd' })).toBeInTheDocument();
    expect(screen.getByText('Methane (CH₄)', { selector: 'dd' })).toBeInTheDocument();
    await user.click(await screen.findByRole('button', { name: 'Change…' }));
    await user.selectOptions(choice(/Tracer gas/), 'not-said');
    await user.type(textbox('Reason'), 'Not sure.');
    await user.click(button('Save the change'));
    await screen.findByText(/: Not sure\./);
    const [first, second] = (await settledEntriesOf(handle)).slice(staffed().length);
    expect(first?.body).toMatchObject({ gasAnalysis: 'sample-bag', tracer: 'CH4' });
    expect(second?.body).toMatchObject({ gasAnalysis: 'sample-bag' });
    expect(second?.body).not.toHaveProperty('tracer');
  });

  it('of a name in use is refused beside the field', async () => {
    const handle = await openStore(staffed());
    const { user } = await onEquipment(handle, '/equipment/new/analyzer');
    await user.type(textbox('Name'), ' ROOM 2');
    await user.click(button('Add analyzer'));
    expect(textbox('Name')).toHaveFocus();
    expect(textbox('Name')).toHaveAccessibleDescription(/An analyzer in use is called “Room 2” already\./);
    expect(await kindsWritten(handle)).toEqual([]);
  });

  it('is added in the units of the laboratory', async () => {
    const described = draft('laboratory-described', {
      ...usualDescription,
      descriptionId: 'description-number-1',
      pressureUnit: 'kPa',
      dlcoUnit: 'mmol/min/kPa',
      reason: 'As we write.',
    });
    await onEquipment(await openStore([...staffed(), described]), '/equipment/new/analyzer');
    expect(choice('Pressure is read in')).toHaveValue('kPa');
    expect(choice('DLCO is reported in')).toHaveValue('mmol/min/kPa');
  });
});

describe('a person', () => {
  it('with the initials of another is refused beside the field', async () => {
    const handle = await openStore(staffed());
    const { user, container } = await onEquipment(handle, '/equipment/new/person');
    await user.type(textbox('Name'), 'Olaf Fiske');
    await user.type(textbox('Initials'), 'OF');
    await user.click(button('Add person'));
    expect(textbox('Initials')).toHaveAccessibleDescription(/“OF” stands for somebody else already/);
    expect(await axe(container)).toEqual([]);
    expect(await kindsWritten(handle)).toEqual([]);
  });
});

describe('a change', () => {
  it('needs a reason, which stands in the history with the old value struck through', async () => {
    const handle = await openStore(staffed());
    const { user } = await onEquipment(handle);
    await user.click(button('Change…'));
    expect(screen.getByRole('form', { name: 'Change Room 2' })).toHaveFocus();
    await user.clear(textbox('Name'));
    await user.type(textbox('Name'), 'Room 2b');
    await user.click(button('Save the change'));
    expect(textbox('Reason')).toHaveAccessibleDescription('Say why it is changed.');
    expect(await kindsWritten(handle)).toEqual([]);
    await user.type(textbox('Reason'), 'The door was renumbered.');
    await user.click(button('Save the change'));
    const heading = await screen.findByRole('heading', { level: 1, name: 'Room 2b' });
    const [newest] = screen.getAllByRole('listitem').filter((item) => /Changed/.test(item.textContent ?? ''));
    expect(newest).toHaveTextContent(/IM, Ilse Marong.*Changed: The door was renumbered\./);
    expect(newest).toHaveTextContent(/Namewas Room 2 → Room 2b/);
    expect(newest).toHaveTextContent(/Entry \d+ of workstation .*[0-9a-f]{64}/);
    expect(newest?.querySelector('s')).toHaveTextContent('Room 2');
    await waitFor(() => expect(heading).toHaveFocus());
    expect(await kindsWritten(handle)).toEqual(['analyzer-changed']);
  });

  it('that somebody makes elsewhere while the form stands open is told of, before it is undone', async () => {
    const handle = await openStore(staffed());
    const { user } = await onEquipment(handle);
    await user.click(button('Change…'));
    expect(screen.queryByText(/changed elsewhere/)).not.toBeInTheDocument();
    await act(() =>
      handle.appendEntries([
        draft('analyzer-changed', { ...analyzerAdded, place: 'Second floor', reason: 'It was moved.' }),
      ]),
    );
    expect(await screen.findByText(/changed elsewhere while this form stood open/)).toBeInTheDocument();
  });

  it('of the conversion says that it starts a new baseline, and does so in the same save', async () => {
    const handle = await openStore(staffed());
    const { user } = await onEquipment(handle);
    await user.click(button('Change…'));
    expect(screen.queryByText(/a new baseline starts with it/)).not.toBeInTheDocument();
    await user.selectOptions(choice('VA is converted'), 'fixed');
    expect(screen.getByText(/a new baseline starts with it/)).toBeInTheDocument();
    await user.type(textbox('Reason'), 'Our procedure says so.');
    await user.click(button('Save the change'));
    expect(await screen.findByText('New baseline')).toBeInTheDocument();
    expect(await kindsWritten(handle)).toEqual(['analyzer-changed', 'baseline-started']);
  });

  it('of the conversion is not for a technologist', async () => {
    takeInHand(ids.technologist);
    const handle = await openStore(staffed());
    const { user } = await onEquipment(handle);
    await user.click(button('Change…'));
    await user.selectOptions(choice('VA is converted'), 'fixed');
    await user.type(textbox('Reason'), 'Our procedure says so.');
    await user.click(button('Save the change'));
    expect(choice('Supervisor')).toHaveAccessibleDescription('This needs a supervisor.');
    expect(await kindsWritten(handle)).toEqual([]);
  });

  it('of the conversion waits until an open failure is closed', async () => {
    const handle = await openStore([...staffed(), run(0, 3.37)]);
    const { user } = await onEquipment(handle);
    await user.click(button('Change…'));
    await user.selectOptions(choice('VA is converted'), 'fixed');
    await user.type(textbox('Reason'), 'Our procedure says so.');
    await user.click(button('Save the change'));
    expect(screen.getByText(/close it under Review first/)).toBeInTheDocument();
    expect(await kindsWritten(handle)).toEqual(['run-recorded']);
  });
});

describe('retiring', () => {
  it('needs a reason, says when and why, and leaves nothing more to do', async () => {
    const handle = await openStore(staffed());
    const { user } = await onEquipment(handle, `/equipment/syringe/${ids.syringe}`);
    await user.click(button('Retire…'));
    await user.click(button('Retire'));
    expect(textbox('Reason')).toHaveFocus();
    expect(await kindsWritten(handle)).toEqual([]);
    await user.type(textbox('Reason'), 'Dropped.');
    await user.click(button('Retire'));
    expect(await screen.findByText(/^Retired on /)).toBeInTheDocument();
    expect(screen.queryByRole('button', { name: 'Change…' })).not.toBeInTheDocument();
    expect(screen.getByRole('link', { name: /Dedicated 3 L syringe syringe/ })).toBeInTheDocument();
  });

  it('can be left without a trace', async () => {
    const handle = await openStore(staffed());
    const { user } = await onEquipment(handle);
    await user.click(button('Retire…'));
    await user.type(textbox('Reason'), 'No, not this one.');
    await user.click(button('Leave it'));
    expect(button('Retire…')).toBeInTheDocument();
    expect(await kindsWritten(handle)).toEqual([]);
  });
});
