import 'fake-indexeddb/auto';
import { act, screen, waitFor, within } from '@testing-library/react';
import type { UserEvent } from '@testing-library/user-event';
import { beforeEach, describe, expect, it } from 'vitest';
import { Route } from 'wouter';
import { foldJournal } from '../../../src/journal/fold.ts';
import { verifySignatures } from '../../../src/journal/signature.ts';
import type { LogbookHandle } from '../../../src/store/openLogbook.ts';
import { SignatureState } from '../../../src/views/records/signatureState.tsx';
import ReviewScreen from '../../../src/views/review/reviewScreen.tsx';
import RunScreen from '../../../src/views/run/runScreen.tsx';
import SignOffScreen from '../../../src/views/signOff/signOffScreen.tsx';
import { axe } from '../charts/axe.ts';
import { draft, ids, run } from '../laboratory.ts';
import { openStore, settledEntriesOf, show, staffed, takeInHand, withOneFailure } from '../onLogbook.tsx';
import { choosePassphrase, typePassphrase, whenSigned } from '../signing.ts';

const opened = (handle: LogbookHandle, path = '/sign-off') =>
  show(handle, <Route component={SignOffScreen} path="/sign-off/*?" />, path);
const press = (name: string) => screen.getByRole('button', { name });
const tick = (name: string | RegExp) => screen.getByRole('checkbox', { name });
const missing = () => within(screen.getByRole('region', { name: 'Still missing' })).getAllByRole('listitem');
const signedHeading = () => screen.findByRole('heading', { name: /^Signed off: / }, whenSigned);

async function storedEntries(handle: LogbookHandle) {
  await settledEntriesOf(handle);
  const snapshot = handle.getSnapshot();
  if (snapshot.state !== 'ready') throw new Error(`the logbook is ${snapshot.state}`);
  return snapshot.entries;
}
const signOffs = async (handle: LogbookHandle) =>
  (await storedEntries(handle)).filter((entry) => entry.kind === 'period-signed');

/** Room 2 first, then what is left on the laboratory's page. */
async function lookThrough(user: UserEvent) {
  await user.click(tick('Room 2: looked through'));
  await user.click(screen.getByRole('link', { name: 'The laboratory' }));
  await user.click(tick('The laboratory: looked through'));
}

async function signOff(handle: LogbookHandle) {
  const page = await opened(handle);
  await lookThrough(page.user);
  await choosePassphrase(page.user);
  await page.user.click(press('Sign off this period'));
  await signedHeading();
  return page;
}

const voided = (number: number) =>
  draft('run-voided', { runId: ids.run(number), reason: 'Leak at the tap.' });

beforeEach(() => takeInHand(ids.supervisor));

describe('the worklist', () => {
  it('lists what is new by analyzer, with a page for each, and axe finds nothing', async () => {
    const { container, user } = await opened(await openStore([...staffed(), run(0, 3.37), run(1, 3)]));
    expect(screen.getByRole('heading', { name: 'Room 2', level: 1 })).toBeInTheDocument();
    expect(screen.getByText(/^The signature covers 6 entries\./)).toBeInTheDocument();
    expect(within(screen.getByRole('region', { name: 'Room 2: new runs' })).getAllByRole('row')).toHaveLength(
      3,
    );
    expect(await axe(container)).toEqual([]);
    await user.click(screen.getByRole('link', { name: /^The laboratory \d+ new/ }));
    expect(screen.getByRole('heading', { name: 'The laboratory', level: 1 })).toBeInTheDocument();
    expect(screen.getByText(/^Supervisor IM, Ilse Marong, added/)).toBeInTheDocument();
  });

  it('says beside the field what is wrong with a period, and covers nothing then', async () => {
    const { user } = await opened(await openStore([...staffed(), run(0, 3)]));
    const to = screen.getByLabelText('Up to and including');
    await user.clear(to);
    expect(to).toHaveAccessibleDescription(/^Choose a date/);
    await user.type(to, '2099-01-01');
    expect(to).toHaveAccessibleDescription(/^It cannot end after today/);
    expect(screen.queryByText(/^The signature covers/)).not.toBeInTheDocument();
    await user.click(press('Sign off this period'));
    expect(screen.getByText(/^Nothing is signed yet/)).toBeInTheDocument();
  });
});

describe('signing', () => {
  it('is refused while something is missing, which is listed and goes as it is ticked', async () => {
    const handle = await openStore([...staffed(), run(0, 3.37)]);
    const { user } = await opened(handle);
    expect(missing().map(({ textContent }) => textContent)).toEqual([
      'Room 2 is not ticked as looked through.',
      'The open failure of Room 2, VA by patient test, is not ticked as seen.',
      'The laboratory is not ticked as looked through.',
    ]);
    await choosePassphrase(user);
    await user.click(press('Sign off this period'));
    expect(screen.getByText(/^Nothing is signed yet/)).toBeInTheDocument();
    await lookThrough(user);
    expect(missing()).toHaveLength(1);
    await user.click(tick(/^Room 2, VA, patient test: open for 1 run/));
    expect(screen.queryByRole('region', { name: 'Still missing' })).not.toBeInTheDocument();
    expect(await signOffs(handle)).toEqual([]);
  });

  it('covers exactly the entries listed, and says that the signature verifies', async () => {
    const handle = await openStore([...staffed(), run(0, 3)]);
    const listed = await storedEntries(handle);
    const { user } = await opened(handle);
    await user.type(screen.getByRole('textbox', { name: 'On Room 2' }), 'Steady.');
    await user.type(screen.getByRole('textbox', { name: 'On the whole' }), 'A quiet month.');
    await lookThrough(user);
    await choosePassphrase(user);
    await user.click(press('Sign off this period'));
    expect(await signedHeading()).toHaveFocus();
    expect(await screen.findByText(/^Signed by IM, verified/)).toBeInTheDocument();
    expect(screen.getByText('Steady.')).toBeInTheDocument();
    const [signed] = await signOffs(handle);
    const head = listed.at(-1);
    expect(signed?.body).toMatchObject({
      analyzers: [{ analyzerId: ids.analyzer, comment: 'Steady.' }],
      comment: 'A quiet month.',
      heads: [{ workstation: head?.workstation, seq: listed.length, hash: head?.hash }],
    });
    const entries = await storedEntries(handle);
    const checks = await verifySignatures(entries, foldJournal(entries).keys);
    expect(checks.map(({ verdict }) => verdict)).toEqual(['valid']);
    // The list, and a form that has nothing left to sign.
    expect(screen.getByRole('link', { name: /5 entries, verified$/ })).toBeInTheDocument();
    expect(
      screen.getByText('Nothing is new in this period but the last sign-off itself.'),
    ).toBeInTheDocument();
    expect(screen.queryByRole('button', { name: 'Sign off this period' })).not.toBeInTheDocument();
  });

  it('tried again after a save that was reported as failed, it signs once', async () => {
    const handle = await openStore([...staffed(), run(0, 3)]);
    const { user } = await opened(withOneFailure(handle, 'before'));
    await lookThrough(user);
    await choosePassphrase(user);
    await user.click(press('Sign off this period'));
    await screen.findByText(/^Not saved\./, {}, whenSigned);
    await user.click(press('Sign off this period'));
    await signedHeading();
    expect(await signOffs(handle)).toHaveLength(1);
  });

  it('asks again for a page about which something came in after it was ticked', async () => {
    const handle = await openStore([...staffed(), run(0, 3)]);
    const { user } = await opened(handle);
    await lookThrough(user);
    expect(screen.queryByRole('region', { name: 'Still missing' })).not.toBeInTheDocument();
    await act(() => handle.appendEntries([run(1, 3)]));
    expect(missing().map(({ textContent }) => textContent)).toEqual([
      'Room 2 is not ticked as looked through.',
    ]);
  });

  it('keeps what was ticked and typed over a reload, and begins empty once it is signed', async () => {
    const handle = await openStore([...staffed(), run(0, 3)]);
    const before = await opened(handle);
    await before.user.type(screen.getByRole('textbox', { name: 'On Room 2' }), 'Steady.');
    await before.user.click(tick('Room 2: looked through'));
    before.unmount();
    const { user } = await opened(handle);
    expect(await screen.findByDisplayValue('Steady.')).toBeInTheDocument();
    expect(tick('Room 2: looked through')).toBeChecked();
    await user.click(screen.getByRole('link', { name: 'The laboratory' }));
    await user.click(tick('The laboratory: looked through'));
    await choosePassphrase(user);
    await user.click(press('Sign off this period'));
    await signedHeading();
    await act(() => handle.appendEntries([run(1, 3)]));
    await user.click(screen.getByRole('link', { name: /^Room 2 1 new/ }));
    expect(screen.getByRole('textbox', { name: 'On Room 2' })).toHaveDisplayValue('');
    expect(tick('Room 2: looked through')).not.toBeChecked();
  });

  it('is for supervisors', async () => {
    takeInHand(ids.technologist);
    const handle = await openStore([...staffed(), run(0, 3)]);
    const { user } = await opened(handle);
    await lookThrough(user);
    await user.click(press('Sign off this period'));
    expect(screen.getByLabelText('Supervisor')).toHaveAccessibleDescription(/needs a supervisor/);
    expect(await signOffs(handle)).toEqual([]);
  });

  it('a second period begins with what came in since, and takes the passphrase that is there', async () => {
    const handle = await openStore([...staffed(), run(0, 3)]);
    const first = await signOff(handle);
    await act(() => handle.appendEntries([run(1, 3)]));
    await first.user.click(screen.getByRole('link', { name: /^Room 2 1 new/ }));
    await lookThrough(first.user);
    await typePassphrase(first.user);
    await first.user.click(press('Sign off this period'));
    await waitFor(async () => expect(await signOffs(handle)).toHaveLength(2), whenSigned);
    const entries = await storedEntries(handle);
    const logbook = foldJournal(entries);
    const recorded = entries.find(
      (entry) => entry.kind === 'run-recorded' && entry.body.runId === ids.run(1),
    );
    expect(logbook.signOffs.at(-1)?.body.heads[0]?.hash).toBe(recorded?.hash);
  });
});

describe('what was signed and changed since', () => {
  it('is flagged under Sign-off, in Review and on the page of the run', async () => {
    const handle = await openStore([...staffed(), run(0, 3), run(1, 3)]);
    (await signOff(handle)).unmount();
    await handle.appendEntries([voided(0)]);
    const here = await opened(handle);
    expect(screen.getByText(/: voided after the sign-off of /)).toBeInTheDocument();
    expect(await axe(here.container)).toEqual([]);
    here.unmount();
    const review = await show(handle, <Route component={ReviewScreen} path="/review/*?" />, '/review');
    expect(screen.getByText('1 change to what was signed off')).toBeInTheDocument();
    review.unmount();
    const page = await show(handle, <Route component={RunScreen} path="/run/:runId" />, `/run/${ids.run(0)}`);
    expect(screen.getByText(/^Voided after the sign-off of /)).toBeInTheDocument();
    expect(screen.getByText('No sign-off covers the change yet.')).toBeInTheDocument();
    page.unmount();
    await show(handle, <Route component={RunScreen} path="/run/:runId" />, `/run/${ids.run(1)}`);
    expect(screen.getByText(/^Signed off on /)).toBeInTheDocument();
    expect(screen.queryByText(/after the sign-off of/)).not.toBeInTheDocument();
  });
});

describe('the signatures of the journal', () => {
  it('count sign-offs apart from closings', async () => {
    const handle = await openStore([...staffed(), run(0, 3)]);
    (await signOff(handle)).unmount();
    await show(handle, <SignatureState />);
    const figure = (name: string) => screen.getByText(name).nextElementSibling;
    expect(await screen.findByText('Sign-offs')).toBeInTheDocument();
    await screen.findByText('Signed and verified');
    expect(figure('Closings')).toHaveTextContent('0');
    expect(figure('Sign-offs')).toHaveTextContent('1');
    expect(figure('Signed and verified')).toHaveTextContent('1');
  });
});
