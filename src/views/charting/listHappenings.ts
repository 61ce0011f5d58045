/** The story beside a chart: what happened to the analyzer, and by what its series is judged from when on. Newest first. */
import type { EntryOf } from '../../journal/entries.ts';
import { day } from '../parts/figures.ts';
import { eventWords } from '../parts/words.ts';
import type { SeriesFailure } from './failureSpans.ts';

export interface Happening {
  key: string;
  when: string;
  word: string;
  description: string;
}

/** An entry that adopted limits, of the simulations or of the other checks. */
export type EditionOfLimits = EntryOf<'limits-adopted'> | EntryOf<'check-limits-adopted'>;

export interface HappeningSource {
  /** These three of the series' analyzer. */
  events: readonly EntryOf<'event-recorded'>[];
  baselineStarts: readonly EntryOf<'baseline-started'>[];
  policies: readonly EntryOf<'policy-set'>[];
  /** Of whatever limits judge this series. */
  limitEditions: readonly EditionOfLimits[];
  failures: readonly SeriesFailure[];
  /** What happened besides, such as to a person who is tested. */
  others?: readonly DatedHappening[];
}

export interface DatedHappening {
  key: string;
  at: number;
  word: string;
  description: string;
}

export function listHappenings({
  events,
  baselineStarts,
  policies,
  limitEditions,
  failures,
  others = [],
}: HappeningSource): Happening[] {
  const dated: DatedHappening[] = [
    ...others,
    ...events.map(({ body }) => ({
      key: body.eventId,
      at: Date.parse(body.happenedAt),
      word: eventWords[body.type],
      description: body.description,
    })),
    ...baselineStarts.map(({ body }) => ({
      key: body.baselineId,
      at: Date.parse(body.from),
      word: 'New baseline',
      description: body.reason,
    })),
    ...policies.map(({ body }) => ({
      key: body.policyId,
      at: Date.parse(body.from),
      word: 'Policy set, patterns begin anew',
      description: body.reason,
    })),
    ...limitEditions.map(({ body }) => ({
      key: body.adoptionId,
      at: Date.parse(body.from),
      word: `Published limits adopted, ${body.limits.edition}`,
      description: body.reason,
    })),
    ...failures.map((failure) => ({
      key: `failure ${failure.id}`,
      at: failure.from,
      word: failure.ended === null ? 'Failure, open' : 'Failure',
      description: endWords(failure),
    })),
  ];
  return dated
    .sort((one, other) => other.at - one.at)
    .map(({ at, ...happening }) => ({ ...happening, when: day(at) }));
}

function endWords({ ended }: SeriesFailure): string {
  if (ended === null) return 'not closed yet';
  if (ended.by === 'new-baseline') return 'put aside by a new baseline';
  return `closed ${day(ended.at)}: ${ended.reason}`;
}
