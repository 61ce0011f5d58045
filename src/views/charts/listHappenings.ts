/** The story beside the runs: events, new baselines and failures of a series, newest first. */
import type { EntryOf } from '../../journal/entries.ts';
import type { Failure } from '../failures.ts';
import { day } from '../parts/figures.ts';
import { eventWords } from '../parts/words.ts';

export interface Happening {
  key: string;
  when: string;
  word: string;
  description: string;
}

export function listHappenings(
  events: readonly EntryOf<'event-recorded'>[],
  baselineStarts: readonly EntryOf<'baseline-started'>[],
  failures: readonly Failure[],
): Happening[] {
  const dated = [
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
    ...failures.map((failure) => ({
      key: `failure ${failure.openedBy.id}`,
      at: failure.openedBy.simulation.at,
      word: failure.ended === null ? 'Failure, open' : 'Failure',
      description: endWords(failure),
    })),
  ];
  return dated
    .sort((one, other) => other.at - one.at)
    .map(({ at, ...happening }) => ({ ...happening, when: day(at) }));
}

function endWords({ ended }: Failure): string {
  if (ended === null) return 'not closed yet';
  if (ended.by === 'new-baseline') return 'put aside by a new baseline';
  const { closedAt, reason } = ended.closure.body;
  return `closed ${day(closedAt)}: ${reason}`;
}
