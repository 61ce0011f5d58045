/** This computer's own clock, in the fixed forms that date fields and file names need: no laboratory's form reaches here. */
import type { WallClock } from '../../core/index.ts';

/** @throws {RangeError} if it is no instant. */
export function localClock(instant: number | string | Date): WallClock {
  const at = new Date(instant);
  if (Number.isNaN(at.getTime())) throw new RangeError(`localClock: ${instant} is no instant`);
  return {
    year: at.getFullYear(),
    month: at.getMonth() + 1,
    day: at.getDate(),
    hour: at.getHours(),
    minute: at.getMinutes(),
  };
}

/** At least so many digits. */
export const padded = (value: number, digits = 2) => String(value).padStart(digits, '0');

/** `2026-03-02`. */
export function localDay(instant: number): string {
  const { year, month, day } = localClock(instant);
  return `${padded(year, 4)}-${padded(month)}-${padded(day)}`;
}

/** A moment as a field for date and time holds it: `2026-03-02T08:14`. */
export function localMinute(instant: number): string {
  const { hour, minute } = localClock(instant);
  return `${localDay(instant)}T${padded(hour)}:${padded(minute)}`;
}

/** The zone that this computer's clock is in, as an IANA name. */
export const localZone = () => Intl.DateTimeFormat().resolvedOptions().timeZone;
