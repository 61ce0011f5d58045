import type { Logbook } from '../../journal/logbook.ts';
import { endedAt } from '../closing.ts';
import type { Failure } from '../failures.ts';
import { eventWords } from '../parts/words.ts';

/** What was logged on the analyzer between the opening of a failure and its end, oldest first. */
export function eventsDuring(
  failure: Failure,
  logbook: Logbook,
): readonly { id: string; at: string; sentence: string }[] {
  const from = failure.openedBy.body.madeAt;
  const until = endedAt(failure);
  return logbook.events
    .filter(({ body }) => body.analyzerId === failure.analyzerId)
    .filter(({ body }) => body.happenedAt >= from && (until === null || body.happenedAt <= until))
    .map(({ body }) => ({
      id: body.eventId,
      at: body.happenedAt,
      sentence: `${eventWords[body.type]}: ${body.description}`,
    }))
    .sort((one, other) => Date.parse(one.at) - Date.parse(other.at));
}
