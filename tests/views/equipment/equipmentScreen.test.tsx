import 'fake-indexeddb/auto';
import { fireEvent, screen, waitFor } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { Route } from 'wouter';
import EquipmentScreen from '../../../src/views/equipment/equipmentScreen.tsx';
import { ids, run } from '../laboratory.ts';
import { openStore, settledEntriesOf, show, staffed, takeInHand } from '../onLogbook.tsx';

const textbox = (name: string | RegExp) => screen.getByRole('textbox', { name });
const choice = (name: string) => screen.getByRole('combobox', { name });
const button = (name: string) => screen.getByRole('button', { name });

const opened = (handle: Parameters<typeof show>[0], path = `/equipment/analyzer/${ids.analyzer}`) =>
  show(handle, <Route component={EquipmentScreen} path="/equipment/*?" />, path);

async function written(handle: Parameters<typeof show>[0]) {
  const entries = await settledEntriesOf(handle);
  return entries.slice(staffed().length).map(({ kind }) => kind);
}

beforeEach(() => takeInHand(ids.supervisor));
afterEach(() => vi.useRealTimers());

describe('the equipment', () => {
  it('lists analyzers, syringes and people, and shows the first analyzer', async () => {
    await opened(await openStore(staffed()), '/equipment');
    expect(screen.getByRole('link', { name: /Room 2/ })).toHaveAttribute('aria-current', 'true');
    expect(screen.getByRole('link', { name: /Dedicated 3 L syringe/ })).toBeInTheDocument();
    expect(screen.getByRole('link', { name: /OF\s+Orla Fenn/ })).toBeInTheDocument();
    expect(screen.getByRole('heading', { level: 1, name: 'Room 2' })).toBeInTheDocument();
  });

  it('says so when an address names nothing', async () => {
    await opened(await openStore(staffed()), '/equipment/syringe/nothing-of-that-name');
    expect(screen.getByText('This address names nothing in the logbook.')).toBeInTheDocument();
  });

  it('adds an analyzer once the form is whole, and opens its record', async () => {
    const handle = await openStore(staffed());
    const { user } = await opened(handle, '/equipment/new/analyzer');
    await user.click(button('Add analyzer'));
    expect(textbox('Name')).toHaveFocus();
    expect(textbox('Name')).toHaveAccessibleDescription('Type a name that everyone in the laboratory uses.');
    expect(await written(handle)).toEqual([]);
    await user.type(textbox('Name'), 'Room 5');
    await user.click(button('Add analyzer'));
    expect(await screen.findByRole('heading', { level: 1, name: 'Room 5' })).toBeInTheDocument();
    expect(await written(handle)).toEqual(['analyzer-added']);
  });

  it('adds a person and a syringe', async () => {
    const handle = await openStore(staffed());
    const person = await opened(handle, '/equipment/new/person');
    await person.user.type(textbox('Name'), 'Nils Tarrow');
    await person.user.type(textbox('Initials'), 'NT');
    await person.user.click(button('Add person'));
    expect(await screen.findByRole('heading', { level: 1, name: 'Nils Tarrow' })).toBeInTheDocument();
    person.unmount();
    const syringe = await opened(handle, '/equipment/new/syringe');
    await syringe.user.type(textbox('Name'), 'Syringe B');
    await syringe.user.type(textbox('Dead space'), '85');
    await syringe.user.click(button('Add syringe'));
    expect(await screen.findByText('85 mL')).toBeInTheDocument();
    expect(await written(handle)).toEqual(['technologist-added', 'syringe-added']);
  });
});

describe('a change', () => {
  it('needs a reason, which stands in the history with the old value struck through', async () => {
    const handle = await openStore(staffed());
    const { user } = await opened(handle);
    await user.click(button('Change…'));
    expect(screen.getByRole('form', { name: 'Change Room 2' })).toHaveFocus();
    await user.clear(textbox('Name'));
    await user.type(textbox('Name'), 'Room 2b');
    await user.click(button('Save the change'));
    expect(textbox('Reason')).toHaveAccessibleDescription('Say why it is changed.');
    expect(await written(handle)).toEqual([]);
    await user.type(textbox('Reason'), 'The door was renumbered.');
    await user.click(button('Save the change'));
    const heading = await screen.findByRole('heading', { level: 1, name: 'Room 2b' });
    const [newest] = screen.getAllByRole('listitem').filter((item) => /Changed/.test(item.textContent ?? ''));
    expect(newest).toHaveTextContent(/IM, Ilse Marong.*Changed: The door was renumbered\./);
    expect(newest).toHaveTextContent(/Namewas Room 2 → Room 2b/);
    expect(newest).toHaveTextContent(/Entry \d+ of workstation .*[0-9a-f]{64}/);
    expect(newest?.querySelector('s')).toHaveTextContent('Room 2');
    await waitFor(() => expect(heading).toHaveFocus());
    expect(await written(handle)).toEqual(['analyzer-changed']);
  });

  it('of the conversion says that it starts a new baseline, and does so in the same save', async () => {
    const handle = await openStore(staffed());
    const { user } = await opened(handle);
    await user.click(button('Change…'));
    expect(screen.queryByText(/a new baseline starts with it/)).not.toBeInTheDocument();
    await user.selectOptions(choice('VA is converted'), 'fixed');
    expect(screen.getByText(/a new baseline starts with it/)).toBeInTheDocument();
    await user.type(textbox('Reason'), 'Our procedure says so.');
    await user.click(button('Save the change'));
    expect(await screen.findByText('New baseline')).toBeInTheDocument();
    expect(await written(handle)).toEqual(['analyzer-changed', 'baseline-started']);
  });

  it('of the conversion is not for a technologist', async () => {
    takeInHand(ids.technologist);
    const handle = await openStore(staffed());
    const { user } = await opened(handle);
    await user.click(button('Change…'));
    await user.selectOptions(choice('VA is converted'), 'fixed');
    await user.type(textbox('Reason'), 'Our procedure says so.');
    await user.click(button('Save the change'));
    expect(choice('Supervisor')).toHaveAccessibleDescription('This needs a supervisor.');
    expect(await written(handle)).toEqual([]);
  });

  it('of the conversion waits until an open failure is closed', async () => {
    const handle = await openStore([...staffed(), run(0, 3.37)]);
    const { user } = await opened(handle);
    await user.click(button('Change…'));
    await user.selectOptions(choice('VA is converted'), 'fixed');
    await user.type(textbox('Reason'), 'Our procedure says so.');
    await user.click(button('Save the change'));
    expect(screen.getByText(/close it under Review first/)).toBeInTheDocument();
    expect(await written(handle)).toEqual(['run-recorded']);
  });
});

describe('retiring', () => {
  it('needs a reason, says when and why, and leaves nothing more to do', async () => {
    const handle = await openStore(staffed());
    const { user } = await opened(handle, `/equipment/syringe/${ids.syringe}`);
    await user.click(button('Retire…'));
    await user.click(button('Retire'));
    expect(textbox('Reason')).toHaveFocus();
    expect(await written(handle)).toEqual([]);
    await user.type(textbox('Reason'), 'Dropped.');
    await user.click(button('Retire'));
    expect(await screen.findByText(/^Retired on /)).toBeInTheDocument();
    expect(screen.queryByRole('button', { name: 'Change…' })).not.toBeInTheDocument();
    expect(screen.getByRole('link', { name: /Dedicated 3 L syringe syringe/ })).toBeInTheDocument();
  });

  it('can be left without a trace', async () => {
    const handle = await openStore(staffed());
    const { user } = await opened(handle);
    await user.click(button('Retire…'));
    await user.type(textbox('Reason'), 'No, not this one.');
    await user.click(button('Leave it'));
    expect(button('Retire…')).toBeInTheDocument();
    expect(await written(handle)).toEqual([]);
  });
});

describe('an event', () => {
  it('is recorded by a technologist, and stands among the events', async () => {
    takeInHand(ids.technologist);
    const handle = await openStore(staffed());
    const { user } = await opened(handle);
    await user.click(button('Record an event…'));
    await user.selectOptions(choice('What'), 'cylinder');
    await user.click(button('Record event'));
    expect(textbox('What was done')).toHaveAccessibleDescription('Say what was done.');
    await user.type(textbox('What was done'), 'New test gas.');
    await user.click(button('Record event'));
    expect(await screen.findByText(': New test gas.')).toHaveTextContent(/OFCylinder: New test gas\.$/);
    expect(await written(handle)).toEqual(['event-recorded']);
  });

  it('that changes the mean is for a supervisor, and starts a baseline', async () => {
    takeInHand(ids.technologist);
    const handle = await openStore(staffed());
    const { user } = await opened(handle);
    await user.click(button('Record an event…'));
    await user.type(textbox('What was done'), 'Flow sensor replaced.');
    await user.click(screen.getByRole('checkbox'));
    await user.click(button('Record event'));
    expect(choice('Supervisor')).toHaveAccessibleDescription('This needs a supervisor.');
    expect(await written(handle)).toEqual([]);
    await user.selectOptions(choice('Supervisor'), ids.supervisor);
    await user.click(button('Record event'));
    expect(await screen.findByText('New baseline')).toBeInTheDocument();
    expect(await written(handle)).toEqual(['event-recorded', 'baseline-started']);
  });

  it('cannot lie ahead', async () => {
    const handle = await openStore(staffed());
    const { user } = await opened(handle);
    await user.click(button('Record an event…'));
    await user.type(textbox('What was done'), 'Flow sensor replaced.');
    fireEvent.change(screen.getByLabelText('When'), { target: { value: '2190-01-01T08:00' } });
    await user.click(button('Record event'));
    expect(screen.getByLabelText('When')).toHaveAccessibleDescription(
      'This is still to come. Type when it was done.',
    );
    expect(await written(handle)).toEqual([]);
  });
});

describe('while a failure is open', () => {
  it('no event starts a baseline, and neither does the button', async () => {
    const handle = await openStore([...staffed(), run(0, 3.37)]);
    const { user } = await opened(handle);
    await user.click(button('Record an event…'));
    expect(screen.getByRole('checkbox')).toBeDisabled();
    await user.click(button('Leave it'));
    await user.click(button('Start a new baseline…'));
    expect(screen.getByText('A failure is open on this analyzer.')).toBeInTheDocument();
    expect(screen.queryByRole('button', { name: 'Start a new baseline' })).not.toBeInTheDocument();
  });
});

describe('a new baseline', () => {
  it('is started by a supervisor with a reason', async () => {
    const handle = await openStore(staffed());
    const { user } = await opened(handle);
    await user.click(button('Start a new baseline…'));
    await user.type(textbox('Reason'), 'After the yearly service.');
    await user.click(button('Start a new baseline'));
    expect(await screen.findByText('New baseline')).toBeInTheDocument();
    expect((await settledEntriesOf(handle)).at(-1)).toMatchObject({
      kind: 'baseline-started',
      by: ids.supervisor,
      body: { analyzerId: ids.analyzer, reason: 'After the yearly service.' },
    });
  });

  it('starts at the press of the button, not at the last tick of the page', async () => {
    const handle = await openStore(staffed());
    const { user } = await opened(handle);
    await user.click(button('Start a new baseline…'));
    await user.type(textbox('Reason'), 'After the yearly service.');
    vi.useFakeTimers({ toFake: ['Date'], now: Date.now() + 20_000 });
    const pressedAt = new Date().toISOString();
    await user.click(button('Start a new baseline'));
    await screen.findByText('New baseline');
    expect((await settledEntriesOf(handle)).at(-1)).toMatchObject({ body: { from: pressedAt } });
  });
});
