import 'fake-indexeddb/auto';
import { act, screen, waitFor } from '@testing-library/react';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { BenchScreen } from '../../../src/views/bench/benchScreen.tsx';
import { draft, ids, run } from '../laboratory.ts';
import { forgetScreen, openStore, show, staffed } from '../onLogbook.tsx';
import { otherAnalyzer } from '../run/runFixtures.ts';
import {
  choice,
  choose,
  field,
  press,
  ReloadedBench,
  readings,
  record,
  room,
  runsIn,
  type,
} from './benchSteps.tsx';

afterEach(() => {
  sessionStorage.clear();
  vi.useRealTimers();
});

async function recordedOne() {
  const handle = await openStore([...staffed(), otherAnalyzer()]);
  const shown = await show(handle, <ReloadedBench />);
  await choose(shown.user);
  await type(shown.user, { ...room, ...readings });
  await record(shown.user);
  return { ...shown, handle };
}

const draftIsKept = () => new Promise((resolve) => setTimeout(resolve, 400));

describe('the run after a recorded one', () => {
  it('has its room, syringe and person, each marked with where it comes from, and no reading', async () => {
    await recordedOne();
    expect(field('Temperature')).toHaveDisplayValue('22');
    expect(field('Temperature')).toHaveAccessibleDescription(/^carried from Room 2, \d\d:\d\d$/);
    expect(field('Barometric pressure')).toHaveAccessibleDescription(/carried from Room 2/);
    expect(choice('Technologist')).toHaveAccessibleDescription(/carried from Room 2/);
    expect(choice('Syringe')).toHaveAccessibleDescription(/carried from Room 2/);
    expect(screen.getByText('person, syringe, temperature, pressure')).toBeInTheDocument();
    expect(field('Alveolar volume, VA')).toHaveDisplayValue('');
  });

  it('on another analyzer keeps them, with the place and the moment at which they were read', async () => {
    const { user } = await recordedOne();
    await user.selectOptions(choice('Analyzer'), 'Room 5');
    expect(field('Temperature')).toHaveAccessibleDescription(/carried from Room 2/);
    await type(user, readings);
    await record(user);
    // Read for Room 2 still, whatever analyzers it was used on since.
    expect(field('Temperature')).toHaveAccessibleDescription(/carried from Room 2/);
  });

  it('loses a mark to a hand that types over it, and all at one press', async () => {
    const { user } = await recordedOne();
    await type(user, { Temperature: '23' });
    expect(field('Temperature')).not.toHaveAccessibleDescription();
    expect(field('Barometric pressure')).toHaveAccessibleDescription(/carried/);
    await press(user, 'Clear what is carried');
    expect(field('Temperature')).toHaveDisplayValue('23');
    expect(field('Barometric pressure')).toHaveDisplayValue('');
    expect(choice('Technologist')).toHaveDisplayValue('Choose…');
    expect(choice('Syringe')).toHaveDisplayValue('Dedicated 3 L syringe');
    expect(screen.queryByText('Carried over:')).not.toBeInTheDocument();
  });

  it('has them after a reload', async () => {
    const { handle, unmount } = await recordedOne();
    await draftIsKept();
    unmount();
    forgetScreen();
    await show(handle, <ReloadedBench />);
    await waitFor(() => expect(field('Temperature')).toHaveDisplayValue('22'));
    expect(field('Temperature')).toHaveAccessibleDescription(/carried from Room 2/);
    expect(choice('Technologist')).toHaveDisplayValue(/Ilse Marong/);
  });

  it('has none of them in another session: not even who was here before', async () => {
    const { handle, unmount } = await recordedOne();
    await draftIsKept();
    unmount();
    forgetScreen();
    sessionStorage.setItem('diffusion-qc-logbook session', 'the next one');
    await show(handle, <ReloadedBench />);
    await waitFor(() => expect(choice('Analyzer')).toHaveDisplayValue('Room 2'));
    expect(field('Temperature')).toHaveDisplayValue('');
    expect(field('Barometric pressure')).toHaveDisplayValue('');
    expect(choice('Technologist')).toHaveDisplayValue('Choose…');
    expect(choice('Syringe')).toHaveDisplayValue('Dedicated 3 L syringe');
  });

  it('asks for the room to be read again after an hour, and has none of it the next day', async () => {
    vi.useFakeTimers({ toFake: ['Date'], now: new Date(2026, 10, 25, 9) });
    const { handle, unmount } = await recordedOne();
    await draftIsKept();
    unmount();
    const reloadedAt = async (day: number, hour: number) => {
      vi.setSystemTime(new Date(2026, 10, day, hour, 1));
      forgetScreen();
      const shown = await show(handle, <ReloadedBench />);
      await waitFor(() => expect(choice('Analyzer')).toHaveDisplayValue('Room 2'));
      return shown;
    };
    const later = await reloadedAt(25, 10);
    expect(field('Temperature')).toHaveDisplayValue('22');
    expect(field('Temperature')).toHaveAccessibleDescription(
      /^Read 09:00, more than an hour ago: read it again\. carried from Room 2, 09:00$/,
    );
    later.unmount();
    await reloadedAt(26, 8);
    expect(field('Temperature')).toHaveDisplayValue('');
    expect(choice('Technologist')).toHaveDisplayValue('Choose…');
  });

  it('on a page that stands open overnight loses yesterday’s room with the first look at it', async () => {
    vi.useFakeTimers({ toFake: ['Date'], now: new Date(2026, 10, 25, 9) });
    const { handle } = await recordedOne();
    expect(field('Temperature')).toHaveDisplayValue('22');
    vi.setSystemTime(new Date(2026, 10, 26, 8));
    // Any news of the logbook, as the clock does every half minute.
    await act(() =>
      handle.appendEntries([
        draft('technologist-retired', { technologistId: ids.technologist, reason: 'Left.' }),
      ]),
    );
    await waitFor(() => expect(field('Temperature')).toHaveDisplayValue(''));
  });
});

describe('a draft that a former version kept', () => {
  it('is taken up with all that was typed', async () => {
    const handle = await openStore([...staffed(), run(7, 3.45)]);
    await handle.writeSetting('bench-draft', {
      draft: {
        analyzerId: ids.analyzer,
        technologistId: ids.supervisor,
        syringeId: ids.syringe,
        route: 'built-in',
        reason: 'weekly',
        madeAt: '',
        temperature: '22',
        pressure: '1013',
        pressureUnit: 'hPa',
        humidity: '',
        va: '3.4',
        vaReportedAs: 'BTPS',
        dlco: '',
        dlcoUnit: 'mL/min/mmHg',
        inspiredVolume: '',
        volumeCheck: '',
        breathHold: '',
        comment: 'half',
      },
      recordingAs: null,
    });
    await show(handle, <ReloadedBench />);
    await waitFor(() => expect(field('Alveolar volume, VA')).toHaveDisplayValue('3.4'));
    expect(field('Barometric pressure')).toHaveAccessibleDescription(/^= 759\.8 mmHg/);
    expect(field('Comment')).toHaveDisplayValue('half');
  });
});

describe('units', () => {
  it('are changed without retyping, and the number in the other stands beside it', async () => {
    const handle = await openStore(staffed());
    const { user } = await show(handle, <BenchScreen />);
    await choose(user);
    await type(user, { Temperature: '72.5', 'Barometric pressure': '1013', ...readings });
    await user.selectOptions(choice('Unit of pressure'), 'hPa');
    await user.selectOptions(choice('Thermometer scale'), '°F');
    expect(field('Barometric pressure')).toHaveDisplayValue('1013');
    // 1013 hPa / 1.33322 = 759.8 mmHg; (72.5 − 32) / 1.8 = 22.5 °C: by hand.
    expect(field('Barometric pressure')).toHaveAccessibleDescription('= 759.8 mmHg');
    expect(field('Temperature')).toHaveAccessibleDescription('= 22.5 °C');
    // 0.12 / 2.987 = 0.040.
    expect(field('DLCO')).toHaveAccessibleDescription('= 0.040 mmol/min/kPa');
    await record(user);
    expect(runsIn(handle)[0]?.body).toMatchObject({
      ambient: { temperatureC: 22.5 },
      temperatureAsTyped: { value: 72.5, unit: '°F' },
      pressureAsTyped: { value: 1013, unit: 'hPa' },
    });
  });

  it('where the number can only have been read in the former one, it is converted at a press', async () => {
    const { user } = await show(await openStore(staffed()), <BenchScreen />);
    await choose(user);
    await user.selectOptions(choice('Unit of pressure'), 'hPa');
    await type(user, { 'Barometric pressure': '1013' });
    await user.selectOptions(choice('Unit of pressure'), 'kPa');
    expect(screen.getByRole('button', { name: 'Switch to hPa' })).toBeInTheDocument();
    await press(user, 'Use 101.3 kPa');
    expect(field('Barometric pressure')).toHaveDisplayValue('101.3');
    expect(field('Barometric pressure')).not.toHaveAttribute('aria-invalid');
  });

  it('a household barometer in inches of mercury is recognised: 29.92 · 25.4 = 760', async () => {
    const { user } = await show(await openStore(staffed()), <BenchScreen />);
    await choose(user);
    await type(user, { 'Barometric pressure': '29.92' });
    await user.tab();
    expect(field('Barometric pressure')).toHaveAccessibleDescription(/it looks like inHg \(760 mmHg\)/);
    await press(user, 'Use 760');
    expect(field('Barometric pressure')).toHaveDisplayValue('760');
  });
});
