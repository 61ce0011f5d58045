/** When an analyzer was out of service, from entries that each say "from then on". Pure. */
import type { EntryOf } from '../../journal/entries.ts';
import type { Logbook } from '../../journal/logbook.ts';

type ServiceSet = EntryOf<'service-set'>;

export interface ServicePeriod {
  /** Taken out; more than one where two workstations did, each with its reason. */
  out: readonly ServiceSet[];
  /** Null while it lasts. */
  back: ServiceSet | null;
}

/** Oldest first. */
export function servicePeriods({ services }: Pick<Logbook, 'services'>, analyzerId: string): ServicePeriod[] {
  const ofAnalyzer = services.filter(({ body }) => body.analyzerId === analyzerId);
  const periods: { out: ServiceSet[]; back: ServiceSet | null }[] = [];
  // A stable sort: of two from the same instant the one written later holds, as in the journal's own reading.
  for (const service of ofAnalyzer.toSorted((one, other) => compare(one.body.from, other.body.from))) {
    const last = periods.at(-1);
    const isOut = last !== undefined && last.back === null;
    if (service.body.inService) {
      if (isOut) last.back = service;
    } else if (isOut) {
      last.out.push(service);
    } else {
      periods.push({ out: [service], back: null });
    }
  }
  return periods;
}

/** Instants in UTC compare as texts do. */
export const compare = (one: string, other: string) => (one < other ? -1 : one > other ? 1 : 0);
