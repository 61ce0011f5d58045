import 'fake-indexeddb/auto';
import { screen, within } from '@testing-library/react';
import { beforeEach, describe, expect, it } from 'vitest';
import { Route } from 'wouter';
import type { EntryDraft } from '../../../src/journal/entries.ts';
import { foldJournal } from '../../../src/journal/fold.ts';
import { verifySignatures } from '../../../src/journal/signature.ts';
import type { LogbookHandle } from '../../../src/store/openLogbook.ts';
import ReviewScreen from '../../../src/views/review/reviewScreen.tsx';
import { axe } from '../charts/axe.ts';
import { biological, controlId, session, subjectAdded } from '../controlDrafts.ts';
import { ids, run, tenGoodRuns } from '../laboratory.ts';
import { openStore, settledEntriesOf, show, staffed, takeInHand } from '../onLogbook.tsx';
import { choosePassphrase, whenSigned } from '../signing.ts';

const sixTests = () => [24.6, 25.4, 24.8, 25.2, 24.9, 25.1].map((dlco, index) => biological(index, dlco));
/** A good run on the day of a test that is 3.50 mL/min/mmHg above the mean of the first six. */
const off = () => [subjectAdded(), ...sixTests(), ...tenGoodRuns(), run(10, 3), biological(10, 28.5)];
const opened = (handle: LogbookHandle, path = '/review') =>
  show(handle, <Route component={ReviewScreen} path="/review/*?" />, path);
const inLogbook = (...drafts: EntryDraft[]) => openStore([...staffed(), ...drafts]);
const textbox = (name: string | RegExp) => screen.getByRole('textbox', { name });
const close = () => screen.getByRole('button', { name: 'Close failure' });
type User = Awaited<ReturnType<typeof show>>['user'];

async function say(user: User) {
  await user.type(textbox('What the cause was'), 'Mouthpiece leaked.');
  await user.type(textbox('What was done'), 'Replaced.');
  await user.type(textbox('Patients tested meanwhile'), 'Four, none affected.');
}

beforeEach(() => takeInHand(ids.supervisor));

describe('an open failure of controls', () => {
  it('stands under a heading of its own, and its story beside it', async () => {
    await opened(await inLogbook(...off()));
    const list = screen.getByRole('heading', { name: 'Open failures of controls' }).closest('section');
    expect(within(list ?? document.body).getByRole('link', { name: /^Room 2, DLCO, B1/ })).toHaveAttribute(
      'href',
      `/review/control/${controlId(10)}/dlco`,
    );
    expect(
      screen.getByRole('heading', { level: 1, name: 'DLCO, B1, Room 2, biological control' }),
    ).toBeInTheDocument();
    expect(screen.getByText(/^DLCO is 3.50 mL\/min\/mmHg \(14.0 %\) above/)).toBeInTheDocument();
    expect(screen.getByText(/^The syringe finds nothing/)).toBeInTheDocument();
    expect(
      within(screen.getByRole('region', { name: 'Tests while it was open' })).getAllByRole('row'),
    ).toHaveLength(2);
    expect(screen.getByRole('link', { name: 'Enter a biological control' })).toHaveAttribute(
      'href',
      `/control/biological/${ids.analyzer}`,
    );
  });

  it('comes after an open failure of a run, and is opened by its address', async () => {
    const handle = await inLogbook(...off(), run(11, 3.37));
    const { unmount } = await opened(handle);
    expect(screen.getByRole('heading', { level: 1, name: 'VA of Room 2' })).toBeInTheDocument();
    unmount();
    await opened(handle, `/review/control/${controlId(10)}/dlco`);
    expect(screen.getByRole('heading', { level: 1, name: /^DLCO, B1/ })).toBeInTheDocument();
  });

  it('has nothing that axe finds wrong', { timeout: 30_000 }, async () => {
    const { container, user } = await opened(await inLogbook(...off()));
    await user.click(close());
    expect(await axe(container)).toEqual([]);
  });
});

describe('closing it', () => {
  it('asks for what is missing, and why where no later test has passed', async () => {
    const handle = await inLogbook(...off());
    const { user } = await opened(handle);
    const before = (await settledEntriesOf(handle)).length;
    await user.click(close());
    expect(textbox('What the cause was')).toHaveFocus();
    expect(textbox('What was done')).toHaveAccessibleDescription(/^Say what was done/);
    expect(textbox(/^Why without a passing test of DLCO of B1/)).toHaveAccessibleDescription(/^Say why/);
    expect(screen.getByText('Not closed yet: see the marked fields.')).toBeInTheDocument();
    expect(await settledEntriesOf(handle)).toHaveLength(before);
  });

  it('is signed, and shows what it says and that the signature is verified', async () => {
    const handle = await inLogbook(...off(), biological(11, 25));
    const { user } = await opened(handle);
    expect(screen.queryByRole('textbox', { name: /^Why without/ })).not.toBeInTheDocument();
    expect(screen.getByText('1 passing test since the last that failed.')).toBeInTheDocument();
    await say(user);
    await choosePassphrase(user);
    await user.click(close());
    await screen.findByRole('heading', { name: 'Closed' }, whenSigned);
    expect(await screen.findByText(/^Signed by IM, verified/)).toBeInTheDocument();
    expect(screen.getByText('Four, none affected.')).toBeInTheDocument();
    expect(screen.getByRole('heading', { name: 'Ended, of controls' })).toBeInTheDocument();
    const snapshot = handle.getSnapshot();
    if (snapshot.state !== 'ready') throw new Error(`the logbook is ${snapshot.state}`);
    const checks = await verifySignatures(snapshot.entries, foldJournal(snapshot.entries).keys);
    expect(checks.map(({ verdict, entry }) => [entry.kind, verdict])).toEqual([['control-closed', 'valid']]);
  });

  it('takes the other level of the simulator with it, and writes down why without a passing session', async () => {
    const handle = await inLogbook(session(0, { low: 2.4, high: 2.6 }));
    const { user } = await opened(handle, `/review/control/${controlId(0)}/low`);
    await say(user);
    await user.click(
      screen.getByRole('checkbox', { name: 'Close the failure of high level of the simulator with it' }),
    );
    await user.type(textbox(/^Why without a passing session of low level .*, high level/), 'It went back.');
    await choosePassphrase(user);
    await user.click(close());
    await screen.findByRole('heading', { name: 'Closed' }, whenSigned);
    expect((await settledEntriesOf(handle)).at(-1)).toMatchObject({
      kind: 'control-closed',
      body: {
        correctiveAction: 'Replaced. Closed without a passing test: It went back.',
        failures: [{ series: { level: 'low' } }, { series: { level: 'high' } }],
      },
    });
    expect(screen.queryByRole('heading', { name: 'Open failures of controls' })).not.toBeInTheDocument();
  });
});
