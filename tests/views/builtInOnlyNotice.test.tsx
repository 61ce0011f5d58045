import 'fake-indexeddb/auto';
import { screen } from '@testing-library/react';
import { describe, expect, it } from 'vitest';
import { BenchScreen } from '../../src/views/bench/benchScreen.tsx';
import { useScreenState } from '../../src/views/screenState.ts';
import { ids, run } from './laboratory.ts';
import { openStore, show, staffed } from './onLogbook.tsx';

const weeksAgo = (weeks: number) => new Date(Date.now() - weeks * 7 * 86_400_000).toISOString();
const weekly = (route: 'built-in' | 'patient-test') =>
  [5, 3, 2, 1].map((weeks) => run(weeks, 3, { route, madeAt: weeksAgo(weeks) }));
const said = /^Room 2: all 3 syringe runs of the last four weeks are by the built-in routine/;

function takeAnalyzerInHand() {
  const { benchDraft, setBenchDraft } = useScreenState.getState();
  setBenchDraft({ ...benchDraft, analyzerId: ids.analyzer });
}

describe('the notice of built-in runs alone', () => {
  it('stands on the bench once that analyzer is in hand', async () => {
    takeAnalyzerInHand();
    await show(await openStore([...staffed(), ...weekly('built-in')]), <BenchScreen />);
    expect(await screen.findByText(said)).toBeVisible();
  });

  it('does not stand beside an analyzer that is run by the patient test, nor beside none', async () => {
    takeAnalyzerInHand();
    const { unmount } = await show(
      await openStore([...staffed(), ...weekly('patient-test')]),
      <BenchScreen />,
    );
    expect(screen.queryByText(said)).toBeNull();
    unmount();
    useScreenState.setState(useScreenState.getInitialState());
    await show(await openStore([...staffed(), ...weekly('built-in')]), <BenchScreen />);
    expect(screen.queryByText(said)).toBeNull();
  });
});
