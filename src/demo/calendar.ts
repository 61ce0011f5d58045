import { TZDate } from '@date-fns/tz';

const runWeekday = 2; // Tuesday
const firstHour = 7;
/** The last visit of a run day is over by then. */
const doneByHour = 11;

/** The laboratory's days, counted from its first, in its own time zone. */
export interface Calendar {
  /** The instant, in ms, of a local time of day. */
  at(day: number, minutesAfterSeven: number): number;
  /** The civil date, as 2026-03-02. */
  date(day: number): string;
  runDay(week: number): number;
  /** The day on which the demonstration ends. */
  today: number;
  days: number;
}

/** A calendar whose last weekly run day is over by `endAt`, and whose first day is the one before the first run day. */
export function calendarUntil(endAt: number, zone: string, weeks: number): Calendar {
  const end = new TZDate(endAt, zone);
  if (Number.isNaN(end.getTime())) throw new RangeError(`calendarUntil: the time zone is ${zone}`);
  let back = (end.getDay() - runWeekday + 7) % 7;
  if (back === 0 && end.getHours() < doneByHour) back = 7;
  const lastRunDay = 1 + 7 * (weeks - 1);
  const local = (day: number, minutes: number) => {
    const dayOfMonth = end.getDate() - back + day - lastRunDay;
    return new TZDate(end.getFullYear(), end.getMonth(), dayOfMonth, firstHour, minutes, 0, 0, zone);
  };
  return {
    at: (day, minutesAfterSeven) => local(day, minutesAfterSeven).getTime(),
    date: (day) => local(day, 0).toISOString().slice(0, 10),
    runDay: (week) => 1 + 7 * week,
    today: lastRunDay + back,
    days: lastRunDay + 7,
  };
}
