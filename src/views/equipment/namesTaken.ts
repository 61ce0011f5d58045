/** Names that tell records apart: two in use must not share one. Pure. */
import type { Retirement } from '../../journal/logbook.ts';
import type { Errors, FormReading } from '../parts/formReading.ts';

/** Names that differ in spaces or capitals only are one name to whoever reads them. */
export const nameKey = (name: string) => name.trim().replace(/\s+/g, ' ').toLocaleLowerCase('en');

/**
 * A reading that is refused where another record in use bears the name. `own` is what the record is called already: two
 * that came to share a name in a merge can still be changed in everything else.
 */
export function refuseTaken<T, D>(
  reading: FormReading<T, D>,
  {
    field,
    name,
    own,
    others,
    say,
  }: {
    field: keyof T;
    name: string;
    own: string;
    others: readonly string[];
    /** The message, from the name as the other record bears it. */
    say: (taken: string) => string;
  },
): FormReading<T, D> {
  const key = nameKey(name);
  const taken = others.find((other) => nameKey(other) === key);
  if (taken === undefined || key === nameKey(own)) return reading;
  const errors: Errors<T> = reading.ok ? {} : { ...reading.errors };
  errors[field] = say(taken);
  return { ok: false, errors };
}

/** What those are called that are in use no longer. */
export const namesOfRetired = <T extends { retired: Retirement | null }>(
  records: ReadonlyMap<string, T>,
  nameOf: (record: T) => string,
): string[] => [...records.values()].filter(({ retired }) => retired !== null).map(nameOf);

/** What the other records of a kind that are in use are called. */
export function namesBeside<T extends { id: string; retired: Retirement | null }>(
  records: ReadonlyMap<string, T>,
  ownId: string | undefined,
  nameOf: (record: T) => string,
): string[] {
  return [...records.values()].filter(({ id, retired }) => retired === null && id !== ownId).map(nameOf);
}
