import 'fake-indexeddb/auto';
import { screen, within } from '@testing-library/react';
import { beforeEach, describe, expect, it } from 'vitest';
import { Route } from 'wouter';
import type { LogbookHandle } from '../../../src/store/openLogbook.ts';
import BaselineScreen from '../../../src/views/baseline/baselineScreen.tsx';
import ReviewScreen from '../../../src/views/review/reviewScreen.tsx';
import RunScreen from '../../../src/views/run/runScreen.tsx';
import LastRuns from '../../../src/views/runForm/lastRuns.tsx';
import { axe } from '../charts/axe.ts';
import { baseline, draft, ids, run, tenGoodRuns, week } from '../laboratory.ts';
import { openStore, settledEntriesOf, show, staffed, takeInHand } from '../onLogbook.tsx';
import { judged } from '../run/runFixtures.ts';

const opened = (handle: LogbookHandle, quantity = 'va', analyzerId: string = ids.analyzer) =>
  show(
    handle,
    <Route component={BaselineScreen} path="/baseline/:analyzerId/:route/:quantity" />,
    `/baseline/${analyzerId}/patient-test/${quantity}`,
  );
const press = (name: string) => screen.getByRole('button', { name });
const reason = () => screen.getByRole('textbox', { name: 'Reason' });
const rows = () => within(screen.getByRole('region', { name: 'Runs of the baseline' })).getAllByRole('row');
const written = async (handle: LogbookHandle, kind: string) =>
  (await settledEntriesOf(handle)).filter((entry) => entry.kind === kind);
const firstSetAside = () => {
  const [first] = screen.getAllByRole('button', { name: /^Set aside the run of / });
  if (first === undefined) throw new Error('no run to set aside');
  return first;
};
const event = (madeAt: string) =>
  draft('event-recorded', {
    eventId: 'event-sensor',
    analyzerId: ids.analyzer,
    happenedAt: madeAt,
    type: 'sensor',
    description: 'CO cell replaced.',
  });

beforeEach(() => takeInHand(ids.supervisor));

describe('the baseline desk', () => {
  it('shows what the limits rest on, and axe finds nothing', async () => {
    const handle = await openStore([
      ...staffed(),
      ...tenGoodRuns(),
      baseline(week(10)),
      run(10, 3.01),
      run(11, 3),
    ]);
    const { container } = await opened(handle);
    expect(screen.getByRole('heading', { level: 1 })).toHaveTextContent(
      'Baseline of Room 2, VA, patient test',
    );
    expect(rows()).toHaveLength(3);
    expect(screen.getByText('2 of 20: own limits begin at 10')).toBeInTheDocument();
    expect(screen.getByRole('heading', { name: 'Against the baseline before' })).toBeInTheDocument();
    expect(screen.getByRole('heading', { name: 'Frozen or rolling' })).toBeInTheDocument();
    expect(await axe(container)).toEqual([]);
  });

  it('says that no run was made since a new baseline, and what an unknown address names', async () => {
    const handle = await openStore([...staffed(), ...tenGoodRuns(), baseline(week(10))]);
    const page = await opened(handle);
    expect(screen.getByText(/^No run was made since\./)).toBeInTheDocument();
    page.unmount();
    await opened(handle, 'va', 'no-analyzer');
    expect(screen.getByText('This address names no series of the logbook.')).toBeInTheDocument();
  });

  it('writes DLCO in the unit of the analyzer', async () => {
    await opened(await openStore([...staffed(), ...tenGoodRuns()]), 'dlco');
    expect(screen.getByText(/^0\.000 mL\/min\/mmHg, true mean/)).toBeInTheDocument();
  });
});

describe('setting a run aside', () => {
  it('asks for a reason, tells what moves, and takes the run out until it is taken back in', async () => {
    const handle = await openStore([...staffed(), ...tenGoodRuns()]);
    const { user } = await opened(handle);
    await user.click(firstSetAside());
    expect(screen.getByText(/Their verdicts of the day stay as they were given/)).toBeInTheDocument();
    await user.click(press('Set it aside'));
    expect(reason()).toHaveAccessibleDescription('Say why.');
    await user.type(reason(), 'Trial of a new filter.');
    await user.click(press('Set it aside'));
    expect(await screen.findByText('Saved: the run of 5 Jan 2026, 09:00 is set aside.')).toHaveFocus();
    expect(rows()).toHaveLength(10);
    expect(await written(handle, 'run-set-aside')).toMatchObject([
      { by: ids.supervisor, body: { runId: ids.run(0), isSetAside: true, reason: 'Trial of a new filter.' } },
    ]);
    await user.click(press('Take back in the run of 5 Jan 2026, 09:00…'));
    await user.type(reason(), 'The filter made no difference.');
    await user.click(press('Take it back in'));
    await screen.findByText('Saved: the run of 5 Jan 2026, 09:00 counts again.');
    expect(rows()).toHaveLength(11);
  });

  it('is for supervisors', async () => {
    takeInHand(ids.technologist);
    const handle = await openStore([...staffed(), ...tenGoodRuns()]);
    const { user } = await opened(handle);
    await user.click(firstSetAside());
    await user.type(reason(), 'Trial.');
    await user.click(press('Set it aside'));
    expect(screen.getByLabelText('Supervisor')).toHaveAccessibleDescription(/needs a supervisor/);
    expect(await written(handle, 'run-set-aside')).toEqual([]);
  });

  it('is told wherever the run is listed, by a word and not by the line of a voided one', async () => {
    const aside = draft('run-set-aside', {
      runId: ids.run(0),
      isSetAside: true,
      reason: 'Trial of a new filter.',
    });
    const handle = await openStore([...staffed(), run(0, 3.4, { judged: judged('fail', 3.4) }), aside]);
    const last = await show(handle, <LastRuns analyzerId={ids.analyzer} route="patient-test" />);
    expect(
      within(screen.getAllByRole('row')[1] ?? last.container).getByText('set aside'),
    ).toBeInTheDocument();
    expect(last.container.querySelector('s')).toBeNull();
    expect(last.container.querySelector('.set-aside')).toHaveTextContent('5 Jan 2026, 09:00');
    last.unmount();
    const page = await show(handle, <Route component={RunScreen} path="/run/:runId" />, `/run/${ids.run(0)}`);
    expect(screen.getByText(/^Set aside by IM, /)).toBeInTheDocument();
    expect(screen.getAllByRole('listitem')[0]).toHaveTextContent(/Set aside: Trial of a new filter\./);
    page.unmount();
    await show(handle, <Route component={ReviewScreen} path="/review/*?" />, '/review');
    expect(screen.getByText(/^5 Jan 2026, set aside$/)).toBeInTheDocument();
  });
});

describe('accepting a baseline', () => {
  it('keeps its runs and figures, and says later that one was set aside', async () => {
    const handle = await openStore([...staffed(), ...tenGoodRuns()]);
    const { user } = await opened(handle);
    await user.click(press('Accept this baseline…'));
    await user.type(reason(), 'Two people, no event.');
    await user.click(press('Accept this baseline'));
    await screen.findByText('Saved: the baseline is accepted.');
    const [entry] = await written(handle, 'baseline-accepted');
    expect(entry?.body).toMatchObject({
      analyzerId: ids.analyzer,
      series: { method: 'syringe', route: 'patient-test', quantity: 'va' },
      runIds: Array.from({ length: 10 }, (_, index) => ids.run(index)),
      mean: expect.closeTo(3, 12),
    });
    expect(screen.getByText(/^By IM, .*, of 10 runs: Two people, no event\./)).toBeInTheDocument();
    expect(screen.queryByRole('button', { name: 'Accept this baseline…' })).not.toBeInTheDocument();
    await user.click(firstSetAside());
    await user.type(reason(), 'Trial.');
    await user.click(press('Set it aside'));
    await screen.findByText('It is not what was accepted any more.');
    expect(screen.getByText('The run of 5 Jan 2026, 09:00 was set aside.')).toBeInTheDocument();
  });

  it('waits for own limits', async () => {
    await opened(await openStore([...staffed(), run(0, 3), run(1, 3.01)]));
    expect(screen.getByText(/^It can be accepted once there are own limits/)).toBeInTheDocument();
  });
});

describe('a new baseline', () => {
  it('begins at an event, with the runs made since then', async () => {
    const handle = await openStore([...staffed(), ...tenGoodRuns(), event(week(7))]);
    const { user } = await opened(handle);
    await user.click(press('Start a new baseline…'));
    await user.selectOptions(
      screen.getByRole('combobox', { name: 'From' }),
      screen.getByRole('option', { name: /^Sensor/ }),
    );
    expect(
      screen.getByText(/^The 3 runs of this analyzer made since then begin the new baseline\./),
    ).toBeInTheDocument();
    await user.type(reason(), 'New CO cell.');
    await user.click(press('Start a new baseline'));
    await screen.findByText('Saved: a new baseline has begun.');
    expect(rows()).toHaveLength(4);
    expect((await written(handle, 'baseline-started'))[0]).toMatchObject({
      body: { analyzerId: ids.analyzer, from: week(7), reason: 'New CO cell.' },
    });
  });

  it('is refused while a failure is open', async () => {
    await opened(await openStore([...staffed(), ...tenGoodRuns(), run(10, 3.4)]));
    expect(screen.getByText(/^Not while a failure is open on this analyzer/)).toBeInTheDocument();
    expect(screen.queryByRole('button', { name: 'Start a new baseline…' })).not.toBeInTheDocument();
  });
});
