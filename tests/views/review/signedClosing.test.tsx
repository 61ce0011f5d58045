import 'fake-indexeddb/auto';
import { screen, waitFor } from '@testing-library/react';
import { beforeEach, describe, expect, it } from 'vitest';
import { Route } from 'wouter';
import type { EntryDraft } from '../../../src/journal/entries.ts';
import { foldJournal } from '../../../src/journal/fold.ts';
import { verifySignatures } from '../../../src/journal/signature.ts';
import { prepareKey } from '../../../src/store/keys.ts';
import type { LogbookHandle } from '../../../src/store/openLogbook.ts';
import { listFailures, openFailures } from '../../../src/views/failures.ts';
import { useLogbook } from '../../../src/views/logbookContext.tsx';
import { CloseTogether } from '../../../src/views/parts/closeTogether.tsx';
import ReviewScreen from '../../../src/views/review/reviewScreen.tsx';
import { analyzerAdded } from '../../journal/fixtures.ts';
import { closingRules, closure, draft, ids, run, week } from '../laboratory.ts';
import { openStore, settledEntriesOf, show, staffed, takeInHand, withOneFailure } from '../onLogbook.tsx';
import { choosePassphrase, passphrase, typePassphrase, whenSigned } from '../signing.ts';

const textbox = (name: string) => screen.getByRole('textbox', { name });
const press = (name: string) => screen.getByRole('button', { name });
const closed = () => screen.findByRole('heading', { name: 'Closed' }, whenSigned);
const opened = (handle: LogbookHandle, path = '/review') =>
  show(handle, <Route component={ReviewScreen} path="/review/*?" />, path);
/** Proven by a run half a week later, and nothing else is asked for. */
const outOfLimits = (...drafts: EntryDraft[]) =>
  openStore([...staffed(), run(0, 3.37), run(0.5, 3), closingRules(), ...drafts]);
/** What the form asks for beside the passphrase. */
async function say(user: Awaited<ReturnType<typeof show>>['user']) {
  await user.type(textbox('What the cause was'), 'A loose coupling.');
  await user.type(textbox('Why it may be closed'), 'The next run lies inside.');
}

async function registered(handle: LogbookHandle, typed = passphrase, reason = '') {
  const key = await prepareKey(handle, { technologistId: ids.supervisor, passphrase: typed, reason });
  await handle.appendEntries([key]);
  return key;
}

async function kinds(handle: LogbookHandle) {
  const entries = await settledEntriesOf(handle);
  return entries.map(({ kind }) => kind).slice(staffed().length + 3);
}

async function verdicts(handle: LogbookHandle) {
  const snapshot = handle.getSnapshot();
  if (snapshot.state !== 'ready') throw new Error(`the logbook is ${snapshot.state}`);
  const checks = await verifySignatures(snapshot.entries, foldJournal(snapshot.entries).keys);
  return checks.map(({ verdict }) => verdict);
}

beforeEach(() => takeInHand(ids.supervisor));

describe('a supervisor without a key here', () => {
  it('cannot close without choosing a passphrase, and is told what is missing', async () => {
    const handle = await outOfLimits();
    const { user } = await opened(handle);
    expect(
      screen.getByText(/^A supervisor signs with a passphrase of their own, and IM has none yet/),
    ).toBeInTheDocument();
    await say(user);
    await user.click(press('Close failure'));
    expect(screen.getByLabelText('New passphrase')).toHaveFocus();
    expect(screen.getByLabelText('New passphrase')).toHaveAccessibleDescription(
      /^Choose a passphrase of 8 characters or more/,
    );
    expect(screen.getByText('Not closed yet: see the marked fields.')).toBeInTheDocument();
    expect(await kinds(handle)).toEqual([]);
  });

  it('types it twice: a slip writes nothing and keeps the words', async () => {
    const handle = await outOfLimits();
    const { user } = await opened(handle);
    await say(user);
    await choosePassphrase(user, passphrase, 'four grey heron');
    await user.click(press('Close failure'));
    expect(screen.getByLabelText('The same again')).toHaveAccessibleDescription(/^The two differ/);
    expect(textbox('Why it may be closed')).toHaveDisplayValue('The next run lies inside.');
    expect(await kinds(handle)).toEqual([]);
  });

  it('registers the key and closes in one save, and the page says that it is verified', async () => {
    const handle = await outOfLimits();
    const { user } = await opened(handle);
    await say(user);
    await choosePassphrase(user);
    await user.click(press('Close failure'));
    await closed();
    expect(await screen.findByText(/^Signed by IM, verified, with the key of/)).toBeInTheDocument();
    expect(await kinds(handle)).toEqual(['key-registered', 'failure-closed']);
    expect(await verdicts(handle)).toEqual(['valid']);
  });

  it('closes what a run opened that is dated ahead of this clock', async () => {
    const madeAt = new Date(Date.now() + 3_600_000).toISOString();
    const provenAt = new Date(Date.now() + 3_700_000).toISOString();
    const handle = await openStore([
      ...staffed(),
      run(0, 3.37, { madeAt }),
      run(1, 3, { madeAt: provenAt }),
      closingRules(),
    ]);
    const { user } = await opened(handle);
    await say(user);
    await choosePassphrase(user);
    await user.click(press('Close failure'));
    await closed();
    expect((await settledEntriesOf(handle)).at(-1)).toMatchObject({ body: { closedAt: provenAt } });
  });

  it('pressed twice, it is closed once', async () => {
    const handle = await outOfLimits();
    const { user } = await opened(handle);
    await say(user);
    await choosePassphrase(user);
    await user.dblClick(press('Close failure'));
    await closed();
    expect(await kinds(handle)).toEqual(['key-registered', 'failure-closed']);
  });
});

describe('a supervisor with a key here', () => {
  it('does not close with an empty passphrase', async () => {
    const handle = await outOfLimits();
    await registered(handle);
    const { user } = await opened(handle);
    await screen.findByLabelText('Passphrase');
    await say(user);
    await user.click(press('Close failure'));
    expect(screen.getByLabelText('Passphrase')).toHaveFocus();
    expect(screen.getByLabelText('Passphrase')).toHaveAccessibleDescription(/^Type your passphrase/);
    expect(await kinds(handle)).toEqual(['key-registered']);
  });

  it('a wrong passphrase writes nothing, keeps the words and empties the field; the right one then closes', async () => {
    const handle = await outOfLimits();
    await registered(handle);
    const { user } = await opened(handle);
    await typePassphrase(user, 'four grey heron');
    await say(user);
    await user.click(press('Close failure'));
    await screen.findByText(/^This is not the passphrase registered on this workstation/, {}, whenSigned);
    const field = screen.getByLabelText('Passphrase');
    expect(field).toHaveAccessibleDescription(/^This is not the passphrase/);
    expect(field).toHaveFocus();
    expect(field).toHaveDisplayValue('');
    expect(textbox('Why it may be closed')).toHaveDisplayValue('The next run lies inside.');
    expect(await kinds(handle)).toEqual(['key-registered']);
    await typePassphrase(user);
    await user.click(press('Close failure'));
    await closed();
    expect(await verdicts(handle)).toEqual(['valid']);
  });

  it('a save reported as failed although it was stored shows as closed, once', async () => {
    const handle = await outOfLimits();
    await registered(handle);
    const { user } = await opened(withOneFailure(handle, 'after'));
    await typePassphrase(user);
    await say(user);
    await user.click(press('Close failure'));
    await closed();
    expect(await kinds(handle)).toEqual(['key-registered', 'failure-closed']);
  });

  it('a save that could not be stored is tried again with what was typed, passphrase included', async () => {
    const handle = await outOfLimits();
    await registered(handle);
    const { user } = await opened(withOneFailure(handle, 'before'));
    await typePassphrase(user);
    await say(user);
    await user.click(press('Close failure'));
    await screen.findByText(/^Not saved\./, {}, whenSigned);
    expect(screen.getByLabelText('Passphrase')).toHaveDisplayValue(passphrase);
    await user.click(press('Close failure'));
    await closed();
    expect(await verdicts(handle)).toEqual(['valid']);
  });

  it('who forgot it chooses a new one with a reason, in the same step', async () => {
    const handle = await outOfLimits();
    await registered(handle);
    const { user } = await opened(handle);
    await user.click(await screen.findByRole('button', { name: 'Forgotten…' }));
    expect(screen.getByLabelText('New passphrase')).toHaveFocus();
    await user.click(press('Use the old passphrase'));
    expect(screen.getByLabelText('Passphrase')).toHaveFocus();
    await user.click(press('Forgotten…'));
    await say(user);
    await choosePassphrase(user, 'five white swans');
    await user.click(press('Close failure'));
    expect(textbox('Why a new one')).toHaveAccessibleDescription(/^Say why a new one is needed/);
    await user.type(textbox('Why a new one'), 'Forgotten over the summer.');
    await user.click(press('Close failure'));
    await closed();
    expect(await kinds(handle)).toEqual(['key-registered', 'key-registered', 'failure-closed']);
    expect(await verdicts(handle)).toEqual(['valid']);
    expect((await settledEntriesOf(handle)).at(-2)?.body).toMatchObject({
      reason: 'Forgotten over the summer.',
    });
  });
});

/** Every open failure, in the form that closes them together. */
function Together() {
  const { logbook, assessments } = useLogbook();
  return <CloseTogether failures={openFailures(listFailures(logbook, assessments))} />;
}

describe('closing failures of several analyzers together', () => {
  const twoAnalyzers = () =>
    outOfLimits(
      draft('analyzer-added', { ...analyzerAdded, analyzerId: 'analyzer-room-3', label: 'Room 3' }),
      run(1, 3.4, { analyzerId: 'analyzer-room-3' }),
    );

  it('takes the passphrase once and signs each closing', async () => {
    const handle = await twoAnalyzers();
    await registered(handle);
    const { user } = await show(handle, <Together />);
    await typePassphrase(user);
    await user.type(textbox('Why they may be closed'), 'Dealt with at the time.');
    await user.click(press('Close 2 failures'));
    await waitFor(async () => expect(await verdicts(handle)).toEqual(['valid', 'valid']), whenSigned);
  });

  it('leaves no passphrase in the field for the next signature', async () => {
    const handle = await twoAnalyzers();
    await registered(handle);
    const { user } = await show(handle, <Together />);
    await typePassphrase(user);
    await user.type(textbox('Why they may be closed'), 'Dealt with at the time.');
    await user.click(screen.getByRole('checkbox', { name: /^Room 3/ }));
    await user.click(press('Close 1 failure'));
    await waitFor(() => expect(screen.getByLabelText('Passphrase')).toHaveDisplayValue(''), whenSigned);
    expect(await verdicts(handle)).toEqual(['valid']);
  });
});

describe('the story of a closed failure', () => {
  it('says that a closing is not signed', async () => {
    await opened(await outOfLimits(closure(0, week(1))));
    expect(await screen.findByText('Not signed.')).toBeInTheDocument();
  });

  it('names what is wrong with a signature', async () => {
    const handle = await outOfLimits();
    const { body } = await registered(handle);
    const closing = closure(0, week(1));
    if (closing.kind !== 'failure-closed') throw new Error('not a closing');
    const signature = { keyId: body.keyId, value: btoa('\0'.repeat(64)) };
    await handle.appendEntries([{ ...closing, body: { ...closing.body, signature } }]);
    await opened(handle);
    expect(await screen.findByText(/^The signature is not one of IM for these words/)).toBeInTheDocument();
  });
});

describe('a copy of the journal', () => {
  it('verifies in a fresh profile, where the same person is asked for another key', async () => {
    // VA 370 mL high and DLCO not below 0.5: two failures, of which one is closed.
    const handle = await openStore([...staffed(), run(0, 3.37, { dlco: 0.6 }), run(0.5, 3), closingRules()]);
    const here = await opened(handle, `/review/${ids.run(0)}/va`);
    await say(here.user);
    await choosePassphrase(here.user);
    await here.user.click(press('Close failure'));
    await closed();
    const snapshot = handle.getSnapshot();
    if (snapshot.state !== 'ready') throw new Error(`the logbook is ${snapshot.state}`);
    here.unmount();

    const copy = await openStore();
    await copy.adoptEntries(structuredClone(snapshot.rawRows));
    const there = await opened(copy, `/review/${ids.run(0)}/va`);
    expect(await screen.findByText(/^Signed by IM, verified/)).toBeInTheDocument();
    there.unmount();
    await opened(copy, `/review/${ids.run(0)}/dlco`);
    expect(await screen.findByText(/^IM has registered a passphrase on another workstation/)).toBeVisible();
    expect(screen.queryByLabelText('Passphrase')).not.toBeInTheDocument();
  });
});
