/** Which part of a series' time is shown: all of it, or from one day to another, kept in the address. */
import { addDays, startOfDay, subMonths } from 'date-fns';
import { localDay } from '../parts/localTime.ts';

/** Milliseconds, `from` before `to`. */
export interface Span {
  from: number;
  to: number;
}

export const dayMs = 86_400_000;
/** Two weeks at least: a series is mostly weekly. */
const shortest = 14 * dayMs;

/** As close to `wished` as fits into the whole; null, which is all of it, where nothing is left out. */
export function fitted(wished: Span, whole: Span): Span | null {
  const length = Math.max(wished.to - wished.from, shortest);
  if (length >= whole.to - whole.from) return null;
  const middle = (wished.from + wished.to) / 2;
  const from = Math.min(Math.max(middle - length / 2, whole.from), whole.to - length);
  return { from, to: from + length };
}

/** What of the days in an address lies within the whole; null, which is all of it, where nothing does. */
export function shownOf(days: Span | null, whole: Span): Span | null {
  if (days === null || days.to <= whole.from || days.from >= whole.to) return null;
  return fitted({ from: Math.max(days.from, whole.from), to: Math.min(days.to, whole.to) }, whole);
}

/** `factor` below 1 shows less time around the same middle, above 1 more. */
export function zoomed(shown: Span | null, whole: Span, factor: number): Span | null {
  const { from, to } = shown ?? whole;
  const middle = (from + to) / 2;
  const half = ((to - from) / 2) * factor;
  return fitted({ from: middle - half, to: middle + half }, whole);
}

/** Moves by a share of what is shown: negative is back in time. All of it cannot be moved. */
export function moved(shown: Span | null, whole: Span, share: number): Span | null {
  if (shown === null) return null;
  const distance = (shown.to - shown.from) * share;
  return fitted({ from: shown.from + distance, to: shown.to + distance }, whole);
}

/** The last so many months of the whole. */
export const lastMonths = (whole: Span, months: number): Span | null =>
  fitted({ from: subMonths(whole.to, months).getTime(), to: whole.to }, whole);

export type WindowMove = 'closer' | 'wider' | 'earlier' | 'later' | 'first' | 'last' | 'all';

/** What a key does to the part shown; undefined for a key that does nothing here. */
export const moveOfKey: Readonly<Record<string, WindowMove | undefined>> = {
  '+': 'closer',
  '=': 'closer',
  '-': 'wider',
  ArrowLeft: 'earlier',
  ArrowDown: 'earlier',
  ArrowRight: 'later',
  ArrowUp: 'later',
  Home: 'first',
  End: 'last',
  '0': 'all',
};

export function afterMove(move: WindowMove, shown: Span | null, whole: Span): Span | null {
  const length = shown === null ? 0 : shown.to - shown.from;
  switch (move) {
    case 'closer':
      return zoomed(shown, whole, 0.5);
    case 'wider':
      return zoomed(shown, whole, 2);
    case 'earlier':
      return moved(shown, whole, -0.25);
    case 'later':
      return moved(shown, whole, 0.25);
    case 'first':
      return shown && fitted({ from: whole.from, to: whole.from + length }, whole);
    case 'last':
      return shown && fitted({ from: whole.to - length, to: whole.to }, whole);
    case 'all':
      return null;
  }
}

/** Which hand has hold of the strip: one edge of the window, the window itself, or a new one that is being drawn. */
export type Grip = 'from' | 'to' | 'whole' | 'new';

/** `reach`: how far from an edge, in ms, a finger still means the edge. */
export function gripAt(at: number, shown: Span | null, reach: number): Grip {
  if (shown === null) return 'new';
  if (Math.abs(at - shown.from) <= reach) return 'from';
  if (Math.abs(at - shown.to) <= reach) return 'to';
  return at > shown.from && at < shown.to ? 'whole' : 'new';
}

/** The part shown once a hand that took hold at `began` has come to `now`. */
export function dragged(
  grip: Grip,
  began: number,
  now: number,
  shown: Span | null,
  whole: Span,
): Span | null {
  const before = shown ?? whole;
  if (grip === 'whole')
    return fitted({ from: before.from + now - began, to: before.to + now - began }, whole);
  const ends: readonly [number, number] =
    grip === 'from' ? [now, before.to] : grip === 'to' ? [before.from, now] : [began, now];
  return fitted({ from: Math.min(...ends), to: Math.max(...ends) }, whole);
}

const inAddress = /\/between\/(\d{4}-\d\d-\d\d)\/(\d{4}-\d\d-\d\d)\/?$/;

/** The address without the days in it, and those days; null where there are none, or none that can be. */
export function readAddress(location: string): { path: string; days: Span | null } {
  const [found, first, last] = inAddress.exec(location) ?? [];
  if (found === undefined || first === undefined || last === undefined) return { path: location, days: null };
  const path = location.slice(0, -found.length);
  const from = new Date(`${first}T00:00`).getTime();
  const to = addDays(new Date(`${last}T00:00`), 1).getTime();
  return { path, days: from < to ? { from, to } : null };
}

/** By whole days of this computer's clock, so that a person can read the address. */
export function addressOf(path: string, shown: Span | null): string {
  if (shown === null) return path;
  const last = localDay(startOfDay(shown.to - 1).getTime());
  return `${path}/between/${localDay(shown.from)}/${last}`;
}
