/** What a run said before it was amended: every value that was replaced, with whoever replaced it, as on paper. */
import { type RunNumbers, reduceRun } from '../core/index.ts';
import type { Entry, Judgement, RunContent } from '../journal/entries.ts';
import type { Logbook, LoggedRun } from '../journal/logbook.ts';
import { dayAndTime } from './parts/figures.ts';

/** A run as it was recorded or as one amendment left it. */
export interface RunStage {
  content: RunContent;
  /** As it came out when this was written; null for an imported run. */
  judged: Judgement | null;
}

/** A replaced value, struck through wherever the run is shown. */
export interface Former {
  value: string;
  /** Of who replaced it, and when. */
  initials: string;
  when: string;
}

/** Oldest first; the last is the run as it stands. */
export function stagesOf({ entry, amendments }: LoggedRun): RunStage[] {
  return [
    { content: entry.body, judged: entry.body.judged },
    ...amendments.map(({ body: { run, judged } }) => ({ content: run, judged })),
  ];
}

export function initialsIn(technologists: Logbook['technologists'], id: string): string {
  return technologists.get(id)?.initials ?? '?';
}

/** What `write` gave before each amendment that changed it, oldest first. */
export function formerValues(
  run: LoggedRun,
  technologists: Logbook['technologists'],
  write: (stage: RunStage) => string,
): Former[] {
  return run.amendments.length === 0
    ? []
    : formerTexts(run.amendments, technologists, stagesOf(run).map(write));
}

/** `written`: a text of each stage, that of the first writing and one after each amendment. */
export function formerTexts(
  amendments: readonly Pick<Entry, 'by' | 'at' | 'zone'>[],
  technologists: Logbook['technologists'],
  written: readonly string[],
): Former[] {
  return amendments.flatMap(({ by, at, zone }, index) => {
    const value = written[index] ?? '';
    if (value === written[index + 1]) return [];
    return [{ value, initials: initialsIn(technologists, by), when: dayAndTime(at, zone) }];
  });
}

/** The numbers of a stage; null where they cannot be, such as a damaged or foreign entry may hold. */
export function numbersOf({ content }: RunStage): RunNumbers | null {
  try {
    return reduceRun(content);
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
}
