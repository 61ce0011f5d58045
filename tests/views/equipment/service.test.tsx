import 'fake-indexeddb/auto';
import { fireEvent, screen, within } from '@testing-library/react';
import { beforeEach, describe, expect, it } from 'vitest';
import type { EntryDraft } from '../../../src/journal/entries.ts';
import { axe } from '../charts/axe.ts';
import { draft, ids } from '../laboratory.ts';
import { openStore, staffed, takeInHand, withOneFailure } from '../onLogbook.tsx';
import { button, choice, kindsAfter, onEquipment, textbox, writtenAfter } from './onEquipment.tsx';

const before = staffed().length;
const service = (from: string, inService: boolean): EntryDraft =>
  draft('service-set', {
    serviceId: `service-set-${from}`,
    analyzerId: ids.analyzer,
    inService,
    from,
    reason: inService ? 'Tested.' : 'Sample line leaks.',
  });
const out = () => [...staffed(), service('2026-03-02T08:00:00.000Z', false)];

beforeEach(() => takeInHand(ids.supervisor));

describe('taking an analyzer out of service', () => {
  it('is anyone’s, needs a reason, and stands at the top of the record, in the list and in the history', async () => {
    takeInHand(ids.technologist);
    const handle = await openStore(staffed());
    const { user, container } = await onEquipment(handle);
    await user.click(button('Take out of service…'));
    await user.click(button('Take out of service'));
    expect(textbox('Reason')).toHaveAccessibleDescription('Say why.');
    expect(await kindsAfter(before, handle)).toEqual([]);
    await user.type(textbox('Reason'), 'Sample line leaks.');
    expect(await axe(container)).toEqual([]);
    await user.click(button('Take out of service'));
    expect(await screen.findByRole('status')).toHaveTextContent(/Out of service since .*Sample line leaks\./);
    expect(screen.getByRole('link', { name: /Room 2.*out of service since/ })).toBeInTheDocument();
    const [newest] = screen
      .getAllByRole('listitem')
      .filter((item) => /Taken out of service/.test(item.textContent ?? ''));
    expect(newest).toHaveTextContent(/OF, Orla Fenn.*Taken out of service: from .*Sample line leaks\./);
    expect(await axe(container)).toEqual([]);
    expect(
      (await writtenAfter(before, handle)).map(({ kind, by, body }) => [kind, by, body.inService]),
    ).toEqual([['service-set', ids.technologist, false]]);
    expect(screen.queryByRole('button', { name: 'Take out of service…' })).not.toBeInTheDocument();
  });

  it('cannot lie ahead', async () => {
    const handle = await openStore(staffed());
    const { user } = await onEquipment(handle);
    await user.click(button('Take out of service…'));
    await user.type(textbox('Reason'), 'Service is announced.');
    fireEvent.change(screen.getByLabelText('From when'), { target: { value: '2190-01-01T08:00' } });
    await user.click(button('Take out of service'));
    expect(screen.getByLabelText('From when')).toHaveFocus();
    expect(screen.getByLabelText('From when')).toHaveAccessibleDescription(
      'This is still to come. Type when it was done.',
    );
    expect(await kindsAfter(before, handle)).toEqual([]);
  });

  it('is asked about before the last change, and written where that is right', async () => {
    const handle = await openStore([...out(), service('2026-03-05T08:00:00.000Z', true)]);
    const { user } = await onEquipment(handle);
    await user.click(button('Take out of service…'));
    await user.type(textbox('Reason'), 'It leaked before as well.');
    fireEvent.change(screen.getByLabelText('From when'), { target: { value: '2026-02-01T08:00' } });
    await user.click(button('Take out of service'));
    expect(screen.getByRole('alert')).toHaveTextContent(
      /was put back in service on .* it stays in service today\. Is the time right\?/,
    );
    await user.click(button('Back to the form'));
    expect(await kindsAfter(before + 2, handle)).toEqual([]);
    await user.click(button('Take out of service'));
    await user.click(button('Yes: take out of service'));
    expect(await screen.findAllByText(/It leaked before as well\./)).not.toHaveLength(0);
    expect(await kindsAfter(before + 2, handle)).toEqual(['service-set']);
  });

  it('is not done a second time where another tab did it meanwhile, and keeps what was typed', async () => {
    const handle = await openStore(staffed());
    const { user } = await onEquipment(handle);
    await user.click(button('Take out of service…'));
    await user.type(textbox('Reason'), 'Sample line leaks.');
    await handle.appendEntries([service('2026-03-02T08:00:00.000Z', false)]);
    await screen.findByText(/^Out of service since/);
    await user.click(button('Take out of service'));
    expect(screen.getByText('Room 2 is out of service already.')).toBeInTheDocument();
    expect(textbox('Reason')).toHaveValue('Sample line leaks.');
    expect(await kindsAfter(before + 1, handle)).toEqual([]);
  });

  it('whose save was reported as failed after it was written is not refused for itself', async () => {
    const handle = await openStore(staffed());
    const { user } = await onEquipment(withOneFailure(handle, 'after'));
    await user.click(button('Take out of service…'));
    await user.type(textbox('Reason'), 'Sample line leaks.');
    await user.click(button('Take out of service'));
    expect(await screen.findByText(/^Not saved\./)).toBeInTheDocument();
    await user.click(button('Take out of service'));
    expect(await screen.findByRole('button', { name: 'Put back in service…' })).toBeInTheDocument();
    expect(await kindsAfter(before, handle)).toEqual(['service-set']);
  });
});

describe('putting it back', () => {
  it('is a supervisor’s', async () => {
    takeInHand(ids.technologist);
    const handle = await openStore(out());
    const { user, container } = await onEquipment(handle);
    await user.click(button('Put back in service…'));
    await user.type(textbox('Reason'), 'Line replaced; the run after it passes.');
    await user.click(button('Put back in service'));
    expect(choice('Supervisor')).toHaveAccessibleDescription('This needs a supervisor.');
    expect(await axe(container)).toEqual([]);
    expect(await kindsAfter(before + 1, handle)).toEqual([]);
    await user.selectOptions(choice('Supervisor'), ids.supervisor);
    await user.click(button('Put back in service'));
    expect(await screen.findByRole('button', { name: 'Take out of service…' })).toBeInTheDocument();
    const [written] = await writtenAfter(before + 1, handle);
    expect(written).toMatchObject({ kind: 'service-set', by: ids.supervisor, body: { inService: true } });
    const periods = within(
      screen.getByRole('heading', { level: 2, name: 'Out of service' }).closest('section') ?? document.body,
    );
    expect(periods.getByRole('listitem')).toHaveTextContent(
      /2 Mar 2026, .* – .*Taken out, IM: Sample line leaks\.Put back, IM: Line replaced/,
    );
  });

  it('is offered only while it is out', async () => {
    await onEquipment(await openStore(staffed()));
    expect(screen.queryByRole('button', { name: 'Put back in service…' })).not.toBeInTheDocument();
  });
});
