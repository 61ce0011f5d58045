/** Which cylinder was on which analyzer from when to when. Pure. */
import type { EntryOf } from '../../journal/entries.ts';
import type { Logbook } from '../../journal/logbook.ts';
import { compare } from './servicePeriods.ts';

export interface Fitted {
  fitting: EntryOf<'cylinder-fitted'>;
  /** The instant the next one took its place; null while it is fitted. */
  until: string | null;
}

/** What was fitted to an analyzer, oldest first. */
export function fittedTo({ fittings }: Pick<Logbook, 'fittings'>, analyzerId: string): Fitted[] {
  const ofAnalyzer = fittings
    .filter(({ body }) => body.analyzerId === analyzerId)
    .toSorted((one, other) => compare(one.body.fittedAt, other.body.fittedAt));
  return ofAnalyzer.map((fitting, index) => ({
    fitting,
    until: ofAnalyzer[index + 1]?.body.fittedAt ?? null,
  }));
}

/** Where a cylinder was fitted, oldest first. */
export function fittingsOf(logbook: Pick<Logbook, 'analyzers' | 'fittings'>, cylinderId: string): Fitted[] {
  return [...logbook.analyzers.keys()]
    .flatMap((analyzerId) => fittedTo(logbook, analyzerId))
    .filter(({ fitting }) => fitting.body.cylinderId === cylinderId)
    .sort((one, other) => compare(one.fitting.body.fittedAt, other.fitting.body.fittedAt));
}

/** The names of the analyzers in use that a cylinder is on now. */
export const carriersOf = (logbook: Pick<Logbook, 'analyzers' | 'fittings'>, cylinderId: string): string[] =>
  fittingsOf(logbook, cylinderId)
    .filter(({ until }) => until === null)
    .flatMap(({ fitting }) => {
      const analyzer = logbook.analyzers.get(fitting.body.analyzerId);
      return analyzer === undefined || analyzer.retired !== null ? [] : [analyzer.description.label];
    });
