/**
 * An invented laboratory with eighteen months of weekly runs, as entries that the app's own screens could have written:
 * the demonstration shows nothing that the app cannot do. The same seed and day give the same entries, hash for hash.
 */
import { sealEntry } from '../journal/chain.ts';
import type { Entry, EntryBody, EntryDraft } from '../journal/entries.ts';
import type { Action } from './actions.ts';
import { analyzerLife } from './analyzerLife.ts';
import { type Calendar, calendarUntil } from './calendar.ts';
import { idSource, roomOfDays, seededUniform } from './chance.ts';
import { persons } from './controlPlan.ts';
import { gapsOf, personsOf, signOffsOf } from './desk.ts';
import { lastWeek, weeks } from './plan.ts';
import { analyzers, laboratory, people, syringes } from './scenario.ts';
import { checksOf } from './upkeep.ts';

export interface DemonstrationOptions {
  seed: number;
  /** The demonstration ends with the last run day that is over by then; ms. */
  endAt: number;
  /** IANA name of the laboratory's time zone. */
  zone: string;
}

const validDays = 365;

/** The entries of one workstation from its first to its last, sealed into a chain. */
export async function demonstrationEntries({
  seed,
  endAt,
  zone,
}: DemonstrationOptions): Promise<readonly Entry[]> {
  const calendar = calendarUntil(endAt, zone, weeks);
  // Each part draws from a stream of its own: a change to one leaves the others as they were.
  const stream = (part: number) => seededUniform(seed + part * 0x9e3779b9);
  const rooms = roomOfDays(calendar.days, stream(1));
  const newId = idSource(stream(2));
  const workstation = newId();
  const peopleIds = people.map(newId);
  const [supervisorId = '', ...benchIds] = peopleIds;
  const syringeIds = syringes.map(newId);
  const [syringeId = ''] = syringeIds;
  const analyzerIds = analyzers.map(newId);
  const personIds = persons.map(newId);

  const setting = { calendar, syringeId, supervisorId, benchIds, newId: idSource(stream(3)) };
  const lookedIntoId = setting.newId();
  const certificateUntil = syringeDescription(calendar, 0, 0).calibrationDueOn;

  const actions: Action[] = [
    ...firstDay({ calendar, peopleIds, syringeIds, analyzerIds, descriptionId: setting.newId() }),
    ...checksOf({ ...setting, analyzerIds, certificateUntil, uniform: stream(4) }),
    ...personsOf({ ...setting, analyzerIds, personIds }),
    ...gapsOf({ ...setting, analyzerIds, personIds }),
    ...signOffsOf({ ...setting, analyzerIds, personIds }),
  ];
  for (const [index, plan] of analyzers.entries()) {
    const analyzerId = analyzerIds[index] ?? '';
    const streams = { uniform: stream(10 + index), controlUniform: stream(40 + index) };
    const surroundings = { ...setting, endAt, rooms, analyzerId, personIds, lookedIntoId, ...streams };
    actions.push(...analyzerLife(plan, surroundings));
  }
  actions.sort((a, b) => a.at - b.at);

  const entries: Entry[] = [];
  let prev = '';
  for (const [index, { at, ...draft }] of actions.entries()) {
    const place = { workstation, seq: index + 1, prev, at: new Date(at).toISOString(), zone };
    const entry = await sealEntry(
      withHeads({ id: newId(), ...draft }, { workstation, seq: index, hash: prev }),
      place,
    );
    entries.push(entry);
    prev = entry.hash;
  }
  return entries;
}

/** A sign-off covers all up to the entry before it, which is known only now. */
function withHeads(draft: EntryDraft, head: EntryBody<'period-signed'>['heads'][number]): EntryDraft {
  return draft.kind === 'period-signed' ? { ...draft, body: { ...draft.body, heads: [head] } } : draft;
}

interface Ids {
  calendar: Calendar;
  peopleIds: readonly string[];
  syringeIds: readonly string[];
  analyzerIds: readonly string[];
  descriptionId: string;
}

/** The day before the first run: the supervisor enters the people, the laboratory, its syringes and analyzers. */
function firstDay({ calendar, peopleIds, syringeIds, analyzerIds, descriptionId }: Ids): Action[] {
  const [by = ''] = peopleIds;
  const [syringeId = ''] = syringeIds;
  let minutes = 60;
  const at = () => calendar.at(0, minutes++);
  return [
    ...people.map((description, index): Action => {
      const technologistId = peopleIds[index] ?? '';
      return { at: at(), by, kind: 'technologist-added', body: { technologistId, ...description } };
    }),
    {
      at: at(),
      by,
      kind: 'laboratory-described',
      body: { descriptionId, ...laboratory, reason: 'The logbook is begun.' },
    },
    ...syringes.map((_, index): Action => {
      const body = {
        syringeId: syringeIds[index] ?? '',
        ...syringeDescription(calendar, index, index === 0 ? validDays : 0),
      };
      return { at: at(), by, kind: 'syringe-added', body };
    }),
    ...analyzers.map(({ description, fromWeek }, index): Action => {
      const body = { analyzerId: analyzerIds[index] ?? '', ...description, syringeId };
      // One that came later is entered on the day before its first run.
      const addedAt = fromWeek === 0 ? at() : calendar.at(calendar.runDay(fromWeek) - 1, 60);
      return { at: addedAt, by, kind: 'analyzer-added', body };
    }),
  ];
}

/** A syringe as it was described `earlierDays` before its last certificate. */
function syringeDescription(calendar: Calendar, index: number, earlierDays: number) {
  const syringe = syringes[index];
  if (syringe === undefined) throw new RangeError(`syringeDescription: there is no syringe ${index}`);
  const { calibrationDueInDays, leakCheckDueInDays, ...description } = syringe;
  const dueIn = (days: number) => calendar.date(calendar.runDay(lastWeek) + days - earlierDays);
  return {
    ...description,
    calibrationDueOn: dueIn(calibrationDueInDays),
    leakCheckDueOn: dueIn(leakCheckDueInDays),
  };
}
