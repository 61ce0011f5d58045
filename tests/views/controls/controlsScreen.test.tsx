import 'fake-indexeddb/auto';
import { fireEvent, screen, within } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { EntryDraft } from '../../../src/journal/entries.ts';
import { useChartChoices } from '../../../src/views/charting/chartChoices.ts';
import ControlsScreen from '../../../src/views/controls/controlsScreen.tsx';
import {
  checkSeriesHref,
  controlFailureHref,
  controlHref,
  controlSeriesHref,
  newControlHref,
  subjectsHref,
} from '../../../src/views/deskRoutes.ts';
import { biological, controlId, judgedAs, session, subject, subjectAdded } from '../controlDrafts.ts';
import { ids, tenGoodRuns } from '../laboratory.ts';
import { openStore, show, staffed } from '../onLogbook.tsx';
import { linearityOfCo, volumeCheck } from './checkDraftsWithFigures.ts';

beforeEach(() => useChartChoices.setState(useChartChoices.getInitialState()));
afterEach(() => vi.unstubAllGlobals());

/** Not in jsdom: these charts keep the width that they begin with. */
const keepWidth = () =>
  vi.stubGlobal(
    'ResizeObserver',
    class {
      observe() {}
      disconnect() {}
    },
  );

const open = async (path: string, drafts: readonly EntryDraft[] = []) =>
  show(await openStore([...staffed(), ...drafts]), <ControlsScreen />, path);

const dlco = { kind: 'biological', subjectId: subject, quantity: 'dlco' } as const;
const firstSix = [25, 24, 26, 25.5, 24.5, 25].map((value, index) => biological(index, value));
const failing = [
  subjectAdded(),
  ...tenGoodRuns(),
  ...firstSix,
  biological(6, 28.5, { judged: judgedAs('fail') }),
];

describe('the controls screen', () => {
  it('asks for a person first where there is none, and then for their first test', async () => {
    const { unmount } = await open('/controls');
    expect(screen.getByRole('heading', { level: 1 })).toHaveTextContent('No controls yet');
    expect(screen.getByRole('link', { name: /Add a person/ })).toHaveAttribute('href', subjectsHref);
    unmount();
    await open('/controls', [subjectAdded()]);
    expect(screen.getByRole('link', { name: 'Enter the first biological control' })).toHaveAttribute(
      'href',
      newControlHref('biological', ids.analyzer),
    );
  });

  it('opens what failed, says that its failure is open and leads to its story', async () => {
    await open('/controls', failing);
    expect(screen.getByRole('heading', { level: 1 })).toHaveTextContent(
      'DLCO, B1, Room 2, biological control',
    );
    const chart = screen.getByRole('img', { name: 'DLCO, B1, Room 2, biological control' });
    expect(chart).toHaveAccessibleDescription(/7 tests from .* A failure is open\./);
    expect(screen.getByRole('link', { name: 'What was done about it' })).toHaveAttribute(
      'href',
      controlFailureHref(controlId(6), dlco),
    );
    expect(screen.getByRole('link', { name: /^B1: Fail/ })).toHaveAttribute('aria-current', 'true');
    expect(screen.getByRole('link', { name: 'VA of the same tests' })).toHaveAttribute(
      'href',
      controlSeriesHref(ids.analyzer, { ...dlco, quantity: 'va' }),
    );
  });

  it('lists the tests with their verdict and the simulation of their day', async () => {
    await open(controlSeriesHref(ids.analyzer, dlco), failing);
    const table = screen.getByRole('table', { name: /the tests of the chart/ });
    const [, newest] = within(table).getAllByRole('row');
    if (newest === undefined) throw new Error('the table has no row');
    expect(within(newest).getByRole('link', { name: /16 Feb 2026/ })).toHaveAttribute(
      'href',
      controlHref(controlId(6)),
    );
    expect(newest).toHaveTextContent('Fail');
    expect(newest).toHaveTextContent('+3.50 (+14.0 %)');
    expect(newest).toHaveTextContent('published limit');
    expect(within(newest).getByRole('link', { name: /Pass/ })).toHaveAttribute('href', `/run/${ids.run(6)}`);
  });

  it('shows both levels of a simulator, the one that was asked for first', async () => {
    await open(controlSeriesHref(ids.analyzer, { kind: 'simulator', level: 'high' }), [
      session(0, { low: 0.1, high: 0.2 }),
    ]);
    expect(screen.getByRole('heading', { level: 1 })).toHaveTextContent('Precision-gas simulator, Room 2');
    expect(
      screen.getAllByRole('heading', { level: 2, name: /level$/ }).map(({ textContent }) => textContent),
    ).toEqual(['High level', 'Low level']);
    expect(screen.getAllByRole('img', { name: /level$/ })).toHaveLength(2);
  });

  it('passes from mark to mark of a volume check by the arrow keys', async () => {
    keepWidth();
    await open(checkSeriesHref(ids.analyzer, 'volume-check'), [volumeCheck(0, [3, 3.01, 3.1], 'failed')]);
    const chart = screen.getByRole('region', { name: 'Deviation from what should be read, at each flow' });
    expect(chart).toHaveAccessibleDescription(/1 outside ±2\.5 %/);
    fireEvent.keyDown(chart, { key: 'End' });
    expect(within(chart).getByRole('status')).toHaveTextContent(
      /fast: 3\.10 L of 3\.00 L, \+3\.3 %, outside/,
    );
    fireEvent.keyDown(chart, { key: 'ArrowLeft' });
    expect(within(chart).getByRole('status')).toHaveTextContent(/middle: 3\.01 L/);
  });

  it('shows each gas of a linearity check with its own table', async () => {
    keepWidth();
    await open(checkSeriesHref(ids.analyzer, 'linearity'), [
      linearityOfCo(0, [0, 0.1, 0.2]),
      linearityOfCo(4, [0, 0.3, 0.6]),
    ]);
    const gas = screen.getByRole('region', { name: 'Carbon monoxide (CO)' });
    expect(within(gas).getAllByRole('region', { name: /^CO/ })).toHaveLength(2);
    const rows = within(within(gas).getByRole('table')).getAllByRole('row');
    expect(rows[1]).toHaveTextContent(/Outside\+0\.60/);
    expect(rows[2]).toHaveTextContent(/Within\+0\.20/);
  });

  it('says what will stand at a series without a control, and at an address that names nothing', async () => {
    const { unmount } = await open(controlSeriesHref(ids.analyzer, dlco), [subjectAdded()]);
    expect(screen.getByText(/^Nothing of this kind is in the logbook yet\./)).toBeVisible();
    expect(screen.getAllByRole('link', { name: 'Enter a biological control' }).at(-1)).toHaveAttribute(
      'href',
      newControlHref('biological', ids.analyzer),
    );
    unmount();
    const { unmount: leave } = await open('/controls/no-such-analyzer/linearity');
    expect(screen.getByRole('heading', { level: 1 })).toHaveTextContent('No such control');
    leave();
    await open(controlSeriesHref(ids.analyzer, { ...dlco, subjectId: 'nobody-known' }));
    expect(screen.getByRole('heading', { level: 1 })).toHaveTextContent('No such control');
  });
});
