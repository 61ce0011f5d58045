import { act, fireEvent, render, screen } from '@testing-library/react';
import { useState } from 'react';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { publishedLimits2017 } from '../../../src/core/index.ts';
import { notHeld, startedHold } from '../../../src/views/guided/hold.ts';
import { HoldTimer } from '../../../src/views/guided/holdTimer.tsx';

/** 10 ± 2 s: 2017 ERS/ATS DLCO standard, recalled. */
const { breathHoldS } = publishedLimits2017;

function Timer({ isStarted }: { isStarted: boolean }) {
  const [hold, setHold] = useState(isStarted ? startedHold(performance.now()) : notHeld);
  return <HoldTimer hold={hold} limits={breathHoldS} onHold={setHold} />;
}

const figure = () => screen.getByRole('timer');
const word = () => screen.getByRole('status');
const press = (name: string) => fireEvent.click(screen.getByRole('button', { name }));
const pass = (ms: number) => act(() => vi.advanceTimersByTime(ms));

describe('the hold timer', () => {
  beforeEach(() => {
    vi.useFakeTimers({ toFake: ['setInterval', 'clearInterval', 'performance'] });
  });
  afterEach(() => {
    vi.useRealTimers();
  });

  it('counts up to the target and says by a word that it is over', () => {
    const { container } = render(<Timer isStarted />);
    expect(figure()).toHaveTextContent('0 of 10 s');
    expect(word()).toHaveTextContent('Hold still');
    pass(9_900);
    expect(figure()).toHaveTextContent('9 of 10 s');
    expect(word()).toHaveTextContent('Hold still');
    pass(200);
    expect(figure()).toHaveTextContent('10 of 10 s');
    expect(word()).toHaveTextContent('Push home now');
    expect(container.querySelectorAll('.hold__box[data-filled="true"]')).toHaveLength(10);
    pass(2_000);
    expect(word()).toHaveTextContent('Too long: push home now');
  });

  it('shows the true second after a browser let it sleep, at once when the page is in sight again', () => {
    render(<Timer isStarted />);
    pass(1_000);
    // The clock goes on and no timer is called, as in a tab in the background.
    const asleep = performance.now() + 9_500;
    vi.spyOn(performance, 'now').mockReturnValue(asleep);
    expect(figure()).toHaveTextContent('1 of 10 s');
    fireEvent(document, new Event('visibilitychange'));
    expect(figure()).toHaveTextContent('10 of 10 s');
    expect(word()).toHaveTextContent('Push home now');
  });

  it('pauses, goes on, and starts again from nothing', () => {
    render(<Timer isStarted />);
    pass(3_100);
    press('Pause');
    pass(60_000);
    expect(figure()).toHaveTextContent('3 of 10 s');
    expect(word()).toHaveTextContent('Paused');
    press('Go on counting');
    pass(2_000);
    expect(figure()).toHaveTextContent('5 of 10 s');
    press('Start again from 0');
    expect(figure()).toHaveTextContent('0 of 10 s');
    pass(1_100);
    expect(figure()).toHaveTextContent('1 of 10 s');
  });

  it('stands until it is started', () => {
    render(<Timer isStarted={false} />);
    pass(20_000);
    expect(figure()).toHaveTextContent('0 of 10 s');
    expect(word()).toHaveTextContent('Not started');
    expect(screen.queryByRole('button')).not.toBeInTheDocument();
  });
});
