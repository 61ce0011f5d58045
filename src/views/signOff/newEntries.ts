/** The entries that a sign-off made now would cover: all up to a day that no earlier one covers. Pure. */
import { addDays, type CivilDate, civilDateOf } from '../../core/index.ts';
import type { Entry, EntryBody } from '../../journal/entries.ts';
import type { Coverage } from '../signedOff.ts';

export interface NewEntries {
  /** In the order in which they were written, as far as clocks tell. */
  listed: readonly Entry[];
  /** The last listed entry of each workstation: what the signature names. */
  heads: EntryBody<'period-signed'>['heads'];
}

/** The day on which an entry was written, by the clocks of its own zone; by UTC where this browser does not know it. */
export function dayOfEntry({ at, zone }: Pick<Entry, 'at' | 'zone'>): CivilDate {
  const instant = Date.parse(at);
  try {
    return civilDateOf(instant, zone);
  } catch {
    return civilDateOf(instant, 'UTC');
  }
}

/** Whether an entry was written after a day. No zone is a day away from UTC: for nearly all entries no clock is asked. */
export function writtenAfter(date: CivilDate): (entry: Pick<Entry, 'at' | 'zone'>) => boolean {
  const surelyNot = addDays(date, -1);
  const surely = addDays(date, 2);
  return (entry) => {
    const utcDay = entry.at.slice(0, 10);
    return utcDay >= surelyNot && (utcDay >= surely || dayOfEntry(entry) > date);
  };
}

/**
 * A head covers its chain from the beginning. So a chain is listed up to its first entry that was written after the day
 * `to`, whatever a clock that was set back says of later ones; and what was written before the period and reached this
 * workstation only since, is listed too.
 */
export function newEntries(entries: readonly Entry[], { placeOf }: Coverage, to: CivilDate): NewEntries {
  const isAfter = writtenAfter(to);
  const firstAfter = new Map<string, number>();
  for (const entry of entries) {
    const { workstation, seq } = entry;
    if (seq < (firstAfter.get(workstation) ?? Number.POSITIVE_INFINITY) && isAfter(entry)) {
      firstAfter.set(workstation, seq);
    }
  }
  const listed = entries.filter(
    (entry) =>
      entry.seq < (firstAfter.get(entry.workstation) ?? Number.POSITIVE_INFINITY) &&
      placeOf(entry) === undefined,
  );
  const last = new Map<string, Entry>();
  for (const entry of listed) {
    if (entry.seq >= (last.get(entry.workstation)?.seq ?? 0)) last.set(entry.workstation, entry);
  }
  const heads = [...last.values()]
    .map(({ workstation, seq, hash }) => ({ workstation, seq, hash }))
    .sort((one, other) => (one.workstation < other.workstation ? -1 : 1));
  return { listed: listed.toSorted((one, other) => Date.parse(one.at) - Date.parse(other.at)), heads };
}
