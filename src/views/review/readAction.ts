/** The form of a corrective action: as it is read, and as entries. Pure. */
import type { EntryDraft, EventType } from '../../journal/entries.ts';
import { named } from '../closing.ts';
import type { Failure } from '../failures.ts';
import { dayAndTime } from '../parts/figures.ts';
import { type Errors, type FormReading, finish } from '../parts/formReading.ts';
import { readHappened } from '../parts/readHappened.ts';

export const somebodyElse = 'somebody-else';

export interface ActionDraft {
  what: string;
  /** As a field for date and time holds it. */
  doneAt: string;
  /** A technologist’s id, or `somebodyElse`. */
  who: string;
  part: string;
  type: EventType;
  /** Written as an event on the analyzer too, so that the charts show it. */
  isEvent: boolean;
}

export interface ActionTaken {
  what: string;
  doneAt: string;
  technologistId: string | null;
  part: string;
  event: EventType | null;
}

/** `now` in ms. */
export function readAction(
  draft: ActionDraft,
  { failures, now }: { failures: readonly Failure[]; now: number },
): FormReading<ActionDraft, ActionTaken> {
  const errors: Errors<ActionDraft> = {};
  const what = draft.what.trim();
  if (what === '') errors.what = 'Say what was done, as the next person needs to read it.';
  const happened = readHappened(draft.doneAt, now);
  const openedAt = failures.map(({ openedBy }) => openedBy.body.madeAt).toSorted()[0] ?? '';
  if ('problem' in happened) errors.doneAt = happened.problem;
  // The field holds whole minutes.
  else if (happened.at.slice(0, 16) < openedAt.slice(0, 16)) {
    errors.doneAt = `This is before the failing run, ${dayAndTime(openedAt)}: what was done earlier did not repair it.`;
  }
  if (draft.who === '') errors.who = 'Choose who did it.';
  const part = draft.part.trim();
  return finish(errors, {
    what,
    doneAt: 'at' in happened ? happened.at : '',
    technologistId: draft.who === somebodyElse ? null : draft.who,
    part,
    event: draft.isEvent ? draft.type : null,
  });
}

export function actionEntries(
  { what, doneAt, technologistId, part, event }: ActionTaken,
  failures: readonly Failure[],
  by: string,
): EntryDraft[] {
  const analyzerId = failures[0]?.analyzerId ?? '';
  const eventId = event === null ? null : crypto.randomUUID();
  const action: EntryDraft = {
    id: crypto.randomUUID(),
    by,
    kind: 'action-taken',
    body: {
      actionId: crypto.randomUUID(),
      analyzerId,
      failures: named(failures),
      doneAt,
      what,
      technologistId,
      part,
      eventId,
    },
  };
  if (event === null || eventId === null) return [action];
  const body = { eventId, analyzerId, happenedAt: doneAt, type: event, description: what };
  return [{ id: crypto.randomUUID(), by, kind: 'event-recorded', body }, action];
}
