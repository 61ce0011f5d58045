/** What of a logbook lies in a package's period and concerns its analyzers. */
import { addDays, type CivilDate } from '../../core/index.ts';
import { instantsIn } from '../importDates.ts';
import type { ControlFailure, PackageScope, RunFailure } from './source.ts';

/** The scope of a package, ready to be asked of one thing after the other. Instants are ISO 8601 in UTC, as in the journal. */
export interface Chosen {
  /** The period's first instant, and the first one after it. */
  start: string;
  end: string;
  isWithin: (at: string) => boolean;
  isDateWithin: (from: CivilDate, to: CivilDate) => boolean;
  /** True for what concerns no analyzer in particular, too. */
  concerns: (analyzerId: string | null | undefined) => boolean;
}

export function chosenBy({ from, to, zone, analyzerIds }: PackageScope): Chosen {
  const start = midnightOf(from, zone);
  const end = midnightOf(addDays(to, 1), zone);
  const analyzers = new Set(analyzerIds);
  return {
    start,
    end,
    // Instants are all written in UTC to the millisecond: their text sorts as their time.
    isWithin: (at) => at >= start && at < end,
    isDateWithin: (first, last) => first <= to && last >= from,
    concerns: (analyzerId) => analyzerId === null || analyzerId === undefined || analyzers.has(analyzerId),
  };
}

function midnightOf(date: CivilDate, zone: string): string {
  const [year = 0, month = 0, day = 0] = date.split('-').map(Number);
  const midnight = { hour: 0, minute: 0, second: 0, millisecond: 0 };
  return new Date(
    instantsIn(zone)({ year, month, day, offset: null, time: null }, midnight).ms,
  ).toISOString();
}

/** When a failure ended; null while it is open. */
export function endOf({ ended }: RunFailure | ControlFailure): string | null {
  if (ended === null) return null;
  return ended.by === 'closure' ? ended.closure.body.closedAt : ended.from;
}

/** The instant at which a failure opened. */
export const openedAt = ({ openedBy }: RunFailure | ControlFailure): string =>
  'control' in openedBy ? openedBy.control.madeAt : openedBy.body.madeAt;

/** Open on any day of the period. */
export function wasOpen(failure: RunFailure | ControlFailure, { start, end }: Chosen): boolean {
  const until = endOf(failure);
  return openedAt(failure) < end && (until === null || until >= start);
}
