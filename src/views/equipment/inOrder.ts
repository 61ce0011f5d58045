import type { Entry } from '../../journal/entries.ts';

/** Entries of several kinds in the order in which they were written. */
export const inOrder = (entries: readonly Entry[]): Entry[] =>
  entries.toSorted((one, other) => Date.parse(one.at) - Date.parse(other.at));
