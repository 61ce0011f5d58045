import type { Logbook } from '../../journal/logbook.ts';
import { eventWords } from '../parts/words.ts';

/** What was logged on the analyzer between the opening of a failure and its end, `until` null while it is open; oldest first. */
export function eventsDuring(
  { analyzerId, from, until }: { analyzerId: string; from: string; until: string | null },
  logbook: Pick<Logbook, 'events'>,
): readonly { id: string; at: string; sentence: string }[] {
  return logbook.events
    .filter(({ body }) => body.analyzerId === analyzerId)
    .filter(({ body }) => body.happenedAt >= from && (until === null || body.happenedAt <= until))
    .map(({ body }) => ({
      id: body.eventId,
      at: body.happenedAt,
      sentence: `${eventWords[body.type]}: ${body.description}`,
    }))
    .sort((one, other) => Date.parse(one.at) - Date.parse(other.at));
}
