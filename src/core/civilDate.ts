import { wallClockOf } from './wallClock.ts';

/** A date of the civil calendar, `2026-03-02`: no time of day, no zone. Dates compare as texts do. */
export type CivilDate = string;

const msInDay = 86_400_000;

/**
 * The date on the laboratory's wall at an instant (ms), in an IANA zone such as `Europe/Lisbon`.
 * @throws {RangeError} if the instant is not finite or the zone is unknown.
 * @example civilDateOf(Date.UTC(2026, 2, 1, 23, 30), 'Europe/Berlin') // '2026-03-02'
 */
export function civilDateOf(at: number, zone: string): CivilDate {
  if (!Number.isFinite(at)) throw new RangeError(`civilDateOf: at is ${at} ms`);
  const { year, month, day } = wallClockOf(at, zone);
  return write(year, month, day);
}

/**
 * Days from one date to another; negative when the second is earlier.
 * @throws {RangeError} if either is not a date of the calendar.
 * @example daysBetween('2026-02-27', '2026-03-01') // 2
 */
export function daysBetween(earlierDate: CivilDate, laterDate: CivilDate): number {
  return dayNumber('daysBetween', laterDate) - dayNumber('daysBetween', earlierDate);
}

/**
 * @throws {RangeError} if the date is not one of the calendar or the days are not whole.
 * @example addDays('2026-02-27', 7) // '2026-03-06'
 */
export function addDays(date: CivilDate, days: number): CivilDate {
  if (!Number.isSafeInteger(days)) throw new RangeError(`addDays: days is ${days}, not a whole number`);
  return fromDayNumber(dayNumber('addDays', date) + days);
}

/**
 * The same day of a later month, or that month's last day where it has none such.
 * @throws {RangeError} if the date is not one of the calendar or the months are not whole.
 * @example addMonths('2026-01-31', 1) // '2026-02-28'
 */
export function addMonths(date: CivilDate, months: number): CivilDate {
  if (!Number.isSafeInteger(months))
    throw new RangeError(`addMonths: months is ${months}, not a whole number`);
  dayNumber('addMonths', date);
  const [year = 0, month = 0, day = 0] = date.split('-').map(Number);
  const monthIndex = year * 12 + (month - 1) + months;
  const toYear = Math.floor(monthIndex / 12);
  const toMonth = (monthIndex % 12) + 1;
  // Day 0 of the month after is the last of this one.
  const lastDay = new Date(Date.UTC(toYear, toMonth, 0)).getUTCDate();
  return write(toYear, toMonth, Math.min(day, lastDay));
}

function dayNumber(caller: string, date: CivilDate): number {
  const days = Date.parse(`${date}T00:00:00Z`) / msInDay;
  // Parsing takes 2026-02-30 for a day in March: only what comes back as it went in is a date.
  if (!Number.isFinite(days) || fromDayNumber(days) !== date) {
    throw new RangeError(`${caller}: date is ${date}, not a date such as 2026-03-02`);
  }
  return days;
}

function fromDayNumber(days: number): CivilDate {
  return new Date(days * msInDay).toISOString().slice(0, 10);
}

function write(year: number, month: number, day: number): CivilDate {
  return `${String(year).padStart(4, '0')}-${String(month).padStart(2, '0')}-${String(day).padStart(2, '0')}`;
}
