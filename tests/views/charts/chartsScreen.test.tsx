import { render, screen, waitFor, within } from '@testing-library/react';
import userEvent from '@testing-library/user-event';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { Router } from 'wouter';
import { memoryLocation } from 'wouter/memory-location';
import type { Entry, EntryDraft } from '../../../src/journal/entries.ts';
import { type LogbookHandle, type LogbookSnapshot, StorageProblem } from '../../../src/store/openLogbook.ts';
import { readSessionChoice } from '../../../src/store/sessionChoice.ts';
import { useChartChoices } from '../../../src/views/charts/chartChoices.ts';
import ChartsScreen from '../../../src/views/charts/chartsScreen.tsx';
import { LogbookProvider } from '../../../src/views/logbookContext.tsx';
import { useScreenState } from '../../../src/views/screenState.ts';
import { axe } from './axe.ts';
import {
  analyzerId,
  entry,
  opened,
  otherAnalyzerId,
  runEntry,
  runId,
  steadyVa,
  technologistId,
  week,
  weeklyRuns,
} from './madeUpLogbook.ts';

/** A logbook in memory. `failing` refuses the next write, as a full disk does. */
function logbookInMemory(first: readonly Entry[]) {
  let entries = [...first];
  let listeners: (() => void)[] = [];
  let snapshot: LogbookSnapshot = ready();
  const control = { failing: false, written: [] as EntryDraft[], release: () => {} };
  function ready(): LogbookSnapshot {
    return {
      state: 'ready',
      logbook: opened(entries).logbook,
      entries,
      rawRows: [],
      newer: null,
      damaged: [],
      missing: null,
    };
  }
  const handle: LogbookHandle = {
    name: 'in-memory',
    appendEntries: async (drafts) => {
      await new Promise<void>((resolve) => {
        control.release = resolve;
      });
      if (control.failing) throw new StorageProblem('quota', 'no space');
      control.written.push(...drafts);
      entries = [...entries, ...drafts.map(({ kind, body, by }) => entry(kind, body, Date.now(), by))];
      snapshot = ready();
      for (const listener of listeners) listener();
      return [];
    },
    giveUpMissing: async () => undefined,
    isMarkKept: () => null,
    checkChains: async () => ({ workstations: [], breaks: [] }),
    adoptEntries: async () => ({ added: 0, alreadyThere: 0 }),
    subscribe: (listener) => {
      listeners = [...listeners, listener];
      return () => {
        listeners = listeners.filter((each) => each !== listener);
      };
    },
    getSnapshot: () => snapshot,
    readSetting: async () => null,
    writeSetting: async () => {},
    close: () => {},
  };
  return { handle, control };
}

function openAt(path: string, entries: readonly Entry[]) {
  const { handle, control } = logbookInMemory(entries);
  const { hook } = memoryLocation({ path });
  const view = render(
    <Router hook={hook}>
      <LogbookProvider demonstration={false} failed={() => 'failed'} handle={handle} loading="loading">
        <ChartsScreen />
      </LogbookProvider>
    </Router>,
  );
  return { control, view };
}

const vaPath = `/charts/${analyzerId}/patient-test/va`;

beforeEach(() => {
  useScreenState.setState(useScreenState.getInitialState());
  useChartChoices.setState(useChartChoices.getInitialState());
});

describe('charts screen', () => {
  it('offers the bench while there are no runs', () => {
    openAt('/charts', []);
    expect(screen.getByRole('heading', { name: 'No runs yet' })).toBeVisible();
    expect(screen.getByRole('link', { name: /bench/ })).toHaveAttribute('href', '/bench');
  });

  it('opens the series that needs attention first', () => {
    openAt('/charts', weeklyRuns([...steadyVa, 3.1]));
    expect(screen.getByRole('heading', { level: 1 })).toHaveTextContent('VA, Room 2, patient test');
    expect(screen.getByRole('link', { name: /^VA, patient test: Fail/ })).toHaveAttribute(
      'aria-current',
      'true',
    );
  });

  it('opens the series in the address, and says so when there is none', () => {
    const { view } = openAt(`/charts/${analyzerId}/patient-test/dlco`, weeklyRuns(steadyVa));
    expect(screen.getByRole('heading', { level: 1 })).toHaveTextContent('DLCO, Room 2, patient test');
    view.unmount();
    openAt(`/charts/${analyzerId}/built-in/va`, weeklyRuns(steadyVa));
    expect(screen.getByRole('heading', { level: 1 })).toHaveTextContent('No such series');
  });

  it('names and describes the chart for a screen reader', async () => {
    openAt(vaPath, weeklyRuns([...steadyVa, 3.1]));
    const chart = screen.getByRole('img', { name: 'VA, Room 2, patient test' });
    expect(chart).toHaveAccessibleDescription(/21 runs from .* 1 run with a signal\. Own 3 SD limits/);
    expect(chart.querySelector('title')).toHaveTextContent('VA, Room 2, patient test');
    expect(await within(chart).findByText('1-3s')).toBeInTheDocument();
  });

  it('shows the published rails on demand', async () => {
    openAt(vaPath, weeklyRuns(steadyVa));
    const chart = screen.getByRole('img');
    expect(await within(chart).findByText(/published 3\.300 L, 15\.9 SD away/)).toBeInTheDocument();
    await userEvent.click(screen.getByRole('checkbox', { name: 'Show the published limits' }));
    expect(within(chart).queryByText(/SD away/)).toBeNull();
    expect(within(chart).getAllByText('published')).toHaveLength(2);
  });

  it('lists the newest sixty runs and all on demand', async () => {
    openAt(vaPath, weeklyRuns([...steadyVa, ...steadyVa, ...steadyVa, ...steadyVa]));
    const bodyRows = () => within(screen.getByRole('table')).getAllByRole('row').length - 1;
    expect(bodyRows()).toBe(60);
    await userEvent.click(screen.getByRole('button', { name: 'Show all 80 runs' }));
    expect(bodyRows()).toBe(80);
  });
});

describe('how much is shown, and on which axis', () => {
  const bodyRows = () => within(screen.getByRole('table')).getAllByRole('row').length - 1;
  const year = () => weeklyRuns([...steadyVa, ...steadyVa, ...steadyVa]);

  it('shows the last three months at a press, in the table too, and all again', async () => {
    openAt(vaPath, year());
    await userEvent.click(screen.getByRole('button', { name: 'Last 3 months' }));
    // From 3 Dec 2025, three months before the axis ends, eight days behind the last run: 8 Dec to 23 Feb by Mondays.
    expect(bodyRows()).toBe(12);
    expect(screen.getAllByText(/^Shown: 3 Dec 2025 to/)).not.toEqual([]);
    await userEvent.click(screen.getByRole('button', { name: 'All' }));
    expect(bodyRows()).toBe(60);
  });

  it('moves by keys on the strip', async () => {
    openAt(vaPath, year());
    const strip = screen.getByRole('slider', { name: 'Part of the time shown' });
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
    openAt(`${vaPath}/between/2025-03-03/2025-03-31`, year());
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
    expect(within(screen.getByRole('img')).getByText('Room 5, patient test')).toBeInTheDocument();
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

describe('voiding a run', () => {
  async function openForm(entries = weeklyRuns([...steadyVa, 3.1])) {
    const { control } = openAt(vaPath, entries);
    await userEvent.click(screen.getByRole('button', { name: /^Void the run of 26 May 2025/ }));
    return { control, form: screen.getByRole('form', { name: /^Void the run of 26 May 2025/ }) };
  }

  async function fillIn(form: HTMLElement) {
    await userEvent.type(within(form).getByRole('textbox', { name: 'Reason' }), 'Syringe slipped');
    await userEvent.selectOptions(within(form).getByRole('combobox'), technologistId);
  }

  it('says that the run stays visible, and writes nothing without a reason and a name', async () => {
    const { control, form } = await openForm();
    expect(form).toHaveTextContent('The run stays visible, struck through. It leaves every mean');
    await userEvent.click(within(form).getByRole('button', { name: 'Void run' }));
    expect(within(form).getByRole('textbox', { name: 'Reason' })).toBeInvalid();
    expect(within(form).getByRole('combobox')).toBeInvalid();
    expect(control.written).toEqual([]);
  });

  it('says Saved only once it is stored, and then strikes the run through', async () => {
    const { control, form } = await openForm();
    await fillIn(form);
    await userEvent.click(within(form).getByRole('button', { name: 'Void run' }));
    expect(screen.queryByText(/^Saved/)).toBeNull();
    control.release();
    const saved = await screen.findByText(/^Saved: the run of 26 May 2025, 08:00 is voided/);
    // The line is drawn first and takes the focus in the effect after it.
    await waitFor(() => expect(saved).toHaveFocus());
    expect(control.written).toMatchObject([
      { kind: 'run-voided', by: technologistId, body: { runId: 'run-0020', reason: 'Syringe slipped' } },
    ]);
    expect(screen.getByText(/^Voided by AB, .*: Syringe slipped$/)).toBeVisible();
    expect(screen.getByText('3.100').closest('s')).not.toBeNull();
    expect(screen.getAllByText(/21 runs .* 1 of them voided\. Last: 3\.010 L/)).not.toEqual([]);
  });

  it('keeps the reason and says what to do when it cannot be stored', async () => {
    const { control, form } = await openForm();
    await fillIn(form);
    control.failing = true;
    await userEvent.click(within(form).getByRole('button', { name: 'Void run' }));
    control.release();
    expect(await within(form).findByRole('alert')).toHaveTextContent('The disk is full');
    expect(within(form).getByRole('textbox', { name: 'Reason' })).toHaveValue('Syringe slipped');
    expect(screen.queryByText(/^Saved/)).toBeNull();
  });
});

describe('accessibility', () => {
  it('gives axe nothing to find', async () => {
    const { view } = openAt(vaPath, weeklyRuns([...steadyVa, 3.1]));
    expect(await axe(view.container)).toEqual([]);
  });
});
