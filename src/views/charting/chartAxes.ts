/** Ticks of a chart's time axis. */
import { addDays, addMonths, addYears, startOfDay, startOfMonth, startOfWeek, startOfYear } from 'date-fns';
import { dayInYear, month } from '../parts/figures.ts';
import { localClock } from '../parts/localTime.ts';

export interface TimeTick {
  at: number;
  text: string;
}

const dayMs = 86_400_000;
const mostTicks = 12;

/** Starts of days, of weeks (Mondays), months or years between two instants, in this workstation's zone: thirteen at most. */
export function timeTicks(from: number, to: number): TimeTick[] {
  const days = (to - from) / dayMs;
  const months = days / 30.4;
  if (months <= 2.5) {
    const step = [1, 2].find((candidate) => days / candidate <= mostTicks) ?? 7;
    const start = step === 7 ? startOfWeek(from, { weekStartsOn: 1 }) : startOfDay(from);
    return ticksFrom(start, (first, index) => addDays(first, index * step), from, to, dayInYear);
  }
  const step = [1, 2, 3, 6].find((candidate) => months / candidate <= mostTicks);
  if (step !== undefined) {
    const start = step === 1 ? startOfMonth(from) : startOfYear(from);
    return ticksFrom(start, (first, index) => addMonths(first, index * step), from, to, month);
  }
  const years = Math.ceil(months / 12 / mostTicks);
  return ticksFrom(
    startOfYear(from),
    (first, index) => addYears(first, index * years),
    from,
    to,
    (at) => String(localClock(at).year),
  );
}

function ticksFrom(
  start: Date,
  tickAt: (start: Date, index: number) => Date,
  from: number,
  to: number,
  write: (at: number) => string,
): TimeTick[] {
  const ticks: TimeTick[] = [];
  for (let index = 0; ; index += 1) {
    const date = tickAt(start, index);
    const at = date.getTime();
    if (at > to) return ticks;
    if (at >= from) ticks.push({ at, text: write(at) });
  }
}
