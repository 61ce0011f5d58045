import { screen, within } from '@testing-library/react';
import userEvent from '@testing-library/user-event';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { readSessionChoice } from '../../../src/store/sessionChoice.ts';
import {
  analyzerId,
  entry,
  otherAnalyzerId,
  runEntry,
  runId,
  steadyVa,
  week,
  weeklyRuns,
} from './madeUpLogbook.ts';
import { forgetChoices, openAt, vaPath } from './openCharts.tsx';

beforeEach(forgetChoices);

describe('how much is shown, and on which axis', () => {
  // By the document: to ask for roles among hundreds of cells takes seconds.
  const bodyRows = () => document.querySelectorAll('.run-table tbody tr').length;

  it('shows the last three months at a press, in the table too, and all again', async () => {
    openAt(vaPath, weeklyRuns(steadyVa));
    await userEvent.click(screen.getByText('Last 3 months'));
    // From 23 Feb 2025, three months before the axis ends, four days behind the last run: 24 Feb to 19 May by Mondays.
    expect(bodyRows()).toBe(13);
    expect(screen.getAllByText(/^Shown: 23 Feb 2025 to/)).not.toEqual([]);
    await userEvent.click(screen.getByText('All'));
    expect(bodyRows()).toBe(20);
  });

  it('moves by keys on the strip', async () => {
    openAt(vaPath, weeklyRuns(steadyVa));
    const strip = screen.getByLabelText('Part of the time shown');
    expect(strip).toHaveAttribute('role', 'slider');
    expect(strip).toHaveAttribute('aria-valuetext', expect.stringMatching(/^all, /));
    expect(strip).toHaveAccessibleDescription(/Home and End/);
    strip.focus();
    await userEvent.keyboard('+');
    const half = strip.getAttribute('aria-valuetext');
    expect(half).not.toMatch(/^all/);
    await userEvent.keyboard('{ArrowRight}');
    expect(strip.getAttribute('aria-valuetext')).not.toBe(half);
    await userEvent.keyboard('0');
    expect(strip).toHaveAttribute('aria-valuetext', expect.stringMatching(/^all, /));
  });

  it('opens the days in the address', () => {
    openAt(`${vaPath}/between/2025-03-03/2025-03-31`, weeklyRuns(steadyVa));
    expect(bodyRows()).toBe(5);
  });

  it('changes to z for every series of this visit', async () => {
    const { view } = openAt(vaPath, weeklyRuns(steadyVa));
    await userEvent.click(screen.getByRole('checkbox', { name: 'z in place of values' }));
    expect(screen.getByRole('img')).toHaveAccessibleDescription(/10 runs have no z/);
    view.unmount();
    openAt(`/charts/${analyzerId}/patient-test/dlco`, weeklyRuns(steadyVa));
    expect(screen.getByRole('checkbox', { name: 'z in place of values' })).toBeChecked();
  });

  it('shows EWMA and CUSUM below, in the table too, also after a reload', async () => {
    vi.stubGlobal(
      'ResizeObserver',
      class {
        observe() {}
        disconnect() {}
      },
    );
    openAt(vaPath, weeklyRuns(steadyVa));
    await userEvent.click(screen.getByRole('checkbox', { name: 'EWMA and CUSUM below' }));
    expect(screen.getByRole('img', { name: /^EWMA of z\. EWMA .* within its limit of 0\.95/ })).toBeVisible();
    expect(screen.getByRole('img', { name: /^CUSUM of z/ })).toBeVisible();
    expect(screen.getByRole('columnheader', { name: 'CUSUM up' })).toBeVisible();
    expect(readSessionChoice('charts showMemory')).toBe('on');
    vi.unstubAllGlobals();
  });

  it('lays another analyzer over the chart, with its name and its figures', async () => {
    const other = steadyVa.map((vaL, index) =>
      runEntry({
        id: `other-${runId(index)}`,
        at: week(index) + 1,
        vaL,
        change: { analyzerId: otherAnalyzerId },
      }),
    );
    openAt(vaPath, [...weeklyRuns(steadyVa), ...other]);
    await userEvent.click(screen.getByText('Compare with other analyzers'));
    await userEvent.click(screen.getByRole('checkbox', { name: 'Room 5, patient test' }));
    expect(within(screen.getByRole('img')).getByText('Room 5')).toBeInTheDocument();
    const table = screen.getByRole('table', { name: 'The lines of the chart in the part shown' });
    expect(within(table).getAllByRole('row')).toHaveLength(3);
    expect(within(table).getByRole('row', { name: /broken Room 5, patient test 20 3\.000 L/ })).toBeVisible();
  });

  it('tells what the runs came to before and after an event, and marks them', async () => {
    const happenedAt = new Date(week(9) + 1).toISOString();
    const cylinder = entry(
      'event-recorded',
      { eventId: 'event-one', analyzerId, happenedAt, type: 'cylinder', description: 'New' },
      week(9) + 1,
    );
    openAt(vaPath, [...weeklyRuns(steadyVa), cylinder]);
    const panel = screen.getByRole('region', { name: 'Before and after' });
    await userEvent.selectOptions(within(panel).getByRole('combobox'), 'event-one');
    expect(panel).toHaveTextContent(/Beforemean 3\.000 L, SD 0\.0194 L, 10 runs/);
    expect(panel).toHaveTextContent(/95 % interval .* takes in 0/);
    const chart = screen.getByRole('img');
    expect(chart.querySelectorAll('.control-chart__turning circle')).toHaveLength(10);
    expect(chart.querySelectorAll('.control-chart__turning rect')).toHaveLength(10);
  });

  it('lists the runs behind a chosen signal, each the way to its page', async () => {
    openAt(vaPath, weeklyRuns([...steadyVa, 3.045, 3.045]));
    const panel = screen.getByRole('region', { name: 'Runs behind a signal' });
    await userEvent.selectOptions(within(panel).getByRole('combobox'), runId(21));
    expect(
      within(panel)
        .getAllByRole('link')
        .map((link) => link.getAttribute('href')),
    ).toEqual([21, 20, 21].map((index) => `/run/${runId(index)}`));
    expect(screen.getByRole('img').querySelectorAll('.control-chart__behind circle')).toHaveLength(2);
  });
});
