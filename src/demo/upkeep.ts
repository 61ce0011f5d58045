/** What is done beside the runs: cylinders fitted, analyzers taken out of service, syringes and volumes checked, settings made. */
import { publishedVolumeCalibration } from '../core/index.ts';
import type { CylinderDescription, EntryBody, NotedCheck } from '../journal/entries.ts';
import { type Action, atTheBench, iso, minute, type Setting, writingTime } from './actions.ts';
import { balancedDeviates } from './chance.ts';
import { rounded } from './display.ts';
import type { AnalyzerPlan } from './plan.ts';

/** Carbon monoxide and methane in air, as a certificate lists them and as the app writes them in short. */
const contents: CylinderDescription['contents'] = [
  { gas: 'CO', fraction: 0.003 },
  { gas: 'CH4', fraction: 0.003 },
  { gas: 'O2', fraction: 0.21 },
];
const contentsInShort = 'CO 0.3 %, CH₄ 0.3 %, O₂ 21 %';

/** Each cylinder in turn: written down, fitted, and the one before retired. */
export function fittingsOf(plan: AnalyzerPlan, analyzerId: string, setting: Setting): Action[] {
  const { calendar, newId } = setting;
  const actions: Action[] = [];
  let before: string | null = null;
  for (const { week, label, validDays = 730 } of plan.cylinders) {
    const day = calendar.runDay(week);
    const fitted = calendar.at(day, plan.minuteOfVisit) - 25 * minute;
    const at = fitted + writingTime;
    const by = atTheBench(setting, week);
    const cylinderId = newId();
    const happenedAt = iso(fitted);
    const expiresOn = calendar.date(day + validDays);
    const description = `${label} fitted: ${contentsInShort}.`;
    actions.push(
      {
        at: fitted,
        by,
        kind: 'cylinder-added',
        body: { cylinderId, label, serial: '', contents, expiresOn },
      },
      {
        at,
        by,
        kind: 'cylinder-fitted',
        body: { fittingId: newId(), cylinderId, analyzerId, fittedAt: happenedAt },
      },
      {
        at,
        by,
        kind: 'event-recorded',
        body: { eventId: newId(), analyzerId, happenedAt, type: 'cylinder', description },
      },
    );
    if (before !== null)
      actions.push({ at, by, kind: 'cylinder-retired', body: { cylinderId: before, reason: 'Empty.' } });
    before = cylinderId;
  }
  return actions;
}

/** Out of service by whoever is there, back in it by the supervisor alone. */
export function servicePeriodOf(
  { outOfService }: AnalyzerPlan,
  analyzerId: string,
  setting: Setting,
): Action[] {
  if (outOfService === null) return [];
  const { calendar, supervisorId, newId } = setting;
  const { fromWeek, untilWeek } = outOfService;
  const set = (day: number, minutes: number, by: string, inService: boolean, reason: string): Action => {
    const at = calendar.at(day, minutes);
    const body = { serviceId: newId(), analyzerId, inService, from: iso(at), reason };
    return { at: at + writingTime, by, kind: 'service-set', body };
  };
  const by = atTheBench(setting, fromWeek);
  const out = set(calendar.runDay(fromWeek), 230, by, false, outOfService.reason);
  if (untilWeek === null) return [out];
  return [out, set(calendar.runDay(untilWeek), 10, supervisorId, true, 'Checked and zeroed.')];
}

type CheckBody = EntryBody<'check-done'>;

/** A check as it is noted, `at` being when it was done. */
function noted(
  newId: () => string,
  at: number,
  by: string,
  check: NotedCheck,
  found: Partial<Omit<CheckBody, 'checkId' | 'check' | 'doneAt' | 'technologistId'>>,
): Action {
  const body: CheckBody = {
    checkId: newId(),
    check,
    analyzerId: null,
    syringeId: null,
    technologistId: by,
    doneAt: iso(at),
    outcome: 'passed',
    volume: null,
    validUntil: null,
    note: '',
    investigates: null,
    ...found,
  };
  return { at: at + writingTime, by, kind: 'check-done', body };
}

/** Three readings of the syringe, within the published limit. */
function volumeRead(uniform: () => number): NonNullable<CheckBody['volume']> {
  const readL = balancedDeviates(3, uniform).map((deviate) => rounded(3 + 0.014 * deviate, 2));
  return { expectedL: 3, readL, limitFraction: publishedVolumeCalibration.limitFraction };
}

/** Of an analyzer whose run has failed. */
export function volumeCheckFor(
  runId: string,
  at: number,
  by: string,
  { analyzerId, newId, uniform }: { analyzerId: string; newId: () => string; uniform: () => number },
): Action {
  const investigates = { runId, check: 'volume-check' as const };
  return noted(newId, at, by, 'volume-check', { analyzerId, volume: volumeRead(uniform), investigates });
}

/** The days on which the syringe in use got its certificate, fell, and was checked once more. */
const [certificateDay, droppedDay, leakDay] = [200, 331, 450];
const barometerDay = 199;

interface UpkeepSetting extends Setting {
  analyzerIds: readonly string[];
  certificateUntil: string;
  uniform: () => number;
}

/** The checks of eighteen months, and how often the syringe is checked. */
export function checksOf(setting: UpkeepSetting): Action[] {
  const { calendar, syringeId, supervisorId, newId, uniform, certificateUntil, analyzerIds } = setting;
  const [room1 = '', room2 = '', room4 = '', room3 = ''] = analyzerIds;
  const { today } = calendar;
  const note = (
    day: number,
    minutes: number,
    check: NotedCheck,
    found: Parameters<typeof noted>[4],
    by = atTheBench(setting, day),
  ) => noted(newId, calendar.at(day, minutes), by, check, found);
  const daysFrom = (first: number, step: number) =>
    Array.from({ length: Math.ceil((today - first) / step) }, (_, index) => first + step * index);

  const drop = { dropId: newId(), syringeId, droppedAt: iso(calendar.at(droppedDay, 240)) };
  const schedule = { scheduleId: newId(), check: 'syringe-leak', isMade: true, announceDays: 14 } as const;
  const lastEightWeeks = daysFrom(today - 56, 7);
  const control = balancedDeviates(lastEightWeeks.length, uniform);
  return [
    note(
      barometerDay,
      270,
      'barometer',
      { validUntil: calendar.date(today + 21), note: 'Certificate filed.' },
      supervisorId,
    ),
    note(
      certificateDay,
      300,
      'syringe-calibration',
      { syringeId, validUntil: certificateUntil, note: 'Certificate filed.' },
      supervisorId,
    ),
    note(certificateDay, 310, 'syringe-leak', { syringeId, note: 'Holds its volume.' }),
    {
      at: calendar.at(certificateDay, 330),
      by: supervisorId,
      kind: 'schedule-set',
      body: {
        ...schedule,
        every: { unit: 'months', count: 6 },
        reason: 'Carried from room to room.',
      },
    },
    {
      at: calendar.at(droppedDay, 245),
      by: atTheBench(setting, droppedDay),
      kind: 'syringe-dropped',
      body: { ...drop, description: 'Slid off the trolley.' },
    },
    note(droppedDay, 260, 'syringe-leak', { syringeId, note: 'Holds its volume, stop straight.' }),
    note(leakDay, 280, 'syringe-leak', { syringeId, note: 'Holds its volume.' }),
    ...daysFrom(15, 28).map((day) =>
      note(day, 330, 'linearity', { analyzerId: room4, note: 'Three points, within 0.5 %.' }),
    ),
    // On the weekday on which the demonstration ends: the next is due on its last day.
    ...lastEightWeeks.map((day, index) => {
      const dlco = (9.5 + 0.3 * (control[index] ?? 0)).toFixed(2);
      const found = { analyzerId: room2, note: `B-1: DLCO ${dlco}, own mean 9.50.` };
      return note(day, 60, 'biological-control', found);
    }),
    // In the last fortnight, up to the day before the demonstration ends.
    ...daysFrom(today - 14, 1).flatMap((day) =>
      [room1, room2, room3].map((analyzerId, place) =>
        note(day, 5 + 6 * place, 'volume-check', { analyzerId, volume: volumeRead(uniform) }),
      ),
    ),
  ];
}
