import 'fake-indexeddb/auto';
import { fireEvent, screen, waitFor, within } from '@testing-library/react';
import type { UserEvent } from '@testing-library/user-event';
import { describe, expect, it, vi } from 'vitest';
import type { LogbookHandle } from '../../../src/store/openLogbook.ts';
import GuidedScreen from '../../../src/views/guided/guidedScreen.tsx';
import type { StepId } from '../../../src/views/guided/guideSteps.ts';
import { useKeptDraft } from '../../../src/views/keptDraft.ts';
import { emptyDraft } from '../../../src/views/runForm/benchDraft.ts';
import { useScreenState } from '../../../src/views/screenState.ts';
import { draft, ids } from '../laboratory.ts';
import { forgetScreen, openStore, settledEntriesOf, show, staffed, withSlowSaves } from '../onLogbook.tsx';

/** The guide as the app draws it: on what was kept of the form. */
function ReloadedGuide() {
  useKeptDraft();
  return <GuidedScreen />;
}

const heading = (name: RegExp) => screen.findByRole('heading', { level: 1, name });
const field = (label: string | RegExp) => screen.getByRole('textbox', { name: label });
const soFar = () => screen.getByRole('region', { name: 'Filled in so far' });
const runsIn = async (handle: LogbookHandle) =>
  (await settledEntriesOf(handle)).filter(({ kind }) => kind === 'run-recorded');

const inHand = {
  ...emptyDraft,
  analyzerId: ids.analyzer,
  technologistId: ids.supervisor,
  syringeId: ids.syringe,
};
/** 22 °C and 760 mmHg. */
const inRoom = { ...inHand, temperature: '22', pressure: '760' };

/** The guide on `step`, with a draft that was filled in up to it. */
async function showAt(step: StepId, draft = inRoom, handle?: LogbookHandle) {
  const store = handle ?? (await openStore(staffed()));
  await store.writeSetting('guided-step', { step, at: Date.now() });
  useScreenState.getState().setBenchDraft(draft);
  const page = await show(store, <GuidedScreen />);
  await screen.findByRole('heading', { level: 1 });
  return { ...page, handle: store };
}

/** Tab up to the control, as a hand on the keyboard does. */
async function tabTo(user: UserEvent, control: () => HTMLElement) {
  for (let tabs = 0; tabs < 40 && document.activeElement !== control(); tabs += 1) await user.tab();
  expect(control()).toHaveFocus();
}

describe('the guided run', () => {
  it('goes from the empty form to the recorded run by keyboard alone', async () => {
    const handle = await openStore(staffed());
    const { user } = await show(handle, <GuidedScreen />);
    expect(await heading(/^Step 1 of 10: Who are you/)).toHaveFocus();
    // Which keys choose from a list is the browser's own; here only where the focus is.
    const choose = async (label: string, value: string) => {
      const list = () => screen.getByRole('combobox', { name: label });
      await tabTo(user, list);
      await user.selectOptions(list(), value);
    };
    await choose('Technologist', ids.supervisor);
    await choose('Analyzer', ids.analyzer);
    await user.keyboard('{Enter}');

    expect(await heading(/^Step 2 of 10: Read the room/)).toHaveFocus();
    await tabTo(user, () => field('Temperature'));
    await user.keyboard('22');
    await tabTo(user, () => field('Barometric pressure'));
    await user.keyboard('760{Enter}');

    expect(await heading(/^Step 3 of 10: Empty the syringe/)).toHaveFocus();
    expect(screen.getByText(/Attach Dedicated 3 L syringe to Room 2/)).toBeInTheDocument();
    await user.keyboard('{Enter}');

    expect(await heading(/^Step 4 of 10: Check the volume/)).toHaveFocus();
    // 3 L · 1.1201, derived from the gas law.
    expect(screen.getByText(/In this room it should read/)).toHaveTextContent('3.36 L BTPS');
    await tabTo(user, () => field(/Volume check/));
    await user.keyboard('3.34{Enter}');

    for (const name of [
      /^Step 5 of 10: Plunger home/,
      /^Step 6 of 10: Inhale/,
      /^Step 7 of 10: Hold still/,
    ]) {
      expect(await heading(name)).toHaveFocus();
      await user.keyboard('{Enter}');
    }
    expect(await heading(/^Step 8 of 10: Exhale/)).toHaveFocus();
    await user.keyboard('{Enter}');

    expect(await heading(/^Step 9 of 10: Read the analyzer/)).toHaveFocus();
    await tabTo(user, () => field('Alveolar volume, VA'));
    await user.keyboard('3.45');
    expect(screen.getByText(/Simulated VA comes to 2\.970 L: 30 mL low/)).toBeInTheDocument();
    await tabTo(user, () => field('DLCO'));
    await user.keyboard('0.12{Enter}');

    expect(await heading(/^Step 10 of 10: What the run says/)).toHaveFocus();
    expect(screen.getByRole('region', { name: /^Verdict before/ })).toHaveTextContent(
      /Not recorded yet.*Pass/,
    );
    // A second Enter after the last reading records nothing unseen.
    await user.keyboard('{Enter}');
    expect(await runsIn(handle)).toEqual([]);
    await tabTo(user, () => screen.getByRole('button', { name: 'Record run' }));
    await user.keyboard('{Enter}');
    const saved = await screen.findByRole('region', { name: 'Recorded verdict' });
    expect(saved).toHaveTextContent(/Saved\..*Room 2, run of .*, recorded by IM\..*Pass/);
    expect(within(saved).getByRole('status')).toHaveFocus();
    const [run, ...others] = await runsIn(handle);
    expect(others).toEqual([]);
    expect(run?.body).toMatchObject({
      analyzerId: ids.analyzer,
      syringeId: ids.syringe,
      technologistId: ids.supervisor,
      ambient: { temperatureC: 22, barometricMmHg: 760 },
      reading: { vaL: 3.45, dlco: 0.12, volumeCheckL: 3.34 },
      origin: { kind: 'bench' },
    });
    expect(useScreenState.getState().benchDraft.va).toBe('');
  });

  it('stays on a step that lacks something, says what beside the field, and goes there', async () => {
    const { user } = await showAt('room', inHand);
    await user.type(field('Temperature'), '72{Enter}');
    expect(await heading(/^Step 2/)).toBeInTheDocument();
    expect(field('Temperature')).toHaveAccessibleDescription(/it looks like °F/);
    expect(field('Barometric pressure')).toHaveAccessibleDescription('Type the barometric pressure.');
    expect(field('Temperature')).toHaveFocus();
    await user.clear(field('Temperature'));
    await user.type(field('Temperature'), '22');
    await user.type(field('Barometric pressure'), '760{Enter}');
    expect(await heading(/^Step 3/)).toHaveFocus();
  });

  it('goes back by Esc, from a field as from the page, and keeps what was typed', async () => {
    const { user } = await showAt('volume-check');
    await user.type(field(/Volume check/), '3.3');
    await user.keyboard('{Escape}');
    expect(await heading(/^Step 3/)).toHaveFocus();
    await user.keyboard('{Escape}');
    expect(await heading(/^Step 2/)).toHaveFocus();
    expect(field('Temperature')).toHaveDisplayValue('22');
    await user.keyboard('{Escape}{Escape}{Escape}');
    expect(await heading(/^Step 1 of/)).toHaveFocus();
    expect(useScreenState.getState().benchDraft.volumeCheck).toBe('3.3');
  });

  it('counts a key that is held down once', async () => {
    await showAt('syringe');
    const page = document.activeElement ?? document.body;
    fireEvent.keyDown(page, { key: 'Enter' });
    expect(await heading(/^Step 4/)).toBeInTheDocument();
    fireEvent.keyDown(document.activeElement ?? document.body, { key: 'Enter', repeat: true });
    expect(screen.getByRole('heading', { level: 1 })).toHaveTextContent(/^Step 4/);
  });

  it('goes back to a step that lies behind at a press, and to none that lies ahead', async () => {
    const { user } = await showAt('inhale');
    const steps = within(screen.getByRole('navigation', { name: 'Steps of the run' }));
    expect(steps.getByText('Inhale')).toHaveAttribute('aria-current', 'step');
    expect(steps.queryByRole('button', { name: 'Exhale' })).not.toBeInTheDocument();
    await user.click(steps.getByRole('button', { name: 'The room' }));
    expect(await heading(/^Step 2/)).toHaveFocus();
  });

  it('asks what is left on the syringe and counts its volume', async () => {
    const { user, handle } = await showAt('verdict', {
      ...inRoom,
      attached: [{ name: 'Filter', volume: '35' }],
      va: '3.45',
      dlco: '0.12',
    });
    expect(soFar()).toHaveTextContent('Filter, 35 mL');
    // 3.45 · 0.8928 − 0.110 − 0.035 = 2.935 L
    expect(screen.getByRole('region', { name: /^Verdict before/ })).toHaveTextContent('65 mL low');
    await user.click(screen.getByRole('button', { name: 'Who and with what' }));
    expect(await screen.findByText(/Left on the syringe:/)).toBeInTheDocument();
    expect(screen.getByRole('button', { name: 'Hose or filter…' })).toBeInTheDocument();
    useScreenState.getState().setBenchDraft({
      ...useScreenState.getState().benchDraft,
      attached: [{ name: 'Filter', volume: '' }],
    });
    await user.click(screen.getByRole('button', { name: 'On to the room' }));
    expect(await screen.findByText(/Type the volume of Filter/)).toBeInTheDocument();
    expect(screen.getByRole('heading', { level: 1 })).toHaveTextContent(/^Step 1 of/);
    expect(await runsIn(handle)).toEqual([]);
  });

  it('carries a caution and who decides on every step', async () => {
    const { user } = await showAt('syringe');
    const caution = () => screen.getByRole('region', { name: 'Caution' });
    expect(caution()).toHaveTextContent(/carbon monoxide: ventilate.*compressed-gas cylinder/);
    expect(caution()).toHaveTextContent(/Local procedure and the manufacturer’s instructions decide/);
    await user.keyboard('{Enter}');
    expect(caution()).toHaveTextContent(/No test gas yet.*Local procedure/);
  });
});

describe('the volume check of the guide', () => {
  it('is judged at once, inside as expected', async () => {
    const { user } = await showAt('volume-check');
    expect(screen.getByRole('button', { name: 'Go on without a volume check' })).toBeInTheDocument();
    await user.type(field(/Volume check/), '3.34');
    // 3.34 / 3.3603 − 1 = −0.60 %
    expect(screen.getByText('0.6 % low, inside ±3 %.')).toBeInTheDocument();
    await user.keyboard('{Enter}');
    expect(await heading(/^Step 5/)).toHaveFocus();
  });

  it('stops whoever types on past a reading outside, says where to look, and lets go on by its own button', async () => {
    const { user } = await showAt('volume-check');
    await user.type(field(/Volume check/), '3.05{Enter}');
    expect(screen.getByRole('heading', { level: 1 })).toHaveTextContent(/^Step 4/);
    // 3.05 / 3.3603 − 1 = −9.2 %
    expect(document.activeElement).toHaveTextContent(
      /9\.2 % low, outside ±3 %\.Stop: look at the coupling, the hose and the filter/,
    );
    await user.keyboard('{Enter}');
    expect(screen.getByRole('heading', { level: 1 })).toHaveTextContent(/^Step 4/);
    await tabTo(user, () => screen.getByRole('button', { name: 'Go on all the same' }));
    await user.keyboard('{Enter}');
    expect(await heading(/^Step 5/)).toHaveFocus();
    expect(soFar()).toHaveTextContent('3.05 L BTPS');
  });

  it('leads back to the room while it cannot be computed', async () => {
    const { user } = await showAt('volume-check', inHand);
    expect(screen.getByText('What it should read cannot be computed yet.')).toBeInTheDocument();
    await user.click(screen.getByRole('button', { name: 'Back to the room' }));
    expect(await heading(/^Step 2/)).toHaveFocus();
  });
});

describe('the hold of the guide', () => {
  it('starts with the press that ends the inhaling, and the next step says how long it was', async () => {
    const { user } = await showAt('inhale');
    const clock = vi.spyOn(performance, 'now').mockReturnValue(1_000);
    await user.click(screen.getByRole('button', { name: 'It is out: start the timer' }));
    expect(await screen.findByText('Hold still')).toBeInTheDocument();
    clock.mockReturnValue(11_400);
    expect(await screen.findByText('Push home now')).toBeInTheDocument();
    await user.click(screen.getByRole('button', { name: 'On to exhaling' }));
    expect(await screen.findByText('Held for 10.4 s by the timer here.')).toBeInTheDocument();
    // What is recorded is what the analyzer shows, never this timer.
    expect(useScreenState.getState().benchDraft.breathHold).toBe('');
  });

  it('waits for a press where the guide was taken up at the hold', async () => {
    const { user } = await showAt('hold');
    expect(screen.getByText('Not started')).toBeInTheDocument();
    await user.keyboard('{Enter}');
    expect(await screen.findByText('Hold still')).toBeInTheDocument();
    expect(screen.getByRole('heading', { level: 1 })).toHaveTextContent(/^Step 7/);
  });
});

describe('what is kept of the guide', () => {
  it('comes back on its step with all that was typed after a reload', async () => {
    const handle = await openStore(staffed());
    const first = await showAt('read', inRoom, handle);
    await first.user.type(field('Alveolar volume, VA'), '3.45');
    await handle.writeSetting('bench-draft', {
      draft: useScreenState.getState().benchDraft,
      recordingAs: null,
    });
    first.unmount();
    forgetScreen();
    await show(handle, <ReloadedGuide />);
    expect(await heading(/^Step 9/)).toBeInTheDocument();
    await waitFor(() => expect(field('Alveolar volume, VA')).toHaveDisplayValue('3.45'));
    expect(soFar()).toHaveTextContent(/Room 2.*22 °C.*3\.45 L BTPS/);
  });

  it('begins anew where it was left in the middle long ago', async () => {
    const handle = await openStore(staffed());
    await handle.writeSetting('guided-step', { step: 'hold', at: Date.now() - 5 * 3_600_000 });
    await show(handle, <GuidedScreen />);
    expect(await heading(/^Step 1 of/)).toBeInTheDocument();
  });

  it('begins anew after the run was recorded, whether its verdict was left by a press or by a reload', async () => {
    const handle = await openStore(staffed());
    const { user, unmount } = await showAt('verdict', { ...inRoom, va: '3.45', dlco: '0.12' }, handle);
    await user.click(screen.getByRole('button', { name: 'Record run' }));
    await screen.findByRole('region', { name: 'Recorded verdict' });
    await user.keyboard('{Escape}');
    expect(screen.getByRole('region', { name: 'Recorded verdict' })).toBeInTheDocument();
    unmount();
    forgetScreen();
    await show(handle, <GuidedScreen />);
    expect(await heading(/^Step 1 of/)).toBeInTheDocument();
  });

  it('begins the next run at a press', async () => {
    const { user } = await showAt('verdict', { ...inRoom, va: '3.45', dlco: '0.12' });
    await user.click(screen.getByRole('button', { name: 'Record run' }));
    await user.click(await screen.findByRole('button', { name: 'Guide another run' }));
    expect(await heading(/^Step 1 of/)).toHaveFocus();
    expect(useScreenState.getState().recordedRunId).toBeNull();
  });
});

describe('the verdict of the guide', () => {
  it('says what is still to come and leads to its step', async () => {
    const { user, handle } = await showAt('verdict', { ...inRoom, pressure: '', va: '3.45' });
    const open = screen.getByRole('region', { name: 'Still to come' });
    expect(open).toHaveTextContent(
      /The pressure is missing.*Back to step 2.*DLCO is missing.*Back to step 9/,
    );
    await user.click(screen.getByRole('button', { name: 'Record run' }));
    expect(await runsIn(handle)).toEqual([]);
    await user.click(within(open).getByRole('button', { name: 'Back to step 2' }));
    expect(await heading(/^Step 2/)).toHaveFocus();
  });

  it('asks before it records what is more often a slip, and Esc goes back to the verdict', async () => {
    const { user, handle } = await showAt('verdict', {
      ...inRoom,
      va: '3.45',
      dlco: '0.12',
      madeAt: '2099-01-01T08:00',
    });
    await user.click(screen.getByRole('button', { name: 'Record run' }));
    expect(await screen.findByText(/which is still to come/)).toBeInTheDocument();
    await user.keyboard('{Escape}');
    expect(screen.getByRole('button', { name: 'Record run' })).toBeInTheDocument();
    expect(screen.getByRole('heading', { level: 1 })).toHaveTextContent(/^Step 10/);
    expect(await runsIn(handle)).toEqual([]);
  });

  it('offers a run on an analyzer out of service as one after service, as the bench does', async () => {
    const outOfService = draft('service-set', {
      serviceId: 'service-of-january',
      analyzerId: ids.analyzer,
      inService: false,
      from: '2026-01-10T09:00:00.000Z',
      reason: 'Valve sticks',
    });
    const handle = await openStore([...staffed(), outOfService]);
    const { user } = await showAt('verdict', { ...inRoom, va: '3.45', dlco: '0.12' }, handle);
    await user.click(screen.getByRole('button', { name: 'Record run' }));
    await user.click(await screen.findByRole('button', { name: 'Record it as a run after service' }));
    expect(await screen.findByText('Saved.')).toBeInTheDocument();
    expect(await runsIn(handle)).toMatchObject([{ body: { reason: 'after-service' } }]);
  });

  it('says "Saved" only after the commit', async () => {
    const handle = withSlowSaves(await openStore(staffed()));
    const { user } = await showAt('verdict', { ...inRoom, va: '3.45', dlco: '0.12' }, handle);
    await user.click(screen.getByRole('button', { name: 'Record run' }));
    expect(await screen.findByRole('button', { name: 'Saving…' })).toBeInTheDocument();
    expect(screen.queryByText('Saved.')).not.toBeInTheDocument();
    handle.letGo();
    expect(await screen.findByText('Saved.')).toBeInTheDocument();
  });

  it('leads a failed run to the next checks', async () => {
    const { user } = await showAt('verdict', { ...inRoom, va: '3.95', dlco: '0.12' });
    expect(screen.queryByRole('region', { name: 'Look into it' })).not.toBeInTheDocument();
    await user.click(screen.getByRole('button', { name: 'Record run' }));
    // 3.95 · 0.8928 − 0.110 = 3.417 L
    const saved = await screen.findByRole('region', { name: 'Recorded verdict' });
    expect(saved).toHaveTextContent(/Fail.*417 mL high/);
    const checks = await screen.findByRole('region', { name: 'Look into it' });
    await user.click(within(checks).getByRole('button', { name: 'Repeat this run' }));
    expect(useScreenState.getState().benchDraft).toMatchObject({
      reason: 'repeat',
      investigates: { check: 'repeat' },
    });
  });
});
