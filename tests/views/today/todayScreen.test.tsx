import 'fake-indexeddb/auto';
import { fireEvent, screen, within } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { Route } from 'wouter';
import { useScreenState } from '../../../src/views/screenState.ts';
import TodayScreen from '../../../src/views/today/todayScreen.tsx';
import { analyzerAdded } from '../../journal/fixtures.ts';
import { axe } from '../charts/axe.ts';
import { checkDone, scheduleSet, serviceSet } from '../checkDrafts.ts';
import { biological, controlId, subjectAdded } from '../controlDrafts.ts';
import { draft, ids, run } from '../laboratory.ts';
import { openStore, settledEntriesOf, show, staffed, takeInHand } from '../onLogbook.tsx';

const at = (daysAgo: number) => new Date(Date.now() - daysAgo * 86_400_000).toISOString();
const otherId = 'analyzer-room-9';
const other = () => draft('analyzer-added', { ...analyzerAdded, analyzerId: otherId, label: 'Room 9' });
const opened = (handle: Parameters<typeof show>[0], path = '/today') =>
  show(handle, <Route component={TodayScreen} path="/today/*?" />, path);
const inHand = () => useScreenState.getState().benchDraft;
const lineOf = (name: string) => {
  const line = screen.getByRole('link', { name }).closest('li');
  if (line === null) throw new Error(`no line for ${name}`);
  return within(line);
};

/** Room 2 is overdue, Room 9 was run yesterday. */
const twoAnalyzers = () => [
  ...staffed(),
  other(),
  run(0, 3, { madeAt: at(9) }),
  run(1, 3, { madeAt: at(1), analyzerId: otherId }),
];

beforeEach(() => takeInHand(ids.supervisor));

describe('Today', () => {
  it('starts the run that is due with one press', async () => {
    const { user, location } = await opened(await openStore(twoAnalyzers()));
    await user.click(screen.getByRole('button', { name: 'Run Room 2' }));
    expect(location.history.at(-1)).toBe('/bench');
    expect(inHand()).toMatchObject({ analyzerId: ids.analyzer, reason: 'weekly' });
  });

  it('stands at an address that names nothing, however it was cut', async () => {
    await opened(await openStore(twoAnalyzers()), '/today/%E0%A4%A');
    expect(screen.getByRole('heading', { level: 1, name: 'Today' })).toBeInTheDocument();
  });

  it('starts it with its digit, and with Enter on the button that has the focus', async () => {
    const first = await opened(await openStore(twoAnalyzers()));
    await first.user.keyboard('2');
    expect(first.location.history.at(-1)).toBe('/bench');
    expect(inHand().analyzerId).toBe(otherId);
    first.unmount();
    const second = await opened(await openStore(twoAnalyzers()));
    expect(screen.getByRole('button', { name: 'Run Room 2' })).toHaveFocus();
    await second.user.keyboard('{Enter}');
    expect(inHand().analyzerId).toBe(ids.analyzer);
  });

  it('leaves digits alone that are typed into a field, held with another key, repeated, or turned off', async () => {
    const { user, location } = await opened(await openStore(twoAnalyzers()));
    const stays = () => expect(location.history).toEqual(['/today']);
    for (const held of ['Control', 'Alt', 'Meta', 'Shift']) {
      await user.keyboard(`{${held}>}1{/${held}}`);
      stays();
    }
    fireEvent.keyDown(document.body, { key: '1', code: 'Digit1', repeat: true });
    await user.keyboard('0');
    stays();
    const tick = screen.getByRole('checkbox', { name: /^Keys 1 to 2 alone start/ });
    await user.click(tick);
    tick.blur();
    await user.keyboard('1');
    stays();
    expect(screen.getByRole('button', { name: 'Run Room 2' })).not.toHaveAttribute('aria-keyshortcuts');
  });

  it('keeps for this workstation that the keys are off', async () => {
    const handle = await openStore(twoAnalyzers());
    const first = await opened(handle);
    await first.user.click(screen.getByRole('checkbox', { name: /^Keys 1 to 2/ }));
    first.unmount();
    await opened(handle);
    expect(await screen.findByRole('checkbox', { name: /^Keys 1 to 2/, checked: false })).toBeInTheDocument();
  });

  it('starts by the key of a digit where that types another sign without the shift key', async () => {
    await opened(await openStore(twoAnalyzers()));
    fireEvent.keyDown(document.body, { key: '&', code: 'Digit1' });
    expect(inHand().analyzerId).toBe(ids.analyzer);
  });

  it('leads a failing analyzer to its investigation and to a repeat', async () => {
    const { user, location } = await opened(await openStore([...staffed(), run(0, 3.4, { madeAt: at(2) })]));
    expect(screen.getByText('Failing')).toBeInTheDocument();
    expect(screen.getByRole('link', { name: 'Look into it' })).toHaveAttribute(
      'href',
      `/investigation/${ids.run(0)}`,
    );
    await user.click(screen.getByRole('button', { name: 'Repeat run on Room 2' }));
    expect(location.history.at(-1)).toBe('/bench');
    expect(inHand().reason).toBe('repeat');
  });

  it('offers an analyzer out of service its way back and no run', async () => {
    await opened(await openStore([...staffed(), run(0, 3, { madeAt: at(9) }), serviceSet(false, at(3))]));
    expect(screen.getAllByText('Out of service').length).toBeGreaterThan(0);
    expect(screen.getByRole('link', { name: 'Put back in service…' })).toHaveAttribute(
      'href',
      `/equipment/analyzer/${ids.analyzer}`,
    );
    expect(screen.queryByRole('button', { name: /^Run/ })).not.toBeInTheDocument();
  });

  it('notes a check that is due from its line', async () => {
    await opened(await openStore([...twoAnalyzers(), checkDone('linearity', at(40))]));
    expect(
      lineOf('Room 2').getByRole('link', { name: 'Note it: Gas analyzer linearity, Room 2' }),
    ).toHaveAttribute('href', `/check/linearity/${ids.analyzer}`);
  });

  it('leads a biological control that is due to where it is entered, and one that was made to its page', async () => {
    const made = biological(0, 25, { madeAt: at(10) });
    await opened(await openStore([...twoAnalyzers(), subjectAdded(), made]), `/today/${ids.analyzer}`);
    expect(
      lineOf('Room 2').getByRole('link', { name: 'Enter it: Biological control, Room 2' }),
    ).toHaveAttribute('href', `/control/biological/${ids.analyzer}`);
    expect(screen.getByRole('link', { name: 'See it' })).toHaveAttribute(
      'href',
      `/control/made/${controlId(0)}`,
    );
    expect(screen.queryByRole('button', { name: 'Void…' })).not.toBeInTheDocument();
  });

  it('shows the checks of the analyzer that the address names, each with who did it last', async () => {
    const handle = await openStore([...twoAnalyzers(), checkDone('linearity', at(3))]);
    await opened(handle, `/today/${ids.analyzer}`);
    expect(screen.getByRole('heading', { level: 2, name: 'Room 2, every check' })).toBeInTheDocument();
    expect(screen.getByText(/, IM: passed\./)).toBeInTheDocument();
  });

  it('is read from what the address asks for, and not from a run that a second Enter would start', async () => {
    const handle = await openStore(twoAnalyzers());
    const first = await opened(handle, `/today/${ids.analyzer}`);
    expect(screen.getByRole('heading', { name: 'Room 2, every check' })).toHaveFocus();
    first.unmount();
    await opened(handle, '/today/laboratory');
    expect(screen.getByRole('heading', { name: 'The laboratory' })).toHaveFocus();
  });

  it('voids a noted check with a reason, and no digit starts a run meanwhile', async () => {
    const handle = await openStore([
      ...twoAnalyzers(),
      checkDone('linearity', at(3), { checkId: 'check-to-void' }),
    ]);
    const { user, location } = await opened(handle, `/today/${ids.analyzer}`);
    await user.click(screen.getByRole('button', { name: /^Void…/ }));
    await user.type(screen.getByRole('textbox', { name: 'Reason' }), 'Analyzer 2 it was not.');
    fireEvent.keyDown(document.body, { key: '1', code: 'Digit1' });
    expect(location.history).toEqual([`/today/${ids.analyzer}`]);
    await user.click(screen.getByRole('button', { name: 'Void check' }));
    const entries = await settledEntriesOf(handle);
    expect(entries.at(-1)).toMatchObject({
      kind: 'check-voided',
      body: { checkId: 'check-to-void', reason: 'Analyzer 2 it was not.' },
    });
    expect(screen.queryByText(/, IM: passed\./)).not.toBeInTheDocument();
  });

  it('says what is not made here, what was never noted, and where each date comes from', async () => {
    const notMade = scheduleSet('linearity', { isMade: false, every: null });
    const { user } = await opened(await openStore([...twoAnalyzers(), notMade, scheduleSet('simulation')]));
    expect(screen.getByRole('link', { name: 'gas analyzer linearity' })).toHaveAttribute(
      'href',
      '/laboratory/schedule/linearity',
    );
    expect(
      screen.getByText(/^Never noted here: volume calibration check, biological control,/),
    ).toBeInTheDocument();
    await user.click(screen.getByText(/^How often, where that comes from/));
    expect(screen.getByText(/^every 2 weeks, set here: Decided/)).toBeInTheDocument();
    expect(screen.getByText(/^Usual\. Daily: /)).toBeInTheDocument();
  });

  it('follows the clock while it stands open over midnight', async () => {
    vi.useFakeTimers({
      toFake: ['Date', 'setInterval', 'clearInterval'],
      now: new Date(2026, 0, 11, 23, 59),
    });
    try {
      await opened(await openStore([...staffed(), run(0, 3)]));
      expect(lineOf('Room 2').getByText('Simulation due tomorrow, Mon 12 Jan')).toBeInTheDocument();
      await vi.advanceTimersByTimeAsync(120_000);
      expect(await lineOf('Room 2').findByText('Simulation due today')).toBeInTheDocument();
    } finally {
      vi.useRealTimers();
    }
  });

  it('has nothing that axe finds wrong', async () => {
    const handle = await openStore([
      ...twoAnalyzers(),
      run(2, 3.4, { madeAt: at(0.1), analyzerId: otherId }),
      checkDone('linearity', at(50)),
      serviceSet(false, at(3)),
    ]);
    const { container } = await opened(handle, `/today/${ids.analyzer}`);
    expect(await axe(container)).toEqual([]);
  });
});

afterEach(() => vi.useRealTimers());
