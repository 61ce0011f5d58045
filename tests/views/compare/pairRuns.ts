/** Runs by both routes, for the tests of their comparison: the simulated VA is the VA that is typed. */
import type { EntryDraft } from '../../../src/journal/entries.ts';
import { run, week } from '../laboratory.ts';

export const zone = 'Etc/UTC';

/** The built-in run of week `index`, ten minutes after the patient test; its number is `index` + 500. */
export const builtInRun = (index: number, vaL: number, changes: Parameters<typeof run>[2] = {}): EntryDraft =>
  run(index + 500, vaL, { route: 'built-in', madeAt: later(week(index), 10), ...changes });

export const later = (instant: string, minutes: number) =>
  new Date(Date.parse(instant) + minutes * 60_000).toISOString();

export const pairRuns = (index: number, patientTestL: number, builtInL: number): EntryDraft[] => [
  run(index, patientTestL),
  builtInRun(index, builtInL),
];

/**
 * Ten pairs of weeks 0 to 9. Patient test less built-in, in mL: 20 0 20 0 … , by hand a mean of 10 and an SD of
 * √(10 · 10² / 9) = 10.54. None of the runs is noticed by any rule.
 */
export const tenPairs = (): EntryDraft[] =>
  [3.01, 2.99, 3.02, 2.98, 3.01, 2.99, 3.02, 2.98, 3.01, 2.99].flatMap((builtInL, index) =>
    pairRuns(index, Number((builtInL + (index % 2 === 0 ? 0.02 : 0)).toFixed(2)), builtInL),
  );
