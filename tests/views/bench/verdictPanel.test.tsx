import 'fake-indexeddb/auto';
import { act, screen, within } from '@testing-library/react';
import { describe, expect, it } from 'vitest';
import type { EntryDraft } from '../../../src/journal/entries.ts';
import { BenchScreen } from '../../../src/views/bench/benchScreen.tsx';
import { useScreenState } from '../../../src/views/screenState.ts';
import { axe } from '../charts/axe.ts';
import { failing, goodWeeks, lookingInto, sameDay, threeAnalyzers } from '../investigationFixtures.ts';
import { ids, technologistDraft } from '../laboratory.ts';
import { openStore, show } from '../onLogbook.tsx';
import { judged } from '../run/runFixtures.ts';

/** The bench just after run `number` was recorded. */
async function recorded(entries: readonly EntryDraft[], number = 10) {
  const handle = await openStore([...threeAnalyzers(), technologistDraft(), ...goodWeeks(0), ...entries]);
  const shown = await show(handle, <BenchScreen />);
  act(() => useScreenState.getState().setRecordedRunId(ids.run(number)));
  return shown;
}

const verdict = () => screen.getByRole('region', { name: 'Recorded verdict' });

describe('the verdict of a recorded run', () => {
  it('says in one sentence what to do, then what was found', async () => {
    await recorded([failing(3.01)]);
    expect(verdict()).toHaveTextContent(
      /Pass.*Run again before the next patient: this run is of 16 Mar 2026\..*Simulated VA is 10 mL high \(z \+0\.5\)\. Inside your 2 SD.*Local procedure/,
    );
    expect(screen.queryByRole('region', { name: 'Look into it' })).not.toBeInTheDocument();
  });

  it('gives the reason at a press: rule, runs that took part, numbers, uncertainty and whose limits', async () => {
    const { user, container } = await recorded([failing(3.2)]);
    expect(screen.queryByText('VA: rule 1-3s')).not.toBeInTheDocument();
    await user.click(screen.getByText('Why'));
    const rule = await screen.findByRole('region', { name: 'VA: rule 1-3s' });
    expect(rule).toHaveTextContent('One run beyond 3 SD. Its z is +9.26. It fails the run.');
    expect(verdict()).toHaveTextContent(/Its uncertainty±\d+ mLk = 2, about 95 %; standard \d+ mL/);
    expect(verdict()).toHaveTextContent('Published limits: 2017.');
    expect(await axe(container)).toEqual([]);
  });

  it('offers after a failing run the two checks that would tell most, and the way to all', async () => {
    const { user } = await recorded([failing(3.2, { judged: judged('fail', 3.2) })]);
    const lookInto = await screen.findByRole('region', { name: 'Look into it' });
    expect(
      within(lookInto)
        .getAllByRole('button')
        .map(({ textContent }) => textContent),
    ).toEqual(['Note a volume check', 'Read the room, run again']);
    expect(within(lookInto).getByRole('link')).toHaveAttribute(
      'href',
      expect.stringContaining(`/investigation/${ids.run(10)}`),
    );
    // The repeat stands above it, one letter away.
    await user.click(screen.getByRole('button', { name: /^Repeat this run/ }));
    expect(useScreenState.getState().benchDraft.investigates).toEqual({
      runId: ids.run(10),
      check: 'repeat',
    });
  });

  it('after a repeat that failed stops, and leads to the same investigation', async () => {
    await recorded([failing(3.2), sameDay(20, 3.21, lookingInto('repeat'))], 20);
    expect(verdict()).toHaveTextContent('Stop: no patients. It failed again: tell the supervisor.');
    const lookInto = await screen.findByRole('region', { name: 'Look into it' });
    expect(within(lookInto).getByRole('link')).toHaveAttribute(
      'href',
      expect.stringContaining(`/investigation/${ids.run(10)}`),
    );
  });

  it('of a good repeat keeps the analyzer from patients until the failure is closed', async () => {
    await recorded([failing(3.2), sameDay(20, 3.0, lookingInto('repeat'))], 20);
    expect(verdict()).toHaveTextContent(
      /No patients(?: yet: this run is good, but only a supervisor closes the failure|: a failure is open)/,
    );
  });
});

describe('an open failure above the verdict', () => {
  it('leads to its investigation', async () => {
    await recorded([failing(3.2)]);
    act(() => {
      const { benchDraft, setBenchDraft } = useScreenState.getState();
      setBenchDraft({ ...benchDraft, analyzerId: ids.analyzer });
    });
    const notice = screen.getByText('A failure is open on this analyzer').parentElement;
    expect(notice).toHaveTextContent(/VA, patient test, since 16 Mar 2026/);
    expect(within(notice ?? document.body).getByRole('link', { name: 'Look into it' })).toHaveAttribute(
      'href',
      `/investigation/${ids.run(10)}`,
    );
  });
});
