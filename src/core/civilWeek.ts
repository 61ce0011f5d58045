import { addDays, type CivilDate, daysBetween } from './civilDate.ts';

/** A day that is a Monday: 5 January 1970. */
const someMonday: CivilDate = '1970-01-05';

/**
 * The Monday of the week, Monday to Sunday, that a date lies in.
 * Source: ISO 8601, a week begins on Monday.
 * @throws {RangeError} if the date is not one of the calendar.
 * @example mondayOf('2026-03-01') // '2026-02-23', since 1 March 2026 is a Sunday
 */
export function mondayOf(date: CivilDate): CivilDate {
  const days = daysBetween(someMonday, date);
  return addDays(date, -(days - 7 * Math.floor(days / 7)));
}

/**
 * The quarter of the year that a date lies in.
 * @throws {RangeError} if the date is not one of the calendar.
 * @example quarterOf('2026-05-14') // '2026-Q2'
 */
export function quarterOf(date: CivilDate): string {
  daysBetween(date, date);
  const [year = '', month = ''] = date.split('-');
  return `${year}-Q${Math.ceil(Number(month) / 3)}`;
}
