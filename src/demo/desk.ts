/** What is written at the supervisor's desk: the persons who test, weeks without a run explained, and what was looked through and signed. */
import type { EntryBody } from '../journal/entries.ts';
import { type Action, atTheBench, iso, type Setting } from './actions.ts';
import {
  bloodGiven,
  countsAgain,
  firstControlWeek,
  leftAfter,
  pausedFromTo,
  persons,
} from './controlPlan.ts';
import { lastWeek } from './plan.ts';
import { analyzers } from './scenario.ts';
import { volumesKeptFrom } from './upkeep.ts';

interface DeskSetting extends Setting {
  analyzerIds: readonly string[];
  personIds: readonly string[];
}

/** Each is entered on the day before the first test; one pauses, one is left out of the means for a while, one leaves. */
export function personsOf(setting: DeskSetting): Action[] {
  const { calendar, supervisorId, personIds, newId } = setting;
  const [first = '', second = '', third = ''] = personIds;
  const begun = calendar.runDay(firstControlWeek) - 1;
  const set = (
    week: number,
    minutes: number,
    by: string,
    said: Pick<EntryBody<'subject-state-set'>, 'subjectId' | 'state' | 'reason'>,
  ): Action => {
    const at = calendar.at(calendar.runDay(week), minutes);
    return { at, by, kind: 'subject-state-set', body: { settingId: newId(), from: iso(at), ...said } };
  };
  const [pausedAfter, backIn] = pausedFromTo;
  return [
    ...persons.map(({ description }, index): Action => {
      const body = { subjectId: personIds[index] ?? '', ...description };
      return { at: calendar.at(begun, 70 + index), by: supervisorId, kind: 'subject-added', body };
    }),
    set(pausedAfter, 226, atTheBench(setting, pausedAfter), {
      subjectId: first,
      state: 'paused',
      reason: 'Not available.',
    }),
    set(backIn, 2, supervisorId, { subjectId: first, state: 'active', reason: 'Available again.' }),
    set(bloodGiven, 224, supervisorId, {
      subjectId: second,
      state: 'excluded',
      reason: 'Haemoglobin is not as usual.',
    }),
    set(countsAgain, 2, supervisorId, {
      subjectId: second,
      state: 'active',
      reason: 'Haemoglobin is as it was.',
    }),
    {
      at: calendar.at(calendar.runDay(leftAfter), 228),
      by: supervisorId,
      kind: 'subject-retired',
      body: { subjectId: third, reason: 'Works elsewhere now.' },
    },
  ];
}

/** Weeks without a run that somebody has explained; others stand without a word. And from when the other checks are kept in here. */
export function gapsOf(setting: DeskSetting): Action[] {
  const { calendar, supervisorId, analyzerIds, newId } = setting;
  const [room1 = '', room2 = ''] = analyzerIds;
  const explained = (
    analyzerId: string,
    weeks: readonly [from: number, to: number],
    reason: string,
    check: EntryBody<'gap-explained'>['check'] = 'simulation',
  ): Action => {
    const [first, last] = weeks;
    // From the Monday of the one to the Sunday of the other: the run day is a Tuesday.
    const from = calendar.date(calendar.runDay(first) - 1);
    const to = calendar.date(calendar.runDay(last) + 5);
    const at = calendar.at(calendar.runDay(last + 1), 232);
    const body = { gapId: newId(), analyzerId, check, from, to, reason };
    return { at, by: supervisorId, kind: 'gap-explained', body };
  };
  return [
    explained(room2, [36, 36], 'One technologist ill, the other on a course.'),
    explained(room1, [33, 33], 'Power was off in the whole wing.'),
    explained(room2, [66, 66], 'No test gas: the delivery came a day late.'),
    ...analyzers.flatMap(({ fromWeek }, index) =>
      fromWeek >= volumesKeptFrom
        ? []
        : [
            explained(
              analyzerIds[index] ?? '',
              [fromWeek, volumesKeptFrom - 1],
              'On paper up to then.',
              'volume-check',
            ),
          ],
    ),
    ...[room1, room2].map((analyzerId) =>
      explained(
        analyzerId,
        [0, firstControlWeek - 1],
        'Tests with persons began later.',
        'biological-control',
      ),
    ),
  ];
}

/** A quarter each. What they cover ends with the entry before them: it gets its heads where it is sealed. */
export function signOffsOf({ calendar, supervisorId, analyzerIds, newId }: DeskSetting): Action[] {
  const [first, second] = [lastWeek - 26, lastWeek - 13].map((week) => calendar.runDay(week) + 3);
  if (first === undefined || second === undefined) return [];
  const signed = (fromDay: number, toDay: number, comment: string): Action => {
    const body = {
      signOffId: newId(),
      from: calendar.date(fromDay),
      to: calendar.date(toDay),
      analyzers: analyzerIds.map((analyzerId) => ({ analyzerId, comment: '' })),
      heads: [],
      comment,
      signature: null,
    };
    return { at: calendar.at(toDay, 400), by: supervisorId, kind: 'period-signed', body };
  };
  return [
    signed(0, first, 'The leak of room 2 and the cell of room 1 are repaired and proven.'),
    signed(first + 1, second, ''),
  ];
}
