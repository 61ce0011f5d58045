import 'fake-indexeddb/auto';
import { screen, waitFor } from '@testing-library/react';
import { afterEach, describe, expect, it } from 'vitest';
import { BenchScreen } from '../../../src/views/bench/benchScreen.tsx';
import { useStartRun } from '../../../src/views/startRun.ts';
import { ids, run } from '../laboratory.ts';
import { openStore, settledEntriesOf, show, staffed } from '../onLogbook.tsx';
import { otherAnalyzer, otherAnalyzerId } from '../run/runFixtures.ts';
import { choice, choose, field, press, readings, record, room, runsIn, type } from './benchSteps.tsx';

afterEach(() => sessionStorage.clear());

/** The bench with what another screen begins a run with. */
function WithStart() {
  const start = useStartRun();
  return (
    <>
      <button onClick={() => start({ analyzerId: ids.analyzer })} type="button">
        Run Room 2
      </button>
      <button onClick={() => start({ analyzerId: otherAnalyzerId })} type="button">
        Run Room 5
      </button>
      <button
        onClick={() =>
          start({
            analyzerId: ids.analyzer,
            route: 'built-in',
            reason: 'suspected-fault',
            investigates: { runId: ids.run(0), check: 'other-route' },
          })
        }
        type="button"
      >
        Run the other route
      </button>
      <BenchScreen />
    </>
  );
}

describe('Enter', () => {
  it('leads from field to field that a run needs, and records when none is left', async () => {
    const handle = await openStore(staffed());
    const { user } = await show(handle, <WithStart />);
    await press(user, 'Run Room 2');
    expect(choice('Technologist')).toHaveFocus();
    await user.selectOptions(choice('Technologist'), ids.supervisor);
    await user.keyboard('{Enter}22{Enter}');
    expect(field('Barometric pressure')).toHaveFocus();
    await user.keyboard('760{Enter}3.45{Enter}');
    expect(field('DLCO')).toHaveFocus();
    await user.keyboard('0.12{Enter}');
    await screen.findByText('Saved.');
    // Pressed again and again, it records nothing more.
    await user.keyboard('{Enter}{Enter}');
    expect((await settledEntriesOf(handle)).filter(({ kind }) => kind === 'run-recorded')).toHaveLength(1);
  });

  it('stops at what cannot be, says what is wrong, and writes nothing', async () => {
    const handle = await openStore(staffed());
    const { user } = await show(handle, <BenchScreen />);
    await choose(user);
    await type(user, { ...room, ...readings });
    await type(user, { 'Barometric pressure': '7600' });
    await user.keyboard('{Enter}');
    expect(field('Barometric pressure')).toHaveFocus();
    expect(field('Barometric pressure')).toHaveAccessibleDescription(/7600 mmHg cannot be/);
    expect(runsIn(handle)).toHaveLength(0);
  });

  it('goes back to a needed field that was passed by', async () => {
    const { user } = await show(await openStore(staffed()), <BenchScreen />);
    await choose(user);
    await type(user, { ...room, DLCO: '0.12' });
    await user.keyboard('{Enter}');
    expect(field('Alveolar volume, VA')).toHaveFocus();
  });

  it('stops on its way at what the analyzer’s last run had, and passes it by where it stays empty', async () => {
    const withVolume = { vaL: 3.45, vaReportedAs: 'BTPS', dlco: 0.1, dlcoUnit: 'mL/min/mmHg' } as const;
    const handle = await openStore([
      ...staffed(),
      run(0, 3.45, { reading: { ...withVolume, inspiredVolumeL: 3.3, breathHoldS: 10 } }),
    ]);
    const { user } = await show(handle, <BenchScreen />);
    await choose(user);
    await type(user, { ...room, ...readings });
    await user.keyboard('{Enter}');
    expect(field(/Inspired volume/)).toHaveFocus();
    await user.keyboard('3.31{Enter}');
    expect(field(/Breath-hold/)).toHaveFocus();
    await user.keyboard('{Enter}');
    await screen.findByText('Saved.');
    expect(runsIn(handle)[1]?.body.reading).toMatchObject({ inspiredVolumeL: 3.31 });
  });

  it('pressed again while storage is slow writes one run', async () => {
    const handle = await openStore(staffed());
    let isSlow = false;
    const slow: typeof handle = {
      ...handle,
      writeSetting: async (key, value) => {
        if (isSlow) await new Promise((resolve) => setTimeout(resolve, 60));
        await handle.writeSetting(key, value);
      },
    };
    const { user } = await show(slow, <BenchScreen />);
    await choose(user);
    await type(user, { ...room, ...readings });
    isSlow = true;
    await user.keyboard('{Enter}');
    // The second press falls into the first one's save: its own note of the draft ends after the run is written.
    await new Promise((resolve) => setTimeout(resolve, 40));
    await user.keyboard('{Enter}');
    await screen.findByText('Saved.');
    await new Promise((resolve) => setTimeout(resolve, 200));
    expect((await settledEntriesOf(handle)).filter(({ kind }) => kind === 'run-recorded')).toHaveLength(1);
  });

  it('stays a new line in the comment, and a press on a button', async () => {
    const { user } = await show(await openStore(staffed()), <BenchScreen />);
    await user.type(field('Comment'), 'one{Enter}two');
    expect(field('Comment')).toHaveDisplayValue('one\ntwo');
    screen.getByRole('button', { name: 'Hose or filter…' }).focus();
    await user.keyboard('{Enter}');
    expect(await screen.findByRole('button', { name: 'Add a hose or filter…' })).toBeInTheDocument();
  });
});

describe('after a verdict', () => {
  async function failed() {
    const handle = await openStore([...staffed(), otherAnalyzer()]);
    const shown = await show(handle, <WithStart />);
    await choose(shown.user);
    // 3.45 L reads 2.970 L here, so this one stands beyond the published 300 mL.
    await type(shown.user, { ...room, ...readings, 'Alveolar volume, VA': '4.05' });
    await record(shown.user);
    await screen.findByRole('button', { name: /^Next due: Room 5/ });
    return { ...shown, handle };
  }

  it('R repeats the run: all but the readings, as a check that looks into the failure', async () => {
    const { user, handle } = await failed();
    await user.keyboard('r');
    await waitFor(() => expect(field('Alveolar volume, VA')).toHaveFocus());
    expect(choice('Reason')).toHaveDisplayValue('Repeat');
    expect(field('Temperature')).toHaveDisplayValue('22');
    expect(field('DLCO')).toHaveDisplayValue('');
    expect(screen.getByText('Looks into the failed run')).toBeInTheDocument();
    await user.keyboard('3.45{Enter}0.12{Enter}');
    await screen.findByText('Saved.');
    const [first, repeat] = runsIn(handle);
    expect(repeat?.body).toMatchObject({
      reason: 'repeat',
      investigates: { runId: first?.body.runId, check: 'repeat' },
    });
  });

  it('N begins the next analyzer that is due', async () => {
    const { user } = await failed();
    await user.keyboard('n');
    await waitFor(() => expect(field('Alveolar volume, VA')).toHaveFocus());
    expect(choice('Analyzer')).toHaveDisplayValue('Room 5');
    expect(choice('Reason')).toHaveDisplayValue('Weekly');
  });

  it('the same letters in a field are only typed', async () => {
    const { user } = await failed();
    await user.click(field('Comment'));
    await user.keyboard('nr');
    expect(field('Comment')).toHaveDisplayValue('nr');
    expect(choice('Analyzer')).toHaveDisplayValue('Room 2');
  });
});

describe('a run that is begun over a half-typed one', () => {
  it('on another analyzer lays it aside, to go back to with all that was typed', async () => {
    const { user } = await show(await openStore([...staffed(), otherAnalyzer()]), <WithStart />);
    await choose(user);
    await type(user, { ...room, 'Alveolar volume, VA': '3.4' });
    await press(user, 'Run Room 5');
    expect(choice('Analyzer')).toHaveDisplayValue('Room 5');
    expect(field('Alveolar volume, VA')).toHaveDisplayValue('');
    expect(field('Temperature')).toHaveDisplayValue('');
    expect(await screen.findByText(/A half-typed run of/)).toHaveTextContent(
      'A half-typed run of Room 2 is kept (patient test; VA 3.4).',
    );
    await type(user, { DLCO: '0.2' });
    await press(user, 'Go back to it');
    expect(choice('Analyzer')).toHaveDisplayValue('Room 2');
    expect(field('Alveolar volume, VA')).toHaveDisplayValue('3.4');
    expect(field('Temperature')).toHaveDisplayValue('22');
    // And that of Room 5 lies there in its place.
    expect(screen.getByText(/A half-typed run of/)).toHaveTextContent('Room 5');
    await press(user, 'Throw it away…');
    await press(user, 'Yes, throw it away');
    expect(screen.queryByText(/A half-typed run of/)).not.toBeInTheDocument();
  });

  it('is taken up again by whoever stands there now, under whose initials it is recorded', async () => {
    const { user } = await show(await openStore([...staffed(), otherAnalyzer()]), <WithStart />);
    await choose(user);
    await type(user, { 'Alveolar volume, VA': '3.4' });
    await press(user, 'Run Room 5');
    await user.selectOptions(choice('Technologist'), ids.technologist);
    await press(user, 'Go back to it');
    expect(field('Alveolar volume, VA')).toHaveDisplayValue('3.4');
    expect(choice('Technologist')).toHaveValue(ids.technologist);
  });

  it('asks anew before each of several is thrown away', async () => {
    const { user } = await show(await openStore([...staffed(), otherAnalyzer()]), <WithStart />);
    await choose(user);
    await type(user, { 'Alveolar volume, VA': '3.4' });
    await press(user, 'Run Room 5');
    await type(user, { 'Alveolar volume, VA': '3.5' });
    await press(user, 'Run Room 2');
    expect(await screen.findAllByText(/A half-typed run of/)).toHaveLength(2);
    const [first] = screen.getAllByRole('button', { name: 'Throw it away…' });
    if (first === undefined) throw new Error('nothing can be thrown away');
    await user.click(first);
    await press(user, 'Yes, throw it away');
    expect(screen.getByText(/A half-typed run of/)).toHaveTextContent(
      'Room 5 is kept (patient test; VA 3.5)',
    );
    // The other has moved up to where it was asked.
    expect(screen.queryByRole('button', { name: 'Yes, throw it away' })).not.toBeInTheDocument();
  });

  it('to find a fault is of its own analyzer: on another one it looks into nothing', async () => {
    const { user } = await show(
      await openStore([...staffed(), otherAnalyzer(), run(0, 3.37)]),
      <WithStart />,
    );
    await press(user, 'Run the other route');
    expect(screen.getByText('Looks into the failed run')).toBeInTheDocument();
    await user.selectOptions(choice('Analyzer'), 'Room 5');
    expect(screen.queryByText('Looks into the failed run')).not.toBeInTheDocument();
  });

  it('that is the same run goes on with it; one that looks into a failure does not', async () => {
    const { user } = await show(await openStore([...staffed(), run(0, 3.37)]), <WithStart />);
    await choose(user);
    await type(user, { 'Alveolar volume, VA': '3.4' });
    await press(user, 'Run Room 2');
    expect(field('Alveolar volume, VA')).toHaveDisplayValue('3.4');
    expect(screen.queryByText(/A half-typed run of/)).not.toBeInTheDocument();
    await press(user, 'Run the other route');
    expect(field('Alveolar volume, VA')).toHaveDisplayValue('');
    expect(choice('Route')).toHaveDisplayValue('Built-in routine');
    expect(await screen.findByText(/A half-typed run of/)).toBeInTheDocument();
    await press(user, 'It does not');
    expect(screen.queryByText('Looks into the failed run')).not.toBeInTheDocument();
  });
});
