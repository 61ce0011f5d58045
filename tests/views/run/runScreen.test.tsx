import 'fake-indexeddb/auto';
import { fireEvent, screen, waitFor, within } from '@testing-library/react';
import type { UserEvent } from '@testing-library/user-event';
import { beforeEach, describe, expect, it } from 'vitest';
import { Route } from 'wouter';
import type { EntryDraft } from '../../../src/journal/entries.ts';
import RunScreen from '../../../src/views/run/runScreen.tsx';
import LastRuns from '../../../src/views/runForm/lastRuns.tsx';
import { axe } from '../charts/axe.ts';
import { draft, ids, run } from '../laboratory.ts';
import {
  entriesOf,
  openStore,
  settledEntriesOf,
  show,
  staffed,
  takeInHand,
  withOneFailure,
  withSlowSaves,
} from '../onLogbook.tsx';
import { amendment, content, judged, otherAnalyzer, otherAnalyzerId } from './runFixtures.ts';

const textbox = (name: string | RegExp) => screen.getByRole('textbox', { name });
const choice = (name: string) => screen.getByRole('combobox', { name });
const button = (name: string) => screen.getByRole('button', { name });
const verdicts = () => screen.getByRole('region', { name: 'Verdicts' });
const whatChanges = () => screen.getByRole('region', { name: 'What changes' });
const history = () => screen.getAllByRole('listitem');
/** The line of one field on the left page. */
const fact = (name: string) => screen.getByText(name, { selector: '.figures dt' }).nextElementSibling;

const failed = () => run(0, 3.4, { judged: judged('fail', 3.4) });
const opened = (handle: Parameters<typeof show>[0], index = 0) =>
  show(handle, <Route component={RunScreen} path="/run/:runId" />, `/run/${ids.run(index)}`);
const storeWith = (...drafts: readonly EntryDraft[]) => openStore([...staffed(), otherAnalyzer(), ...drafts]);

async function amended(handle: Parameters<typeof settledEntriesOf>[0]) {
  const entries = await settledEntriesOf(handle);
  return entries.filter(({ kind }) => kind === 'run-amended');
}

async function retype(user: UserEvent, name: string, text: string) {
  await user.clear(textbox(name));
  await user.type(textbox(name), text);
}

beforeEach(() => takeInHand(ids.supervisor));

describe('the page of a run', () => {
  it('shows every field, the verdict of the day and the entry that recorded it', async () => {
    await opened(await storeWith(failed()));
    expect(screen.getByRole('heading', { level: 1 })).toHaveTextContent('Run of 5 Jan 2026, 09:00, Room 2');
    expect(fact('VA as reported')).toHaveTextContent('3.40 L BTPS');
    expect(fact('Technologist')).toHaveTextContent('IM, Ilse Marong');
    expect(within(verdicts()).getByRole('row', { name: /^On the day/ })).toHaveTextContent(/Fail.*3\.400/);
    expect(history()).toHaveLength(1);
    expect(history()[0]).toHaveTextContent(
      /\(Europe\/Oslo\), IM, Ilse Marong.*Recorded.*Entry 6 of workstation .*[0-9a-f]{64}/,
    );
  });

  it('shows a corrected value struck through beside the new one, with whose correction it is', async () => {
    await opened(await storeWith(failed(), amendment(0, content(0, 3.04))));
    const va = fact('VA as reported');
    expect(va?.querySelector('s')).toHaveTextContent('3.40 L BTPS');
    expect(va).toHaveTextContent(/3\.40 L BTPS IM, corrected .*, now 3\.04 L BTPS$/);
    expect(fact('DLCO as reported')?.querySelector('s')).toBeNull();
    const [, onTheDay, asAmended] = within(verdicts()).getAllByRole('row');
    expect(onTheDay?.querySelector('s')).toHaveTextContent('Fail');
    expect(asAmended).toHaveTextContent(/^As amended.*Pass/);
    expect(asAmended?.querySelector('s')).toBeNull();
    expect(history()[0]).toHaveTextContent(
      /Amended: Read wrongly\.VA as reportedwas 3\.40 L BTPS → 3\.04 L BTPS/,
    );
  });

  it('leads from a failed run to its investigation, and from what looks into it to the same', async () => {
    const repeat = run(1, 3.41, {
      investigates: { runId: ids.run(0), check: 'repeat' },
      judged: judged('fail', 3.41),
    });
    const first = await opened(await storeWith(failed(), repeat, run(2, 3, { analyzerId: otherAnalyzerId })));
    const link = () => screen.queryByRole('link', { name: /investigation/i });
    expect(link()).toHaveAttribute('href', `/investigation/${ids.run(0)}`);
    first.unmount();
    const second = await opened(await storeWith(failed(), repeat), 1);
    expect(screen.getByText(/^Part of the/)).toHaveTextContent(
      'Part of the investigation of 5 Jan 2026, 09:00, made as a repeat.',
    );
    expect(link()).toHaveAttribute('href', `/investigation/${ids.run(0)}`);
    second.unmount();
    await opened(await storeWith(run(2, 3)), 2);
    expect(link()).not.toBeInTheDocument();
  });

  it('says so when the address names no run', async () => {
    await opened(await storeWith(), 99);
    expect(screen.getByText('This address names no run of the logbook.')).toBeInTheDocument();
  });

  it('gives axe nothing to find, as it stands and while it is amended', { timeout: 30_000 }, async () => {
    const { container, user } = await opened(await storeWith(failed(), amendment(0, content(0, 3.04))));
    expect(await axe(container)).toEqual([]);
    await user.click(button('Amend…'));
    expect(await axe(container)).toEqual([]);
  });
});

describe('amending a run', () => {
  it('fills in what was typed and shows what it changes and comes to', async () => {
    const { user } = await opened(await storeWith(failed()));
    await user.click(button('Amend…'));
    expect(screen.getByRole('form', { name: /^Amend the run of 5 Jan 2026/ })).toHaveFocus();
    expect(textbox('Alveolar volume, VA')).toHaveDisplayValue('3.4');
    expect(textbox('Barometric pressure')).toHaveDisplayValue('760');
    expect(whatChanges()).toHaveTextContent('Nothing yet.');
    expect(screen.getByText(/^This run opened a failure: VA, patient test/)).toBeInTheDocument();
    await retype(user, 'Alveolar volume, VA', '3.04');
    expect(whatChanges()).toHaveTextContent('VA as reportedwas 3.40 L BTPS → 3.04 L BTPS');
    expect(screen.getByRole('region', { name: 'Verdict as amended' })).toHaveTextContent(
      /It stands as Fail.*not written yet.*Pass.*Simulated VA is 40 mL high/,
    );
  });

  it('writes nothing without a reason, and goes to where it is missing', async () => {
    const handle = await storeWith(failed());
    const { user } = await opened(handle);
    await user.click(button('Amend…'));
    await retype(user, 'Alveolar volume, VA', '3.04');
    await user.click(button('Amend run'));
    expect(textbox('Reason for the amendment')).toHaveFocus();
    expect(textbox('Reason for the amendment')).toHaveAccessibleDescription('Say why it is amended.');
    expect(await amended(handle)).toEqual([]);
  });

  it('refuses when nothing is changed', async () => {
    const handle = await storeWith(failed());
    const { user } = await opened(handle);
    await user.click(button('Amend…'));
    await user.type(textbox('Reason for the amendment'), 'No reason at all.');
    await user.click(button('Amend run'));
    expect(screen.getByText('Nothing is changed: there is nothing to amend.')).toBeInTheDocument();
    expect(await amended(handle)).toEqual([]);
  });

  it('names a value that cannot be, as the bench does', async () => {
    const handle = await storeWith(failed());
    const { user } = await opened(handle);
    await user.click(button('Amend…'));
    await retype(user, 'Alveolar volume, VA', '33');
    await user.type(textbox('Reason for the amendment'), 'Read wrongly.');
    await user.click(button('Amend run'));
    expect(textbox('Alveolar volume, VA')).toHaveAccessibleDescription(/Was 3\.3 meant\?/);
    expect(await amended(handle)).toEqual([]);
  });

  it('appends the whole run with its verdict, and says Saved only after the commit', async () => {
    const handle = withSlowSaves(await storeWith(failed()));
    const { user } = await opened(handle);
    await user.click(button('Amend…'));
    await retype(user, 'Alveolar volume, VA', '3.04');
    await user.type(textbox('Reason for the amendment'), ' Read wrongly. ');
    await user.click(button('Amend run'));
    // Stored already, and not yet known to be: still no word of it.
    await waitFor(() => expect(entriesOf(handle).at(-1)?.kind).toBe('run-amended'));
    expect(screen.queryByText(/^Saved/)).not.toBeInTheDocument();
    handle.letGo();
    const saved = await screen.findByText(/^Saved: the run is amended/);
    await waitFor(() => expect(saved).toHaveFocus());
    expect(await amended(handle)).toMatchObject([
      {
        by: ids.supervisor,
        body: {
          runId: ids.run(0),
          reason: 'Read wrongly.',
          run: content(0, 3.04),
          judged: { word: 'pass', establishing: true, va: { value: expect.closeTo(3.04, 9), n: 0 } },
        },
      },
    ]);
    expect(fact('VA as reported')).toHaveTextContent(/now 3\.04 L BTPS$/);
    expect(history()).toHaveLength(2);
  });

  it('moves a run to another analyzer with that one’s conversion and units, and says so', async () => {
    const handle = await storeWith(failed());
    const { user } = await opened(handle);
    await user.click(button('Amend…'));
    await user.selectOptions(choice('Analyzer'), 'Room 5');
    expect(choice('Analyzer')).toHaveAccessibleDescription(
      /^Conversion, plunger and dead space are those of Room 5 as it was described on .*: VA is converted fixed factor 0\.91\./,
    );
    expect(choice('Unit of DLCO')).toHaveDisplayValue('mmol/min/kPa');
    expect(choice('Unit of pressure')).toHaveDisplayValue('mmHg');
    await user.type(textbox('Reason for the amendment'), 'Made on Room 5.');
    await user.click(button('Amend run'));
    await screen.findByText(/^Saved/);
    expect(await amended(handle)).toMatchObject([
      { body: { run: { analyzerId: 'analyzer-room-5', conversion: { kind: 'fixed', factor: 0.91 } } } },
    ]);
    expect(screen.getByRole('heading', { level: 1 })).toHaveTextContent('Room 5');
    expect(fact('Analyzer')).toHaveTextContent(/^was Room 2 IM/);
  });

  it('takes the analyzer’s own units back when it is chosen again', async () => {
    const { user } = await opened(await storeWith(failed()));
    await user.click(button('Amend…'));
    await user.selectOptions(choice('Analyzer'), 'Room 5');
    await user.selectOptions(choice('Analyzer'), 'Room 2');
    expect(choice('Unit of DLCO')).toHaveDisplayValue('mL/min/mmHg');
    expect(whatChanges()).toHaveTextContent('Nothing yet.');
  });

  it('asks before a run is written among others, and "yes" writes it', async () => {
    const handle = await storeWith(failed(), run(1, 3.4));
    const { user } = await opened(handle, 1);
    await user.click(button('Amend…'));
    await user.clear(textbox('Comment'));
    await user.type(textbox('Comment'), 'x');
    await user.type(textbox('Reason for the amendment'), 'Wrong week.');
    // A date input is not typed letter by letter: the browser hands over the whole of it.
    fireEvent.change(screen.getByLabelText('Made at'), { target: { value: '2026-01-04T00:00' } });
    await user.click(button('Amend run'));
    expect(screen.getByRole('alert')).toHaveTextContent(
      /Before this is amended.*this one is dated before it/,
    );
    expect(await amended(handle)).toEqual([]);
    await user.click(button('Yes, amend it'));
    await screen.findByText(/^Saved/);
    expect(await amended(handle)).toHaveLength(1);
  });

  it.each(['before', 'after'] as const)(
    'keeps what was typed when a save fails %s it reached the disk, and a second try writes one amendment',
    async (when) => {
      const handle = await storeWith(failed());
      const { user } = await opened(withOneFailure(handle, when));
      await user.click(button('Amend…'));
      await retype(user, 'Alveolar volume, VA', '3.04');
      await user.type(textbox('Reason for the amendment'), 'Read wrongly.');
      await user.click(button('Amend run'));
      expect(await screen.findByText('Not saved. The disk is full.')).toBeInTheDocument();
      expect(textbox('Alveolar volume, VA')).toHaveDisplayValue('3.04');
      await user.click(button('Amend run'));
      await screen.findByText(/^Saved/);
      expect(await amended(handle)).toHaveLength(1);
    },
  );

  it('is left with everything as it was', async () => {
    const handle = await storeWith(failed());
    const { user } = await opened(handle);
    await user.click(button('Amend…'));
    await retype(user, 'Alveolar volume, VA', '3.04');
    await user.click(button('Leave it'));
    expect(screen.getByRole('heading', { level: 1 })).toHaveFocus();
    await user.click(button('Void…'));
    await user.click(button('Leave it'));
    expect(screen.getByRole('heading', { level: 1 })).toHaveFocus();
    expect(fact('VA as reported')).toHaveTextContent(/^3\.40 L BTPS$/);
    expect(await amended(handle)).toEqual([]);
  });

  it('tells of an amendment that was made elsewhere meanwhile', async () => {
    const handle = await storeWith(failed());
    const { user } = await opened(handle);
    await user.click(button('Amend…'));
    await retype(user, 'Alveolar volume, VA', '3.04');
    await handle.appendEntries([amendment(0, content(0, 3.4, { comment: 'Cold room' }))]);
    expect(await screen.findByText(/^This run was amended elsewhere/)).toBeInTheDocument();
    expect(whatChanges()).toHaveTextContent(/3\.40 L BTPS → 3\.04 L BTPS.*Commentwas Cold room → –/);
  });
});

describe('voiding a run on its page', () => {
  it('strikes it through, and a voided run cannot be amended', async () => {
    const handle = await storeWith(failed());
    const { user } = await opened(handle);
    await user.click(button('Void…'));
    await user.type(textbox('Reason'), 'Hose loose');
    await user.click(button('Void run'));
    const saved = await screen.findByText(/^Saved: the run is voided/);
    await waitFor(() => expect(saved).toHaveFocus());
    expect(screen.getByText(/^Voided by IM,/)).toBeInTheDocument();
    expect(screen.getByText(/A voided run cannot be amended/)).toBeInTheDocument();
    expect(screen.queryByRole('button', { name: 'Amend…' })).not.toBeInTheDocument();
    expect(fact('VA as reported')?.querySelector('s')).toHaveTextContent('3.40 L BTPS');
    expect(history()[0]).toHaveTextContent('Voided: Hose loose');
  });

  it('elsewhere, while it is amended, stops the amendment', async () => {
    const handle = await storeWith(failed());
    const { user } = await opened(handle);
    await user.click(button('Amend…'));
    await retype(user, 'Alveolar volume, VA', '3.04');
    await user.type(textbox('Reason for the amendment'), 'Read wrongly.');
    await handle.appendEntries([draft('run-voided', { runId: ids.run(0), reason: 'Hose loose' })]);
    expect(await screen.findByText(/^It was voided meanwhile/)).toBeInTheDocument();
    await user.click(button('Amend run'));
    expect(await amended(handle)).toEqual([]);
  });
});

describe('the bench’s last runs', () => {
  const rows = () => within(screen.getByRole('table')).getAllByRole('row').slice(1);
  const shown = (handle: Parameters<typeof show>[0]) =>
    show(handle, <LastRuns analyzerId={ids.analyzer} route="patient-test" />);

  it('lead to each run by its date, and show both values and both verdicts of an amended one', async () => {
    await shown(await storeWith(failed(), amendment(0, content(0, 3.04))));
    const [row] = rows();
    expect(screen.getByRole('link', { name: '5 Jan 2026, 09:00' })).toHaveAttribute(
      'href',
      `/run/${ids.run(0)}`,
    );
    expect([...(row?.querySelectorAll('s') ?? [])].map(({ textContent }) => textContent)).toEqual([
      '3.400',
      expect.stringMatching(/^Fail/),
    ]);
    expect(row).toHaveTextContent(/on the day: Fail.*, as amended: Pass/);
  });

  it('keep a voided run, struck through', async () => {
    await shown(await storeWith(failed(), draft('run-voided', { runId: ids.run(0), reason: 'Hose loose' })));
    const [row] = rows();
    expect(row).toHaveTextContent('Voided');
    expect(row?.querySelector('s')).toHaveTextContent('5 Jan 2026');
  });
});
