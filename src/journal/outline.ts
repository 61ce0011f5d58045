/**
 * What of a logbook the bench form needs before anything is judged: people, equipment, how the laboratory writes, and the newest
 * run of each analyzer and route. Small whatever is stored, so that it can be kept as a text beside the journal and read ahead of it.
 */
import { foldJournal } from './fold.ts';
import type { Analyzer, Cylinder, Logbook, LoggedRun, Subject, Syringe, Technologist } from './logbook.ts';

interface Outline
  extends Pick<
    Logbook,
    | 'services'
    | 'fittings'
    | 'laboratory'
    | 'limitEditions'
    | 'policies'
    | 'closingRules'
    | 'baselineStarts'
    | 'runs'
    | 'entryCount'
    | 'newestAt'
  > {
  technologists: readonly Technologist[];
  analyzers: readonly Analyzer[];
  syringes: readonly Syringe[];
  cylinders: readonly Cylinder[];
  subjects: readonly Subject[];
}

/** The same logbook gives the same text. */
export function outlineText(logbook: Logbook): string {
  const { services, fittings, laboratory, limitEditions, policies, closingRules, baselineStarts } = logbook;
  const { entryCount, newestAt } = logbook;
  const outline: Outline = {
    technologists: [...logbook.technologists.values()],
    analyzers: [...logbook.analyzers.values()],
    syringes: [...logbook.syringes.values()],
    cylinders: [...logbook.cylinders.values()],
    subjects: [...logbook.subjects.values()],
    services,
    fittings,
    laboratory,
    limitEditions,
    policies,
    closingRules,
    baselineStarts,
    runs: newestRuns(logbook),
    entryCount,
    newestAt,
  };
  return JSON.stringify(outline);
}

/** Of each analyzer and route the newest that stands, in the order of their moments. */
function newestRuns({ runs }: Pick<Logbook, 'runs'>): readonly LoggedRun[] {
  const newest = new Map<string, LoggedRun>();
  for (const run of runs) {
    if (run.voided !== null) continue;
    const key = `${run.body.analyzerId} ${run.body.route}`;
    newest.delete(key);
    newest.set(key, run);
  }
  return [...newest.values()];
}

/** A logbook that holds what the outline does and nothing else. The caller sees to it that `text` is one of `outlineText`. */
export function readOutline(text: string): Logbook {
  const outline: Outline = JSON.parse(text);
  return {
    ...foldJournal([]),
    ...outline,
    technologists: byId(outline.technologists),
    analyzers: byId(outline.analyzers),
    syringes: byId(outline.syringes),
    cylinders: byId(outline.cylinders),
    subjects: byId(outline.subjects),
  };
}

const byId = <T extends { id: string }>(things: readonly T[]) => new Map(things.map((one) => [one.id, one]));
