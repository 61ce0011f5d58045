import 'fake-indexeddb/auto';
import { fireEvent, screen } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { ids, run } from '../laboratory.ts';
import { openStore, settledEntriesOf, staffed, takeInHand } from '../onLogbook.tsx';
import { button, choice, kindsWritten, onEquipment, textbox } from './onEquipment.tsx';

beforeEach(() => takeInHand(ids.supervisor));
afterEach(() => vi.useRealTimers());

describe('an event', () => {
  it('is recorded by a technologist, and stands among the events', async () => {
    takeInHand(ids.technologist);
    const handle = await openStore(staffed());
    const { user } = await onEquipment(handle);
    await user.click(button('Record an event…'));
    await user.selectOptions(choice('What'), 'cylinder');
    await user.click(button('Record event'));
    expect(textbox('What was done')).toHaveAccessibleDescription('Say what was done.');
    await user.type(textbox('What was done'), 'New test gas.');
    await user.click(button('Record event'));
    expect(await screen.findByText(': New test gas.')).toHaveTextContent(/OFCylinder: New test gas\.$/);
    expect(await kindsWritten(handle)).toEqual(['event-recorded']);
  });

  it('that changes the mean is for a supervisor, and starts a baseline', async () => {
    takeInHand(ids.technologist);
    const handle = await openStore(staffed());
    const { user } = await onEquipment(handle);
    await user.click(button('Record an event…'));
    await user.type(textbox('What was done'), 'Flow sensor replaced.');
    await user.click(screen.getByRole('checkbox', { name: 'This changes the mean: start a new baseline.' }));
    expect(screen.getByText(/^From then on no earlier run takes part in a mean/)).toBeInTheDocument();
    await user.click(button('Record event'));
    expect(choice('Supervisor')).toHaveAccessibleDescription('This needs a supervisor.');
    expect(await kindsWritten(handle)).toEqual([]);
    await user.selectOptions(choice('Supervisor'), ids.supervisor);
    await user.click(button('Record event'));
    expect(await screen.findByText('New baseline')).toBeInTheDocument();
    expect(await kindsWritten(handle)).toEqual(['event-recorded', 'baseline-started']);
  });

  it('cannot lie ahead', async () => {
    const handle = await openStore(staffed());
    const { user } = await onEquipment(handle);
    await user.click(button('Record an event…'));
    await user.type(textbox('What was done'), 'Flow sensor replaced.');
    fireEvent.change(screen.getByLabelText('When'), { target: { value: '2190-01-01T08:00' } });
    await user.click(button('Record event'));
    expect(screen.getByLabelText('When')).toHaveAccessibleDescription(
      'This is still to come. Type when it was done.',
    );
    expect(await kindsWritten(handle)).toEqual([]);
  });
});

describe('while a failure is open', () => {
  it('no event starts a baseline, and neither does the button', async () => {
    const handle = await openStore([...staffed(), run(0, 3.37)]);
    const { user } = await onEquipment(handle);
    await user.click(button('Record an event…'));
    expect(screen.getByRole('checkbox')).toBeDisabled();
    expect(screen.getByRole('link', { name: 'close it under Review' })).toHaveAttribute('href', '/review');
    await user.click(button('Leave it'));
    await user.click(button('Start a new baseline…'));
    expect(screen.getByText('A failure is open on this analyzer.')).toBeInTheDocument();
    expect(screen.queryByRole('button', { name: 'Start a new baseline' })).not.toBeInTheDocument();
  });
});

describe('a new baseline', () => {
  it('is started by a supervisor with a reason', async () => {
    const handle = await openStore(staffed());
    const { user } = await onEquipment(handle);
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
    const { user } = await onEquipment(handle);
    await user.click(button('Start a new baseline…'));
    await user.type(textbox('Reason'), 'After the yearly service.');
    vi.useFakeTimers({ toFake: ['Date'], now: Date.now() + 20_000 });
    const pressedAt = new Date().toISOString();
    await user.click(button('Start a new baseline'));
    await screen.findByText('New baseline');
    expect((await settledEntriesOf(handle)).at(-1)).toMatchObject({ body: { from: pressedAt } });
  });
});
