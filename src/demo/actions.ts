/** What is written down in the invented laboratory, and when. */
import type { EntryBody, EntryKind } from '../journal/entries.ts';
import type { Calendar } from './calendar.ts';

/** Something written down, before it has its id and its place in the chain. */
export type Action = {
  [K in EntryKind]: { at: number; by: string; kind: K; body: EntryBody<K> };
}[EntryKind];

export const minute = 60_000;
/** From the end of a run or check to its entry in the logbook. */
export const writingTime = 2 * minute;

export const iso = (at: number) => new Date(at).toISOString();

/** What the parts of the laboratory share. */
export interface Setting {
  calendar: Calendar;
  syringeId: string;
  supervisorId: string;
  /** Those who take turns at the bench. */
  benchIds: readonly string[];
  newId: () => string;
}

export const atTheBench = ({ benchIds, supervisorId }: Setting, turn: number) =>
  benchIds[turn % benchIds.length] ?? supervisorId;
