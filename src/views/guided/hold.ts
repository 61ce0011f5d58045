/** The breath-hold as this page counts it. Times in ms by a clock that is never set, such as performance.now(). */
import type { PublishedLimits } from '../../core/index.ts';
import { withoutBinaryNoise } from '../../journal/binaryNoise.ts';
import { plain } from '../parts/figures.ts';

/**
 * `since`: when it was started or went on after a pause; null while it stands. `beforeMs`: what was held up to then.
 * No ticks are counted: a page that the browser slows down or puts to sleep shows the true time as soon as it is drawn.
 */
export interface Hold {
  since: number | null;
  beforeMs: number;
}

export const notHeld: Hold = { since: null, beforeMs: 0 };
export const startedHold = (now: number): Hold => ({ since: now, beforeMs: 0 });
export const heldMs = ({ since, beforeMs }: Hold, now: number) =>
  beforeMs + (since === null ? 0 : Math.max(0, now - since));
export const pausedHold = (hold: Hold, now: number): Hold => ({ since: null, beforeMs: heldMs(hold, now) });
export const resumedHold = (hold: Hold, now: number): Hold => ({ ...hold, since: now });
export const hasStarted = ({ since, beforeMs }: Hold) => since !== null || beforeMs > 0;

/** Both ends are in order. 9.9 − 0.3 is 9.600000000000001. */
export const holdRange = ({ target, tolerance }: PublishedLimits['breathHoldS']) => ({
  shortest: withoutBinaryNoise(target - tolerance),
  longest: withoutBinaryNoise(target + tolerance),
});

export type HoldPhase = 'ready' | 'holding' | 'exhale' | 'too-long';

export interface HoldFace {
  phase: HoldPhase;
  /** The word that tells the phase without any colour. */
  word: string;
  /** Whole seconds that are over. */
  seconds: number;
  /** One box a second of the target; `filled` of them are over. */
  boxes: number;
  filled: number;
}

export function holdFace(
  hold: Hold,
  now: number,
  { target, tolerance }: PublishedLimits['breathHoldS'],
): HoldFace {
  const ms = heldMs(hold, now);
  const phase = phaseAt(ms / 1000, target, tolerance, hasStarted(hold));
  const isPaused = phase === 'holding' && hold.since === null;
  const boxes = Math.ceil(target);
  const seconds = Math.floor(ms / 1000);
  return {
    phase,
    word: isPaused ? 'Paused' : phaseWords[phase],
    seconds,
    boxes,
    filled: Math.min(boxes, seconds),
  };
}

const phaseWords: Record<HoldPhase, string> = {
  ready: 'Not started',
  holding: 'Hold still',
  exhale: 'Push home now',
  'too-long': 'Too long: push home now',
};

function phaseAt(seconds: number, target: number, tolerance: number, started: boolean): HoldPhase {
  if (!started) return 'ready';
  if (seconds < target) return 'holding';
  return seconds <= holdRange({ target, tolerance }).longest ? 'exhale' : 'too-long';
}

/** What the timer found, for the step after; null where it was not used. */
export function heldSentence(
  hold: Hold,
  now: number,
  { target, tolerance }: PublishedLimits['breathHoldS'],
): string | null {
  if (!hasStarted(hold)) return null;
  const seconds = Math.round(heldMs(hold, now) / 100) / 10;
  const { shortest, longest } = holdRange({ target, tolerance });
  const held = `Held for ${plain(seconds)} s by the timer here`;
  const mayBeRefused = 'The analyzer may refuse the breath; then make the run again.';
  if (seconds < shortest) return `${held}: shorter than ${plain(shortest)} s. ${mayBeRefused}`;
  if (seconds > longest) return `${held}: longer than ${plain(longest)} s. ${mayBeRefused}`;
  return `${held}.`;
}
