/** How far the clocks of a zone are ahead of UTC, asked of the browser once for a day where a file holds many instants. */
import { TZDate } from '@date-fns/tz';

const minuteMs = 60_000;
const dayMs = 24 * 60 * minuteMs;

/**
 * From 1973 on no zone of the tz database (edition 2025b) changes its clocks twice within six days, and every offset is
 * of whole minutes: where the offset is the same at both ends of a day, it is the same within it.
 */
const byWholeDays = { from: Date.UTC(1973, 0, 1), to: Date.UTC(9999, 11, 31) };

/** What was asked already; the answers never change while the program runs. */
const answers = new Map<string, Map<number, number>>();

/** In minutes; NaN where this browser does not know the zone. */
const asked = (ms: number, zone: string) => -new TZDate(ms, zone).getTimezoneOffset();

function atBeginningOf(day: number, zone: string): number {
  const ofZone = answers.get(zone) ?? new Map<number, number>();
  answers.set(zone, ofZone);
  const minutes = ofZone.get(day) ?? asked(day * dayMs, zone);
  ofZone.set(day, minutes);
  return minutes;
}

/** The minutes that `zone` is ahead of UTC at an instant; undefined where only the library itself can say. */
export function wholeMinutesAhead(ms: number, zone: string): number | undefined {
  if (!(ms >= byWholeDays.from && ms < byWholeDays.to)) return undefined;
  const day = Math.floor(ms / dayMs);
  const before = atBeginningOf(day, zone);
  const minutes = before === atBeginningOf(day + 1, zone) ? before : asked(ms, zone);
  return Number.isNaN(minutes) ? undefined : minutes;
}
