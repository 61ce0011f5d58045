/** The one thing that whoever chooses from the list should know of each piece of equipment in use. Pure. */
import type { Logbook } from '../../journal/logbook.ts';
import { outOfService, subjectStateAt } from '../../journal/standing.ts';
import { civilDay, day } from '../parts/figures.ts';
import { localDay } from '../parts/localTime.ts';
import { type DueCheck, isNeverNoted } from '../schedule.ts';
import { checkWords } from '../scheduleWords.ts';

export interface StateInWords {
  words: string;
  tone: 'warn' | 'fail';
}

/** By id; what is not in it is as it should be. `now` in ms. */
export function equipmentStates(
  logbook: Logbook,
  due: readonly DueCheck[],
  now: number,
): ReadonlyMap<string, StateInWords> {
  const states = new Map<string, StateInWords>();
  const instant = new Date(now).toISOString();
  for (const { id, retired } of logbook.analyzers.values()) {
    const service = retired === null ? outOfService(logbook, id, instant) : null;
    if (service) states.set(id, { words: `out of service since ${day(service.from)}`, tone: 'warn' });
  }
  // Not by the schedule: a certificate runs out whether or not the laboratory is reminded of it.
  for (const { id, description, retired } of logbook.cylinders.values()) {
    const { expiresOn } = description;
    if (retired !== null || expiresOn === null || expiresOn >= localDay(now)) continue;
    states.set(id, { words: `expired, last day ${civilDay(expiresOn)}`, tone: 'warn' });
  }
  for (const { id, retired } of logbook.subjects.values()) {
    const state = subjectStateAt(logbook, id, instant);
    if (retired === null && state !== 'active') states.set(id, { words: state, tone: 'warn' });
  }
  // In the order of how much it matters: what is said first stays.
  const ofDue = [failed, dropped, overdue];
  for (const say of ofDue) {
    for (const one of due) {
      const state = states.has(one.about.id) ? null : say(one);
      if (state) states.set(one.about.id, state);
    }
  }
  return states;
}

/** In the list an analyzer is spoken of by its simulation: its daily checks have their place on Today. */
const isSpokenOf = ({ about, check }: DueCheck) => about.kind !== 'analyzer' || check === 'simulation';

function failed(due: DueCheck): StateInWords | null {
  if (due.failed === null || !isSpokenOf(due)) return null;
  return { words: `${checkWords[due.check].toLowerCase()} failed`, tone: 'fail' };
}

function dropped({ droppedAt }: DueCheck): StateInWords | null {
  return droppedAt === null ? null : { words: 'dropped, not checked since', tone: 'warn' };
}

function overdue(due: DueCheck): StateInWords | null {
  const { state, dueOn } = due.due;
  if (state !== 'overdue' || dueOn === null || !isSpokenOf(due) || isNeverNoted(due)) return null;
  return {
    words: `${checkWords[due.check].toLowerCase()} overdue, was due ${civilDay(dueOn)}`,
    tone: 'warn',
  };
}
