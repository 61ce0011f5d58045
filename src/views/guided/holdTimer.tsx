import { useEffect, useState } from 'react';
import type { PublishedLimits } from '../../core/index.ts';
import { plain } from '../parts/figures.ts';
import { type Hold, holdFace, pausedHold, resumedHold, startedHold } from './hold.ts';
import { clockMs } from './useGuide.ts';

/** How often the page looks at the clock: a new second is shown at most this late. */
const lookEveryMs = 100;

/** Seconds as a large figure and as boxes that fill, with a word for what to do now. Nothing moves but whole steps. */
export function HoldTimer({
  hold,
  onHold,
  limits,
}: {
  hold: Hold;
  onHold: (hold: Hold) => void;
  limits: PublishedLimits['breathHoldS'];
}) {
  const now = useClock(hold.since !== null);
  const { phase, word, seconds, boxes, filled } = holdFace(hold, now, limits);
  return (
    <section aria-label="Breath-hold timer" className="hold" data-phase={phase}>
      <p className="hold__figure" role="timer">
        {seconds} <span className="unit hold__of">of {plain(limits.target)} s</span>
      </p>
      <div aria-hidden="true" className="hold__boxes">
        {Array.from({ length: boxes }, (_, index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: the boxes are their places.
          <span className="hold__box" data-filled={index < filled} key={index} />
        ))}
      </div>
      <p className="hold__word" role="status">
        {word}
      </p>
      {phase === 'ready' ? null : (
        <div className="line">
          {phase !== 'holding' ? null : hold.since === null ? (
            <button onClick={() => onHold(resumedHold(hold, clockMs()))} type="button">
              Go on counting
            </button>
          ) : (
            <button onClick={() => onHold(pausedHold(hold, clockMs()))} type="button">
              Pause
            </button>
          )}
          <button onClick={() => onHold(startedHold(clockMs()))} type="button">
            Start again from 0
          </button>
        </div>
      )}
    </section>
  );
}

/** The page's clock, looked at while it runs, and at once when the page comes back into sight. */
function useClock(isRunning: boolean): number {
  const [now, setNow] = useState(clockMs);
  useEffect(() => {
    if (!isRunning) return;
    const look = () => setNow(clockMs());
    look();
    const timer = setInterval(look, lookEveryMs);
    document.addEventListener('visibilitychange', look);
    return () => {
      clearInterval(timer);
      document.removeEventListener('visibilitychange', look);
    };
  }, [isRunning]);
  return now;
}
