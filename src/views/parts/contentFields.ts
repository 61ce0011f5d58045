/** What was written, field by field, and what an amendment changed of it. Pure. */
import type { Logbook } from '../../journal/logbook.ts';
import { plain } from './figures.ts';
import type { Change } from './history.tsx';

export interface ContentField<T> {
  name: string;
  write: (content: T) => string;
  /** What tells two contents apart where their words do not: two analyzers may have one label. */
  key?: (content: T) => string;
}

/** Field by field, what one content has that another had not; empty where they say the same. */
export function changesBetween<T>(
  before: T,
  after: T,
  fields: readonly ContentField<T>[],
): readonly Change[] {
  return fields
    .filter(({ write, key = write }) => key(before) !== key(after))
    .map(({ name, write }) => ({ name, from: write(before), to: write(after) }));
}

/** In place of a value that is not there. */
export const notThere = '–';

export const ifThere = (value: number | undefined, unit: string, write = plain) =>
  value === undefined ? notThere : `${write(value)} ${unit}`;

export function initialsAndName(technologists: Logbook['technologists'], id: string): string {
  const person = technologists.get(id);
  return person ? `${person.initials}, ${person.name}` : 'unknown';
}
