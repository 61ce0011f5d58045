/**
 * What a form holds that nobody typed into it, and how long that may stand. Conditions that are typed week after week are
 * not read: so a room is carried within one session and one day, never further, and says for how long it has been.
 */
import type { Logbook } from '../../journal/logbook.ts';
import { dayAndTime, timeOfDay } from '../parts/figures.ts';
import { localDay } from '../parts/localTime.ts';
import type { BenchDraft, FieldWithOrigin, Origin } from './benchDraft.ts';

export const roomFields = ['temperature', 'pressure', 'humidity'] as const satisfies FieldWithOrigin[];

const carriedFields = [
  'technologistId',
  'syringeId',
  'attached',
  ...roomFields,
] as const satisfies FieldWithOrigin[];

/** A room changes with the weather and the door: after this long it is read again. Common practice, no source. */
const readAgainAfterMs = 60 * 60_000;

const isEmpty = (value: string | readonly unknown[]) => value.length === 0;

/**
 * Takes over into `next` what a recorded form holds besides its readings; what was carried before keeps its moment. Of a
 * run made on another day (`at`, ms) the room stays behind. Who enters it and with what is so `now`, whatever day it is of.
 */
export function carriedFrom(
  recorded: BenchDraft,
  next: BenchDraft,
  { at, now }: { at: number; now: number },
): BenchDraft {
  const isOfToday = localDay(at) === localDay(now);
  const origins: BenchDraft['origins'] = { ...next.origins };
  const values: Partial<BenchDraft> = {};
  const take = <F extends (typeof carriedFields)[number]>(field: F) => {
    if (isEmpty(recorded[field])) return;
    values[field] = recorded[field];
    const before = recorded.origins[field];
    origins[field] =
      before?.kind === 'carried'
        ? before
        : { kind: 'carried', analyzerId: recorded.analyzerId, at: isOfToday ? at : now };
  };
  for (const field of carriedFields) {
    if (isOfToday || !roomFields.some((one) => one === field)) take(field);
  }
  return { ...next, ...values, origins };
}

/** Which fields are carried, in the order of the form. */
export const carriedIn = ({ origins }: Pick<BenchDraft, 'origins'>): readonly FieldWithOrigin[] =>
  carriedFields.filter((field) => origins[field]?.kind === 'carried');

/** The form without what is carried and `goes`; in place of the syringe and what is on it stands `own`. */
export function withoutCarried(
  draft: BenchDraft,
  own: Pick<BenchDraft, 'syringeId' | 'attached'>,
  goes: (at: number) => boolean = () => true,
): BenchDraft {
  const going = carriedIn(draft).filter((field) => {
    const origin = draft.origins[field];
    return origin?.kind === 'carried' && goes(origin.at);
  });
  if (going.length === 0) return draft;
  const origins = { ...draft.origins };
  const blank: Partial<BenchDraft> = {};
  for (const field of going) {
    delete origins[field];
    if (field === 'attached') blank.attached = own.attached;
    else if (field === 'syringeId') Object.assign(blank, own);
    else blank[field] = '';
  }
  return { ...draft, ...blank, origins };
}

/** What was carried on another day is gone: a value read yesterday is not today's room. */
export const withoutOtherDays = (
  draft: BenchDraft,
  own: Pick<BenchDraft, 'syringeId' | 'attached'>,
  now: number,
): BenchDraft => withoutCarried(draft, own, (at) => localDay(at) !== localDay(now));

/** Marks the room of a half-typed run that has lain since `keptAt`: it stays, and asks to be read again. */
export function withKeptRoom(draft: BenchDraft, keptAt: number, now: number): BenchDraft {
  if (!isOld(keptAt, now)) return draft;
  const origins = { ...draft.origins };
  for (const field of roomFields) {
    if (draft[field] !== '') origins[field] ??= { kind: 'kept', at: keptAt };
  }
  return { ...draft, origins };
}

const isOld = (at: number, now: number) => now - at > readAgainAfterMs;

/** A moment that is today's by its time alone. */
const moment = (at: number, now: number) => (localDay(at) === localDay(now) ? timeOfDay(at) : dayAndTime(at));

/** `carried from Room 1, 08:42`: the quiet words beside the field. */
export function originWords(origin: Origin, { analyzers }: Pick<Logbook, 'analyzers'>, now: number): string {
  switch (origin.kind) {
    case 'carried': {
      const label = analyzers.get(origin.analyzerId)?.description.label;
      return `carried from ${label === undefined ? '' : `${label}, `}${moment(origin.at, now)}`;
    }
    case 'kept':
      return `typed ${moment(origin.at, now)}`;
    case 'report':
      return 'from the report';
  }
}

/** Why a value of the room should be read again; null while it is fresh. */
export function readAgain(origin: Origin | undefined, now: number): string | null {
  if (origin === undefined || origin.kind === 'report' || !isOld(origin.at, now)) return null;
  return `Read ${moment(origin.at, now)}, more than an hour ago: read it again.`;
}
