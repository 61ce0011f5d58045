import 'fake-indexeddb/auto';
import { screen, waitFor, within } from '@testing-library/react';
import { beforeEach, describe, expect, it } from 'vitest';
import { Route } from 'wouter';
import type { EntryDraft } from '../../../src/journal/entries.ts';
import ReviewScreen from '../../../src/views/review/reviewScreen.tsx';
import { axe } from '../charts/axe.ts';
import {
  actionTaken,
  closingRules,
  closure,
  draft,
  ids,
  lookBackReviewed,
  run,
  tenGoodRuns,
  week,
} from '../laboratory.ts';
import { openStore, settledEntriesOf, show, staffed, takeInHand, withOneFailure } from '../onLogbook.tsx';

const textbox = (name: string | RegExp) => screen.getByRole('textbox', { name });
const choice = (name: string) => screen.getByRole('combobox', { name });
const press = (name: string) => screen.getByRole('button', { name });
const onReview = (handle: Parameters<typeof show>[0], path = '/review') =>
  show(handle, <Route component={ReviewScreen} path="/review/*?" />, path);

/** The steps with their states, as they stand on the page. */
const states = () =>
  within(screen.getByRole('list', { name: 'From open to closed' }))
    .getAllByRole('listitem')
    .map((item) => /(done|missing|optional)/.exec(item.textContent ?? '')?.[0]);

const fromTo = { from: week(0), to: week(12) };

beforeEach(() => takeInHand(ids.supervisor));

describe('the way of a failure', () => {
  it('cannot be closed while a step is missing, and says which', async () => {
    await onReview(await openStore([...staffed(), ...tenGoodRuns(), run(10, 3.37)]));
    expect(states()).toEqual(['done', 'optional', 'optional', 'missing', 'missing', 'missing', 'missing']);
    expect(press('Close failure')).toBeDisabled();
    expect(press('Close failure')).toHaveAccessibleDescription(
      /^It cannot be closed yet:.*action is not written down.*1 passing run needed.*look-back is not reviewed/,
    );
    expect(screen.queryByRole('textbox', { name: 'Why it may be closed' })).not.toBeInTheDocument();
    expect(screen.getByRole('link', { name: 'Take it out of service…' })).toHaveAttribute(
      'href',
      `/equipment/analyzer/${ids.analyzer}`,
    );
  });

  it('is ready once every step is done, and is read without a fault', async () => {
    const { container } = await onReview(
      await openStore([
        ...staffed(),
        ...tenGoodRuns(),
        run(10, 3.37),
        actionTaken(10, week(10.5)),
        run(11, 3),
        lookBackReviewed(10, fromTo),
      ]),
    );
    expect(states()).toEqual(['done', 'optional', 'optional', 'done', 'done', 'done', 'missing']);
    expect(screen.getByText('Ready to be closed.')).toBeInTheDocument();
    expect(press('Close failure')).toBeEnabled();
    expect(await axe(container)).toEqual([]);
  });

  it('says of a run that proves the repair although it fails by an old pattern why it does', async () => {
    const high = [3.01, 3.01, 3.01, 3.01, 3.01, 3.03, 3.03, 3.03, 3.03].map((va, index) =>
      run(10 + index, va),
    );
    const drafts = [...tenGoodRuns(), ...high, actionTaken(18, week(18.5)), run(19, 3.01)];
    await onReview(await openStore([...staffed(), ...drafts]), `/review/${ids.run(18)}/va`);
    expect(screen.getByText('Fails by 10x, which reaches back before the action.')).toBeInTheDocument();
    expect(states()[4]).toBe('done');
  });

  it('offers no service to be ended where it is out of service', async () => {
    const stopped = draft('service-set', {
      serviceId: 'service-of-room-2',
      analyzerId: ids.analyzer,
      inService: false,
      from: week(10.2),
      reason: 'Failing.',
    });
    await onReview(await openStore([...staffed(), ...tenGoodRuns(), run(10, 3.37), stopped]));
    expect(screen.queryByRole('link', { name: 'Take it out of service…' })).not.toBeInTheDocument();
    expect(states()[1]).toBe('done');
  });

  it('says that it was closed before and came again, with the way to that story', async () => {
    await onReview(await openStore([...staffed(), run(1, 3.37), closure(1, week(1.5)), run(2, 3.37)]));
    expect(
      screen.getByText(/^Reopened: closed on 15 Jan 2026, .*, failed again on 19 Jan 2026, /),
    ).toBeVisible();
    expect(screen.getByRole('link', { name: 'The story before' })).toHaveAttribute(
      'href',
      `/review/${ids.run(1)}/va`,
    );
  });
});

describe('an action', () => {
  const failing = (...more: EntryDraft[]) => [...staffed(), run(10, 3.37, { dlco: 0.6 }), ...more];
  const written = async (handle: Parameters<typeof show>[0]) =>
    (await settledEntriesOf(handle)).slice(failing().length);

  it('is written with its event for both failures that one fault opened, by whoever is in hand', async () => {
    takeInHand(ids.technologist);
    const handle = await openStore(failing());
    const { user, container } = await onReview(handle, `/review/${ids.run(10)}/va`);
    await user.click(press('Write down an action…'));
    expect(await axe(container)).toEqual([]);
    await user.type(textbox('What was done'), 'Valve seat replaced.');
    await user.type(textbox(/^Part/), 'Valve seat');
    await user.selectOptions(choice('Kind of event'), 'part');
    expect(screen.getByRole('checkbox', { name: /^It was done about DLCO, patient test/ })).toBeChecked();
    await user.click(press('Write it down'));
    await waitFor(() => expect(screen.getByRole('heading', { name: 'Corrective action' })).toHaveFocus());
    const [event, action, ...more] = await written(handle);
    expect(more).toEqual([]);
    expect(event).toMatchObject({ kind: 'event-recorded', by: ids.technologist, body: { type: 'part' } });
    expect(action).toMatchObject({
      kind: 'action-taken',
      by: ids.technologist,
      body: {
        what: 'Valve seat replaced.',
        part: 'Valve seat',
        technologistId: ids.technologist,
        eventId: event?.body.eventId,
        failures: [{ quantity: 'va' }, { quantity: 'dlco' }],
      },
    });
    // Once, as the action, and not a second time as the event.
    expect(screen.queryByRole('heading', { name: 'Events meanwhile' })).not.toBeInTheDocument();
  });

  it('is not written without saying what, and not twice where a save is reported as failed', async () => {
    const handle = await openStore(failing());
    const { user } = await onReview(withOneFailure(handle, 'after'), `/review/${ids.run(10)}/va`);
    await user.click(press('Write down an action…'));
    await user.click(press('Write it down'));
    expect(textbox('What was done')).toHaveFocus();
    expect(textbox('What was done')).toHaveAccessibleDescription(/^Say what was done/);
    expect(await written(handle)).toEqual([]);
    await user.type(textbox('What was done'), 'Valve seat replaced.');
    await user.click(press('Write it down'));
    await screen.findByText(/^Not saved\./);
    await user.click(press('Write it down'));
    await waitFor(() =>
      expect(screen.queryByRole('button', { name: 'Write it down' })).not.toBeInTheDocument(),
    );
    expect((await written(handle)).map(({ kind }) => kind)).toEqual(['event-recorded', 'action-taken']);
  });
});

describe('a look-back', () => {
  it('is reviewed by a supervisor, in counts, over the window that is proposed', async () => {
    takeInHand(ids.technologist);
    const before = [...staffed(), ...tenGoodRuns(), run(10, 3.37)];
    const handle = await openStore(before);
    const { user, container } = await onReview(handle);
    await user.click(press('Write down the review…'));
    expect(await axe(container)).toEqual([]);
    expect(screen.getByText('No names, numbers or dates of birth here.')).toBeVisible();
    await user.selectOptions(choice('Outcome'), 'results-corrected');
    await user.type(textbox(/^Patients tested/), '3');
    await user.type(textbox(/^Results affected/), '4');
    await user.click(press('Write it down'));
    expect(textbox(/^Results affected/)).toHaveAccessibleDescription(/^More affected than tested/);
    expect(choice('Supervisor')).toHaveAccessibleDescription('This needs a supervisor.');
    await user.clear(textbox(/^Results affected/));
    await user.type(textbox(/^Results affected/), '1');
    await user.selectOptions(choice('Supervisor'), ids.supervisor);
    await user.click(press('Write it down'));
    await screen.findByText('Results corrected');
    const [entry] = (await settledEntriesOf(handle)).slice(before.length);
    expect(entry).toMatchObject({
      kind: 'look-back-reviewed',
      by: ids.supervisor,
      body: {
        from: week(9),
        reviewerId: ids.supervisor,
        outcome: 'results-corrected',
        testedCount: 3,
        affectedCount: 1,
        failures: [{ quantity: 'va', openedByRunId: ids.run(10) }],
      },
    });
  });

  it('that leaves a part of the window out says so', async () => {
    const stopped = draft('service-set', {
      serviceId: 'service-of-room-2',
      analyzerId: ids.analyzer,
      inService: false,
      from: week(10.2),
      reason: 'Failing.',
    });
    const short = lookBackReviewed(10, { from: week(9.5), to: week(10.2) });
    await onReview(await openStore([...staffed(), ...tenGoodRuns(), run(10, 3.37), stopped, short]));
    expect(screen.getByText(/^Not looked at of the window: from 9 Mar 2026/)).toBeInTheDocument();
  });
});

describe('closing several together', () => {
  it('takes along no failure of which a step is missing, and says why', async () => {
    // DLCO fails in the second run too: nothing proves it.
    const drafts = [run(0, 3.37, { dlco: 0.6 }), run(0.5, 3, { dlco: 0.6 }), closingRules()];
    await onReview(await openStore([...staffed(), ...drafts]), `/review/${ids.run(0)}/va`);
    expect(screen.getByRole('checkbox', { name: 'Close DLCO, patient test, with it' })).toBeDisabled();
    expect(screen.getByText(/^Not yet, DLCO, patient test: 1 passing run needed/)).toBeInTheDocument();
  });

  it('asks a failure of one imported run for none of it', async () => {
    const imported = { origin: { kind: 'import' as const, batchId: 'batch-of-history', row: 2 } };
    await onReview(await openStore([...staffed(), run(0, 3.37, imported)]));
    expect(screen.getByText('Close the failure of an imported run')).toBeInTheDocument();
    expect(screen.getByRole('button', { name: 'Close 1 failure', hidden: true })).toBeEnabled();
  });
});
