/** What is done beside the runs: cylinders fitted, analyzers taken out of service, syringes and volumes checked, settings made. */
import { linearityCheck, publishedCheckLimits } from '../core/index.ts';
import { withoutBinaryNoise } from '../journal/binaryNoise.ts';
import type { CylinderDescription, EntryBody, Gas, Linearity, NotedCheck } from '../journal/entries.ts';
import { type Action, atTheBench, iso, minute, type Setting, writingTime } from './actions.ts';
import { balancedDeviates } from './chance.ts';
import { bentFrom } from './controlPlan.ts';
import { rounded } from './display.ts';
import { type AnalyzerPlan, lastWeek } from './plan.ts';

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

/** Slow, as in a vital capacity, and fast. */
const flowsLPerS = [0.5, 3, 6] as const;

/** Three readings of the syringe, within the published limit. */
function volumeRead(uniform: () => number): NonNullable<CheckBody['volume']> {
  const readL = balancedDeviates(3, uniform).map((deviate) => rounded(3 + 0.014 * deviate, 2));
  const limitFraction = publishedCheckLimits.volumeCalibration.fraction;
  return { expectedL: 3, readL, limitFraction, flowLPerS: [...flowsLPerS] };
}

/** Of full scale, at which known dilutions are read. */
const dilutions = [0, 0.25, 0.5, 0.75, 1];

/** Both gases; `bend` is how far CO reads high in the middle, as a fraction of full scale. */
function linearityRead(bend: number, uniform: () => number): Pick<CheckBody, 'linearity' | 'outcome'> {
  const limitFraction = publishedCheckLimits.linearity.fraction;
  const fullScale = 0.3;
  const of = (gas: Gas, bent: number): Linearity => {
    const scatter = balancedDeviates(dilutions.length, uniform);
    const points = dilutions.map((share, index) => ({
      expected: withoutBinaryNoise(fullScale * share),
      read: rounded(fullScale * (share + 4 * bent * share * (1 - share) + 0.001 * (scatter[index] ?? 0)), 4),
    }));
    return { gas, unit: '%', fullScale, points, limitFraction };
  };
  const linearity = [of('CO', bend), of('CH4', 0)];
  return { linearity, outcome: linearity.every((one) => linearityCheck(one).within) ? 'passed' : 'failed' };
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
/** From this week on volume checks are written down in here. */
export const volumesKeptFrom = lastWeek - 12;

interface UpkeepSetting extends Setting {
  analyzerIds: readonly string[];
  certificateUntil: string;
  uniform: () => number;
}

/** The checks of eighteen months, and how often the syringe is checked. */
export function checksOf(setting: UpkeepSetting): Action[] {
  const { calendar, syringeId, supervisorId, newId, uniform, certificateUntil, analyzerIds } = setting;
  const [, , room4 = '', , room5 = ''] = analyzerIds;
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
  const volumeSchedule = {
    scheduleId: newId(),
    check: 'volume-check',
    isMade: true,
    announceDays: 0,
  } as const;
  const keptSince = calendar.runDay(volumesKeptFrom) - 1;
  return [
    note(
      barometerDay,
      270,
      'barometer',
      {
        barometer: {
          unit: 'hPa',
          read: 1004,
          reference: 1003.2,
          limitFraction: publishedCheckLimits.barometer.fraction,
        },
        validUntil: calendar.date(today + 21),
        note: 'Against that of the weather station.',
      },
      supervisorId,
    ),
    note(
      certificateDay,
      300,
      'syringe-calibration',
      {
        syringeId,
        syringe: {
          nominalL: 3,
          measuredL: 3.003,
          limitFraction: publishedCheckLimits.syringe.fraction,
          certificate: 'C-204',
          issuedBy: 'Calibration service',
        },
        validUntil: certificateUntil,
        note: 'Certificate filed.',
      },
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
      note(day, 330, 'linearity', { analyzerId: room4, ...linearityRead(0, uniform) }),
    ),
    // A little more each time, and then all at once.
    ...[16, 12, 8, 4].map((weeksAgo) => {
      const found = { analyzerId: room5, ...linearityRead(0.0002 * (20 - weeksAgo), uniform) };
      return note(calendar.runDay(lastWeek - weeksAgo), 225, 'linearity', found);
    }),
    note(calendar.runDay(bentFrom), 226, 'linearity', {
      analyzerId: room5,
      ...linearityRead(0.024, uniform),
      note: 'CO reads high in the middle of the range. Service is called; no patients until cleared.',
    }),
    {
      at: calendar.at(keptSince, 330),
      by: supervisorId,
      kind: 'schedule-set',
      body: {
        ...volumeSchedule,
        every: { unit: 'days', count: 7 },
        reason: 'Kept in here once a week; the daily ones stay on the sheet beside the analyzer.',
      },
    },
    // On the weekday on which the demonstration ends: the next is due on its last day.
    ...daysFrom(today - 84, 7).flatMap((day) =>
      analyzerIds.map((analyzerId, place) =>
        note(day, 5 + 4 * place, 'volume-check', { analyzerId, volume: volumeRead(uniform) }),
      ),
    ),
  ];
}
