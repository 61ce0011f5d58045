/** What holds from an instant on, as far as it was in force in a package’s period. */
import type { Entry } from '../../journal/entries.ts';
import type { Chosen } from './chosen.ts';

/** Something that holds from an instant on; from the beginning, and written by nobody, where it is the usual. */
export interface Step<T> {
  from: string | null;
  holds: T;
  entry: Entry | null;
  reason: string;
}

/** Those in force on any day of the period, oldest first; of two from the same instant the one written later. */
export function inForce<T>(steps: readonly Step<T>[], usual: T, { start, end }: Chosen): readonly Step<T>[] {
  const all = [{ from: null, holds: usual, entry: null, reason: '' }, ...steps].toSorted((one, other) =>
    compare(one.from ?? '', other.from ?? ''),
  );
  return all.filter(({ from }, index) => {
    const next = all[index + 1];
    const until = next === undefined ? null : next.from;
    return (from ?? '') < end && (until === null || (until > start && until !== from));
  });
}

const compare = (one: string, other: string) => (one < other ? -1 : one > other ? 1 : 0);

/** Null for the usual, which holds from the beginning. */
export const stepTime = (step: Step<unknown>) =>
  step.from === null || step.entry === null ? null : { at: step.from, zone: step.entry.zone };

/** The entries that a row of a step rests on. */
export const entriesOfStep = ({ step }: { step: Step<unknown> }) => (step.entry === null ? [] : [step.entry]);
