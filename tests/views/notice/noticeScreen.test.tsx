import 'fake-indexeddb/auto';
import { screen, waitFor, within } from '@testing-library/react';
import { describe, expect, it } from 'vitest';
import { Route } from 'wouter';
import type { EntryDraft } from '../../../src/journal/entries.ts';
import { noticeHref } from '../../../src/views/deskRoutes.ts';
import NoticeScreen from '../../../src/views/notice/noticeScreen.tsx';
import { policyPath } from '../../../src/views/routes.ts';
import { axe } from '../charts/axe.ts';
import { ids, run, tenGoodRuns, week } from '../laboratory.ts';
import { entriesOf, openStore, show, staffed } from '../onLogbook.tsx';
import { policySet, policyWith } from '../settingDrafts.ts';

async function open(drafts: readonly EntryDraft[], path = noticeHref(ids.analyzer)) {
  const handle = await openStore([...staffed(), ...drafts]);
  return {
    handle,
    ...(await show(handle, <Route component={NoticeScreen} path="/notice/:analyzerId" />, path)),
  };
}

const allOff = policyWith({
  severity: {
    '1-2s': 'off',
    '1-3s': 'off',
    '2-2s': 'off',
    'R-4s': 'off',
    '4-1s': 'off',
    '10x': 'off',
    '7T': 'off',
    EWMA: 'off',
    CUSUM: 'off',
  },
});
const only13 = policyWith({ severity: { ...allOff.severity, '1-3s': 'action' } });

const rowsOf = (table: string) =>
  within(screen.getByRole('region', { name: table }))
    .getAllByRole('row')
    .map((row) =>
      within(row)
        .queryAllByRole('cell')
        .map((cell) => cell.textContent),
    );
const va = 'How soon: VA, patient test';
const computed = () => waitFor(() => expect(screen.queryByText('computing…')).toBeNull());

describe('what would we notice', () => {
  it('tells a supervisor after how many weeks a leak is noticed, by own rules and by the published limits', async () => {
    const { container } = await open([...tenGoodRuns(), policySet(week(0), only13)]);
    await computed();
    // SD 21.6 mL: 50 mL are 2.31 SD, 1/Φ(−0.69) = 4.1 runs; 100 mL 4.63 SD, at once. Published 13.9 SD away.
    expect(
      screen.getByText(
        /^A leak that adds 100 mL \(4\.6 SD\) to VA is noticed at the next run on average; by the published limits alone after more than 10 years\.$/,
      ),
    ).toBeVisible();
    expect(rowsOf(va)[2]).toEqual(['2.3', '4 weeks', 'more than 10 years', 'more than 10 years']);
    expect(screen.getByText(/stand 13\.9 SD below and 13\.9 SD above this mean\.$/)).toBeVisible();
    // 2 · 52.18 / 370.4 = 0.28 a year.
    expect(rowsOf('False alarms')[1]).toEqual(['1 in 4 years']);
    expect(rowsOf('Uncertainty budget')).toHaveLength(6);
    expect(await axe(container)).toEqual([]);
  });

  it('puts other rules beside those in force while they are tried, and saves nothing', async () => {
    const { user, handle } = await open([...tenGoodRuns(), policySet(week(0), only13)]);
    await computed();
    const before = entriesOf(handle).length;
    expect(screen.queryByRole('columnheader', { name: 'What if' })).toBeVisible();
    expect(
      within(screen.getByRole('region', { name: va })).queryByRole('columnheader', { name: 'What if' }),
    ).toBeNull();
    await user.selectOptions(screen.getByRole('combobox', { name: 'What if: 1-2s' }), 'warning');
    await computed();
    // 1-2s at 2.31 SD: 1/Φ(0.31) = 1.6 runs. False alarms: 2 · 52.18 / 21.98 = 4.7 a year.
    expect(rowsOf(va)[2]?.slice(1, 3)).toEqual(['4 weeks', '2 weeks']);
    expect(rowsOf('False alarms')[1]).toEqual(['1 in 4 years', '4.7 a year']);
    expect(screen.getByText('False alarms of this analyzer').closest('li')).toHaveTextContent(
      'False alarms of this analyzer 4.7 a year, in force 1 in 4 years.',
    );
    expect(screen.getByText('Good runs that get a warning or fail.')).toBeVisible();
    // A warning is no failed run: then both columns are alike.
    await user.selectOptions(screen.getByRole('combobox', { name: 'Counts as noticed' }), 'failure');
    await computed();
    expect(rowsOf(va)[2]?.slice(1, 3)).toEqual(['4 weeks', '4 weeks']);
    expect(screen.getByText('Good runs that fail, and open a failure.')).toBeVisible();
    await user.click(screen.getByRole('button', { name: 'Back to the rules in force' }));
    expect(
      within(screen.getByRole('region', { name: va })).queryByRole('columnheader', { name: 'What if' }),
    ).toBeNull();
    expect(screen.getByRole('link', { name: 'Laboratory, policy' })).toHaveAttribute(
      'href',
      policyPath(ids.analyzer),
    );
    expect(entriesOf(handle)).toHaveLength(before);
  });

  it('says beside a number of the rules what is wrong with it, and keeps what is in force', async () => {
    const { user } = await open([...tenGoodRuns(), policySet(week(0), only13)]);
    await computed();
    const weight = screen.getByRole('textbox', { name: 'EWMA weight λ' });
    await user.clear(weight);
    await user.type(weight, '2');
    expect(weight).toBeInvalid();
    expect(weight).toHaveAccessibleDescription(/2 cannot be\. Was 0\.2 meant\?/);
    expect(rowsOf(va)[2]).toHaveLength(4);
  });

  it('computes the usual policy, which can only be simulated, too', async () => {
    await open(tenGoodRuns());
    await computed();
    expect(rowsOf(va)[3]?.[1]).toBe('next run');
  });

  it('says what is missing while there is no own SD, and still what the rules say for nothing', async () => {
    const { container } = await open([...tenGoodRuns().slice(0, 4), policySet(week(0), only13)]);
    await computed();
    expect(screen.getAllByText(/^No own SD yet: 4 of the 10 accepted runs/)).toHaveLength(2);
    expect(screen.queryByRole('region', { name: va })).toBeNull();
    expect(rowsOf('False alarms')[1]).toEqual(['1 in 4 years']);
    expect(screen.getByText('Patient test: 4 accepted runs, too few to compare.')).toBeVisible();
    expect(await axe(container)).toEqual([]);
  });

  it('says of a policy without a rule that nothing but the published limits notices', async () => {
    await open([...tenGoodRuns(), policySet(week(0), allOff)]);
    expect(
      screen.getByText(/^A leak that adds 100 mL .* is noticed by no rule; by the published limits after/),
    ).toBeVisible();
    expect(rowsOf(va)[2]?.[1]).toBe('never: no rule on');
    expect(rowsOf('False alarms')[1]).toEqual(['none']);
  });

  it('stands without a budget where the newest run allows none', async () => {
    await open([...tenGoodRuns(), run(10, 0.004), policySet(week(0), only13)]);
    await computed();
    expect(screen.getByText(/^No budget: the room or the VA of the newest run/)).toBeVisible();
    expect(rowsOf(va)).toHaveLength(6);
  });

  it('says what will stand here before the first run, and what an address without an analyzer is', async () => {
    const { unmount, container } = await open([]);
    expect(screen.getByRole('link', { name: 'Record the first run at the bench' })).toHaveAttribute(
      'href',
      '/bench',
    );
    expect(await axe(container)).toEqual([]);
    unmount();
    await open([], noticeHref('nowhere'));
    expect(screen.getByText(/^This address names no analyzer/)).toBeVisible();
  });
});
