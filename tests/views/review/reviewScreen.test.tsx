import 'fake-indexeddb/auto';
import { screen, within } from '@testing-library/react';
import { beforeEach, describe, expect, it } from 'vitest';
import { Route } from 'wouter';
import type { EntryDraft } from '../../../src/journal/entries.ts';
import ReviewScreen from '../../../src/views/review/reviewScreen.tsx';
import { actionTaken, closingRules, ids, run, tenGoodRuns, week } from '../laboratory.ts';
import { openStore, settledEntriesOf, show, staffed, takeInHand } from '../onLogbook.tsx';
import { choosePassphrase, whenSigned } from '../signing.ts';

const textbox = (name: string) => screen.getByRole('textbox', { name });
const closeButton = () => screen.getByRole('button', { name: 'Close failure' });
async function closures(handle: Parameters<typeof show>[0]) {
  const entries = await settledEntriesOf(handle);
  return entries.filter(({ kind }) => kind === 'failure-closed');
}

const opened = (handle: Parameters<typeof show>[0], path = '/review') =>
  show(handle, <Route component={ReviewScreen} path="/review/*?" />, path);

/** VA 370 mL high and DLCO not below 0.5 in one run: two failures. */
const bothOut = () => run(0, 3.37, { dlco: 0.6 });

/** Proven by a run half a week later, and nothing else is asked for. */
const proven = (failing: EntryDraft) => [...staffed(), failing, run(0.5, 3), closingRules()];

async function say(user: Awaited<ReturnType<typeof show>>['user']) {
  await user.type(textbox('What the cause was'), 'A cracked sample line.');
  await user.type(textbox('Why it may be closed'), 'The next run lies inside.');
}

beforeEach(() => takeInHand(ids.supervisor));

describe('the review', () => {
  it('says what will stand there while there is no failure', async () => {
    await opened(await openStore([...staffed(), run(0, 3)]));
    expect(screen.getByText(/^None\. A failure opens by itself/)).toBeInTheDocument();
    expect(screen.getByText(/The story of a failure stands here/)).toBeInTheDocument();
  });

  it('tells what opened a failure and the runs made meanwhile', async () => {
    await opened(await openStore([...staffed(), run(0, 3), run(1, 3.37), run(2, 3.02)]));
    expect(screen.getByRole('heading', { level: 1, name: 'VA of Room 2' })).toBeInTheDocument();
    expect(screen.getByText('Simulated VA is outside the published 300 mL.')).toBeInTheDocument();
    expect(screen.getByRole('link', { name: /^Look into it/ })).toHaveAttribute(
      'href',
      `/investigation/${ids.run(1)}`,
    );
    const [, ...rows] = within(screen.getByRole('table')).getAllByRole('row');
    expect(rows.map((row) => within(row).getAllByRole('cell')[1]?.textContent)).toEqual(['3.370', '3.020']);
  });

  // z of 3.2 is 9.3: beyond 2 and 3 SD, and both running sums jump; only 1-3s is an action rule.
  it('names what opened a failure, not the rules that only warned at the same run', async () => {
    await opened(await openStore([...staffed(), ...tenGoodRuns(), run(10, 3.2)]));
    expect(screen.getByText(/^VA: 1-3s,/)).toBeInTheDocument();
    expect(screen.queryByText(/^VA: (1-2s|EWMA|CUSUM),/)).not.toBeInTheDocument();
    expect(screen.getByRole('cell', { name: /1-3s.*EWMA/ })).toBeInTheDocument();
  });

  it('offers to close failures of imported runs together, and no others', async () => {
    const imported = { origin: { kind: 'import' as const, batchId: 'batch-of-history', row: 2 } };
    const handle = await openStore([...staffed(), run(0, 3.37, { dlco: 0.6, ...imported })]);
    const { unmount } = await opened(handle);
    expect(screen.getByText('Close 2 failures of imported runs together')).toBeInTheDocument();
    expect(screen.getByRole('button', { name: 'Close 2 failures', hidden: true })).toBeInTheDocument();
    unmount();
    await opened(await openStore([...staffed(), bothOut()]));
    expect(screen.queryByText(/failures of imported runs together/)).not.toBeInTheDocument();
  });

  it('opens the failure that the address names', async () => {
    const handle = await openStore([...staffed(), bothOut()]);
    await opened(handle, `/review/${ids.run(0)}/dlco`);
    expect(screen.getByRole('heading', { level: 1, name: 'DLCO of Room 2' })).toBeInTheDocument();
    expect(screen.getByText('DLCO is not below the published 0.5 mL/min/mmHg.')).toBeInTheDocument();
  });
});

describe('closing a failure', () => {
  it('needs a reason, and goes to where it is missing', async () => {
    const handle = await openStore(proven(run(0, 3.37)));
    const { user } = await opened(handle);
    await user.type(textbox('What the cause was'), 'A cracked sample line.');
    await user.click(closeButton());
    expect(textbox('Why it may be closed')).toHaveFocus();
    expect(textbox('Why it may be closed')).toHaveAccessibleDescription(
      /^Say why the analyzer can be trusted again/,
    );
    expect(textbox('What the cause was')).toHaveDisplayValue('A cracked sample line.');
    expect(await closures(handle)).toEqual([]);
  });

  it('needs a supervisor: a technologist in hand is not offered', async () => {
    takeInHand(ids.technologist);
    const handle = await openStore(proven(run(0, 3.37)));
    const { user } = await opened(handle);
    const supervisor = screen.getByRole('combobox', { name: 'Supervisor' });
    expect(within(supervisor).queryByRole('option', { name: /Orla Fenn/ })).not.toBeInTheDocument();
    await say(user);
    await user.click(closeButton());
    expect(supervisor).toHaveAccessibleDescription('This needs a supervisor.');
    expect(await closures(handle)).toEqual([]);
    await user.selectOptions(supervisor, ids.supervisor);
    await choosePassphrase(user);
    await user.click(closeButton());
    await screen.findByRole('heading', { name: 'Closed' }, whenSigned);
    expect(await closures(handle)).toHaveLength(1);
  });

  it('stays with the failure that was closed while another one is open', async () => {
    const handle = await openStore([...proven(run(0, 3.37)), run(-1, 3.37, { route: 'built-in' })]);
    const { user } = await opened(handle);
    await say(user);
    await choosePassphrase(user);
    await user.click(closeButton());
    expect(await screen.findByRole('heading', { name: 'Closed' }, whenSigned)).toBeInTheDocument();
    expect(screen.getByText('The next run lies inside.')).toBeInTheDocument();
  });

  it('keeps who, what and why, and says so on the page', async () => {
    const handle = await openStore([...proven(run(0, 3.37)), actionTaken(0, week(0.2))]);
    const { user } = await opened(handle);
    await say(user);
    await choosePassphrase(user);
    await user.click(closeButton());
    expect(await screen.findByRole('heading', { name: 'Closed' }, whenSigned)).toBeInTheDocument();
    expect(screen.getByText('IM, Ilse Marong')).toBeInTheDocument();
    expect(screen.getByText('A cracked sample line.')).toBeInTheDocument();
    expect(screen.getByText('The next run lies inside.')).toBeInTheDocument();
    expect((await closures(handle))[0]).toMatchObject({
      by: ids.supervisor,
      body: {
        failures: [{ method: 'syringe', route: 'patient-test', quantity: 'va', openedByRunId: ids.run(0) }],
        cause: 'A cracked sample line.',
        correctiveAction: 'Sample line replaced.',
        proofRunIds: [ids.run(0.5)],
      },
    });
  });

  it('closes the other failure of the analyzer with it when that is ticked', async () => {
    const handle = await openStore(proven(bothOut()));
    const { user } = await opened(handle, `/review/${ids.run(0)}/va`);
    await say(user);
    await user.click(screen.getByRole('checkbox', { name: 'Close DLCO, patient test, with it' }));
    await choosePassphrase(user);
    await user.click(closeButton());
    expect(await screen.findByText(/^None\. A failure opens by itself/, {}, whenSigned)).toBeInTheDocument();
    expect(await closures(handle)).toHaveLength(1);
    expect((await closures(handle))[0]?.body).toMatchObject({
      failures: [{ quantity: 'va' }, { quantity: 'dlco' }],
    });
  });

  it('leaves the other open when it is not', async () => {
    const handle = await openStore(proven(bothOut()));
    const { user } = await opened(handle, `/review/${ids.run(0)}/va`);
    await say(user);
    await choosePassphrase(user);
    await user.click(closeButton());
    expect(await screen.findByRole('heading', { name: 'Closed' }, whenSigned)).toBeInTheDocument();
    const open = screen.getByRole('heading', { name: 'Open failures' }).parentElement;
    expect(within(open ?? document.body).getByRole('link')).toHaveTextContent(/Room 2, DLCO/);
  });
});
