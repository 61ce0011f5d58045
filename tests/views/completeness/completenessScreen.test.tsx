import 'fake-indexeddb/auto';
import { fireEvent, screen, waitFor, within } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { Route } from 'wouter';
import type { EntryDraft } from '../../../src/journal/entries.ts';
import CompletenessScreen from '../../../src/views/completeness/completenessScreen.tsx';
import { axe } from '../charts/axe.ts';
import { ids, run, week } from '../laboratory.ts';
import { openStore, settledEntriesOf, show, staffed, takeInHand, withOneFailure } from '../onLogbook.tsx';

/** The Sunday of week 50; week 0 begins on Monday 5 January 2026. */
const now = '2026-12-27T12:00:00.000Z';
/** The Monday so many weeks before the last of them. */
const weeksAgo = (weeks: number) => week(50 - weeks);
const made = (...weeks: number[]): EntryDraft[] =>
  weeks.map((weeksBack, index) => run(index, 3, { madeAt: weeksAgo(weeksBack) }));
/** A run each week but two and three weeks ago. */
const withGap = () => [...staffed(), ...made(6, 5, 4, 1, 0)];

/** A save, and the advice on one that failed, which is loaded when it is needed. */
const patient = { timeout: 5000 };

const opened = (handle: Parameters<typeof show>[0], path = '/completeness') =>
  show(handle, <Route component={CompletenessScreen} path="/completeness/:analyzerId?" />, path);
const ofRoom2 = `/completeness/${ids.analyzer}`;
const lapses = () =>
  within(screen.getByRole('heading', { name: 'Missed and late' }).closest('section') ?? document.body);

beforeEach(() => {
  vi.useFakeTimers({ toFake: ['Date'], now: Date.parse(now) });
  takeInHand(ids.technologist);
});
afterEach(() => vi.useRealTimers());

describe('the page of all analyzers', () => {
  it('shows each as a strip with its sentence, and how many came in time', async () => {
    await opened(await openStore(withGap()));
    expect(
      screen.getByRole('img', { name: /^Room 2, 52 weeks: 5 with a run, .*, 2 without one/ }),
    ).toBeInTheDocument();
    const table = screen.getByRole('region', { name: 'Runs on time per analyzer and quarter' });
    expect(within(table).getByRole('link', { name: 'Room 2' })).toHaveAttribute('href', ofRoom2);
    expect(screen.getByText(/2 weeks unexplained/)).toBeInTheDocument();
  });

  it('says so where the address names no analyzer', async () => {
    await opened(await openStore(withGap()), '/completeness/nobody%E0%A4');
    expect(screen.getByText(/names no analyzer/)).toBeInTheDocument();
    expect(screen.getByRole('heading', { name: 'Weeks with and without a run' })).toBeInTheDocument();
  });
});

describe('the page of one analyzer', () => {
  it('leads from week to week by the arrow keys, and shows the runs of the one it stands on', async () => {
    const { user } = await opened(await openStore(withGap()), ofRoom2);
    const weeks = within(screen.getByRole('group', { name: 'Weeks of Room 2' })).getAllByRole('button');
    expect(weeks).toHaveLength(52);
    expect(weeks.filter(({ tabIndex }) => tabIndex === 0)).toEqual([weeks[0]]);
    weeks[0]?.focus();
    await user.keyboard('{End}{ArrowLeft}');
    expect(weeks[50]).toHaveFocus();
    expect(weeks[50]).toHaveAttribute('aria-pressed', 'true');
    const details = within(screen.getByRole('region', { name: 'The week chosen' }));
    expect(details.getByRole('link', { name: /09:00/ })).toHaveAttribute('href', `/run/${ids.run(3)}`);
    await user.keyboard('{ArrowLeft}');
    expect(weeks[49]).toHaveFocus();
    expect(weeks[49]).toHaveAccessibleName(/No run, no reason given/);
    await user.keyboard('{Home}');
    expect(weeks[0]).toHaveFocus();
  });

  it('has the same weeks as a table', async () => {
    const { user } = await opened(await openStore(withGap()), ofRoom2);
    await user.click(screen.getByText('The weeks as a table'));
    const table = screen.getByRole('region', { name: 'Room 2, week by week' });
    expect(within(table).getAllByRole('row')).toHaveLength(53);
  });

  it('takes a reason from anyone, asks for it where it is missing, and shows it beside the weeks', async () => {
    const handle = await openStore(withGap());
    const { user } = await opened(handle, ofRoom2);
    expect(lapses().getByText(/2 weeks without a run/)).toBeInTheDocument();
    await user.click(lapses().getByRole('button', { name: /^Give the reason/ }));
    const reason = screen.getByRole('textbox', { name: 'Reason' });
    await user.click(screen.getByRole('button', { name: 'Write the reason down' }));
    expect(reason).toHaveFocus();
    expect(reason).toHaveAccessibleDescription(/^Say why/);
    await user.type(reason, 'The room was painted.');
    await user.click(screen.getByRole('button', { name: 'Write the reason down' }));
    expect(await lapses().findByText(/The room was painted\./, {}, patient)).toBeInTheDocument();
    await waitFor(() => expect(screen.getByRole('heading', { name: 'Missed and late' })).toHaveFocus());
    expect(screen.getByText(/a reason is given for each/)).toBeInTheDocument();
    expect((await settledEntriesOf(handle)).at(-1)).toMatchObject({
      kind: 'gap-explained',
      by: ids.technologist,
      body: {
        analyzerId: ids.analyzer,
        check: 'simulation',
        from: weeksAgo(3).slice(0, 10),
        reason: 'The room was painted.',
      },
    });
  });

  it('takes one for another check, of which no week is listed', async () => {
    const handle = await openStore([...staffed(), ...made(1, 0)]);
    const { user } = await opened(handle, ofRoom2);
    await user.click(lapses().getByRole('button', { name: /^Give a reason for another check/ }));
    await user.selectOptions(screen.getByRole('combobox', { name: 'Check' }), 'linearity');
    await user.type(screen.getByRole('textbox', { name: 'Reason' }), 'On paper until then.');
    await user.click(screen.getByRole('button', { name: 'Write the reason down' }));
    expect(screen.getByLabelText('First day')).toHaveFocus();
    fireEvent.change(screen.getByLabelText('First day'), { target: { value: '2026-11-01' } });
    fireEvent.change(screen.getByLabelText('Last day'), { target: { value: '2026-11-30' } });
    await user.click(screen.getByRole('button', { name: 'Write the reason down' }));
    await lapses().findByRole('button', { name: /^Give a reason for another check/ }, patient);
    expect((await settledEntriesOf(handle)).at(-1)).toMatchObject({
      body: { check: 'linearity', from: '2026-11-01', to: '2026-11-30', reason: 'On paper until then.' },
    });
  });

  it('keeps the words of a save that failed, and writes them once at the second press', async () => {
    const handle = await openStore(withGap());
    const { user } = await opened(withOneFailure(handle, 'after'), ofRoom2);
    await user.click(lapses().getByRole('button', { name: /^Give the reason/ }));
    await user.type(screen.getByRole('textbox', { name: 'Reason' }), 'The room was painted.');
    await user.click(screen.getByRole('button', { name: 'Write the reason down' }));
    await screen.findByText(/What you typed is still here/, {}, patient);
    await user.click(screen.getByRole('button', { name: 'Write the reason down' }));
    await screen.findByRole('button', { name: /^Add another reason/ }, patient);
    const written = (await settledEntriesOf(handle)).filter(({ kind }) => kind === 'gap-explained');
    expect(written).toHaveLength(1);
  });

  it('has nothing that axe finds wrong', { timeout: 30_000 }, async () => {
    const { user, container } = await opened(await openStore(withGap()), ofRoom2);
    await user.click(lapses().getByRole('button', { name: /^Give the reason/ }));
    expect(await axe(container)).toEqual([]);
  });
});
