import 'fake-indexeddb/auto';
import { screen, within } from '@testing-library/react';
import { beforeEach, describe, expect, it } from 'vitest';
import type { EntryDraft, SubjectState } from '../../../src/journal/entries.ts';
import { controlSeriesHref, newControlHref } from '../../../src/views/deskRoutes.ts';
import { axe } from '../charts/axe.ts';
import { biological, subject, subjectAdded } from '../controlDrafts.ts';
import { draft, ids } from '../laboratory.ts';
import { openStore, staffed, takeInHand } from '../onLogbook.tsx';
import { button, choice, heading, kindsAfter, onEquipment, textbox, writtenAfter } from './onEquipment.tsx';

const onSubject = `/equipment/subject/${subject}`;
const known = (...more: EntryDraft[]) => [...staffed(), subjectAdded(), ...more];
const march = (day: number) => `2026-03-${String(day).padStart(2, '0')}T08:00:00.000Z`;

const subjectState = (state: SubjectState, from: string, by: string = ids.supervisor): EntryDraft => ({
  ...draft('subject-state-set', {
    settingId: `setting-from-${from}`,
    subjectId: subject,
    state,
    from,
    reason: 'As agreed.',
  }),
  by,
});

beforeEach(() => takeInHand(ids.supervisor));

describe('a biological control', () => {
  it('is added by a code, with the caution beside the field', async () => {
    takeInHand(ids.technologist);
    const handle = await openStore(staffed());
    const { user, container } = await onEquipment(handle, '/equipment/subjects');
    expect(screen.getByText(/The key to the codes is kept elsewhere, by local rules/)).toBeInTheDocument();
    expect(await axe(container)).toEqual([]);
    const [add] = screen.getAllByRole('link', { name: 'Add a subject' });
    if (add === undefined) throw new Error('there is no way to add one');
    await user.click(add);
    expect(textbox('Code')).toHaveAccessibleDescription(/Never a name.*kept elsewhere, by local rules/);
    await user.click(button('Add subject'));
    expect(textbox('Code')).toHaveAccessibleDescription(/^Type the code by which/);
    expect(await axe(container)).toEqual([]);
    await user.type(textbox('Code'), 'BC7');
    await user.click(button('Add subject'));
    await heading('BC7');
    expect(await writtenAfter(staffed().length, handle)).toMatchObject([
      { kind: 'subject-added', by: ids.technologist, body: { code: 'BC7', note: '' } },
    ]);
    expect(screen.getByRole('link', { name: 'BC7' })).toHaveAttribute('aria-current', 'true');
  });

  it('whose code looks like a name is asked about, and written where that is confirmed', async () => {
    const handle = await openStore(staffed());
    const { user } = await onEquipment(handle, '/equipment/new/subject');
    await user.type(textbox('Code'), 'Ida F');
    await user.click(button('Add subject'));
    expect(screen.getByRole('alert')).toHaveTextContent(/“Ida F” looks like a name/);
    expect(await kindsAfter(staffed().length, handle)).toEqual([]);
    await user.click(button('Yes: add subject'));
    await heading('Ida F');
    expect(await kindsAfter(staffed().length, handle)).toEqual(['subject-added']);
  });

  it('shares its code with nobody in use', async () => {
    const handle = await openStore(known());
    const { user } = await onEquipment(handle, '/equipment/new/subject');
    await user.type(textbox('Code'), 'b1');
    await user.click(button('Add subject'));
    expect(textbox('Code')).toHaveAccessibleDescription(/“B1” stands for somebody else already/);
    expect(await kindsAfter(known().length, handle)).toEqual([]);
  });

  it('is changed with a reason, and its history says from what to what', async () => {
    const handle = await openStore(known());
    const { user, container } = await onEquipment(handle, onSubject);
    await user.click(button('Change…'));
    await user.clear(textbox('Code'));
    await user.type(textbox('Code'), 'BC9');
    await user.type(textbox('Reason'), 'The list of codes was renewed.');
    await user.click(button('Save the change'));
    await heading('BC9');
    expect(await screen.findByText('Changed')).toBeInTheDocument();
    expect(screen.getByText('Changed').closest('li')).toHaveTextContent(/The list of codes was renewed\./);
    expect(container.querySelector('.changes')).toHaveTextContent('Codewas B1 → BC9');
  });

  it('shows where it was tested, with the charts and the way to another test', async () => {
    await onEquipment(await openStore(known(biological(0, 27.1), biological(1, 27.9))), onSubject);
    const tests = within(
      screen.getByRole('heading', { level: 2, name: 'Tests' }).closest('section') ?? document.body,
    );
    expect(tests.getByText(/^2 tests, the last on 12 Jan 2026/)).toBeInTheDocument();
    expect(tests.getByRole('link', { name: /^Chart.*of B1 on Room 2/ })).toHaveAttribute(
      'href',
      controlSeriesHref(ids.analyzer, {
        kind: 'biological',
        subjectId: subject,
        quantity: 'dlco',
      }),
    );
    expect(tests.getByRole('link', { name: /^Record a test.*on Room 2/ })).toHaveAttribute(
      'href',
      newControlHref('biological', ids.analyzer),
    );
  });
});

describe('how it stands with a biological control', () => {
  it('is paused by anybody, with a reason, and the list says so', async () => {
    takeInHand(ids.technologist);
    const handle = await openStore(known());
    const { user, container } = await onEquipment(handle, onSubject);
    await user.click(button('Pause…'));
    await user.click(button('Pause'));
    expect(textbox('Reason')).toHaveAccessibleDescription(/^Say why\./);
    await user.type(textbox('Reason'), 'Not available.');
    await user.click(button('Pause'));
    await screen.findByText('paused', { selector: 'dd' });
    expect(await writtenAfter(known().length, handle)).toMatchObject([
      {
        kind: 'subject-state-set',
        by: ids.technologist,
        body: { subjectId: subject, state: 'paused', reason: 'Not available.' },
      },
    ]);
    expect(screen.getByRole('link', { name: /B1.*paused/ })).toBeInTheDocument();
    expect(screen.queryByRole('button', { name: 'Pause…' })).not.toBeInTheDocument();
    expect(screen.getByText('Paused').closest('li')).toHaveTextContent(/Not available\./);
    expect(await axe(container)).toEqual([]);
  });

  it('is asked about where it is paused from before tests that were made: no late one could be written down then', async () => {
    const handle = await openStore(known(biological(0, 27.1), biological(1, 27.9)));
    const { user } = await onEquipment(handle, onSubject);
    await user.click(button('Pause…'));
    const when = screen.getByLabelText('From when');
    await user.clear(when);
    await user.type(when, '1990-01-01T08:00');
    await user.type(textbox('Reason'), 'Not available.');
    await user.click(button('Pause'));
    expect(screen.getByRole('alert')).toHaveTextContent(
      /B1 was tested 2 times since then.*Is the time right\?/,
    );
    expect(await kindsAfter(known(biological(0, 27.1), biological(1, 27.9)).length, handle)).toEqual([]);
    await user.click(button('Back to the form'));
    await user.clear(when);
    await user.type(when, '2026-03-01T08:00');
    await user.click(button('Pause'));
    await screen.findByText('paused', { selector: 'dd' });
  });

  it('is gone on with by a supervisor', async () => {
    takeInHand(ids.technologist);
    const handle = await openStore(known(subjectState('paused', march(1))));
    const { user } = await onEquipment(handle, onSubject);
    await user.click(button('Go on…'));
    await user.type(textbox('Reason'), 'Back.');
    await user.click(button('Go on with the tests'));
    expect(choice('Supervisor')).toHaveAccessibleDescription('This needs a supervisor.');
    await user.selectOptions(choice('Supervisor'), ids.supervisor);
    await user.click(button('Go on with the tests'));
    await screen.findByText('is tested', { selector: 'dd' });
    expect(await kindsAfter(known().length + 1, handle)).toEqual(['subject-state-set']);
  });

  it('is excluded by a supervisor, who is asked about the tests that then count no more', async () => {
    const handle = await openStore(known(biological(0, 27.1), biological(1, 27.9)));
    const { user } = await onEquipment(handle, onSubject);
    await user.click(button('Exclude…'));
    const when = screen.getByLabelText('From when');
    await user.clear(when);
    await user.type(when, '2026-01-01T08:00');
    await user.type(textbox('Reason'), 'The values drift with the person.');
    await user.click(button('Exclude'));
    expect(screen.getByRole('alert')).toHaveTextContent(
      '2 tests made since then would count in no mean any more. Is that meant?',
    );
    await user.click(button('Yes: exclude'));
    await screen.findByText('excluded', { selector: 'dd' });
    const snapshot = handle.getSnapshot();
    if (snapshot.state !== 'ready') throw new Error(`the logbook is ${snapshot.state}`);
    expect(snapshot.logbook.controls.map(({ excluded }) => excluded)).toEqual([true, true]);
  });

  it('is asked about where it is set before what was set last', async () => {
    const handle = await openStore(known(subjectState('paused', march(1))));
    const { user } = await onEquipment(handle, onSubject);
    await user.click(button('Exclude…'));
    const when = screen.getByLabelText('From when');
    await user.clear(when);
    await user.type(when, '2026-02-01T08:00');
    await user.type(textbox('Reason'), 'Drifts.');
    await user.click(button('Exclude'));
    expect(screen.getByRole('alert')).toHaveTextContent(/B1 is paused since 1 Mar 2026.*Is the time right\?/);
  });

  it('ends when the person leaves: the tests stay, and nothing more is offered', async () => {
    const handle = await openStore(known(biological(0, 27.1)));
    const { user, container } = await onEquipment(handle, onSubject);
    await user.click(button('Leaves…'));
    await user.type(textbox('Reason'), 'Left the hospital.');
    await user.click(button('Leaves for good'));
    expect(await screen.findByText(/^Left on /)).toBeInTheDocument();
    expect(screen.queryByRole('button', { name: 'Change…' })).not.toBeInTheDocument();
    expect(screen.getByText(/^1 test, the last on/)).toBeInTheDocument();
    expect(screen.queryByRole('link', { name: /^Record a test/ })).not.toBeInTheDocument();
    expect(await axe(container)).toEqual([]);
  });

  it('leaves no complaint in the logbook about who set it', async () => {
    const handle = await openStore(
      known(
        subjectState('paused', march(1), ids.technologist),
        subjectState('active', march(2), ids.supervisor),
        draft('subject-retired', { subjectId: subject, reason: 'Left.' }),
      ),
    );
    const snapshot = handle.getSnapshot();
    if (snapshot.state !== 'ready') throw new Error(`the logbook is ${snapshot.state}`);
    expect(snapshot.logbook.problems).toEqual([]);
  });
});
