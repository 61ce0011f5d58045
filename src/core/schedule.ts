import { addDays, addMonths, type CivilDate, civilDateOf, daysBetween } from './civilDate.ts';

export type CheckKind =
  | 'simulation'
  | 'volume-check'
  | 'biological-control'
  | 'syringe-leak'
  | 'syringe-calibration'
  | 'barometer';

export type CheckInterval = { unit: 'days' | 'months'; count: number };

export interface CheckPlan {
  kind: CheckKind;
  every: CheckInterval;
  /** Days before it is due from which it is announced. */
  announceDays: number;
}

/**
 * Simulation weekly and volume check daily: ERS/ATS 2017 and ATS manual, 3rd edition. Leak check of the syringe at least yearly:
 * ATS manual. Calibration of syringe and barometer yearly, biological control weekly: common practice, no source.
 */
export const usualPlans: readonly CheckPlan[] = [
  { kind: 'simulation', every: { unit: 'days', count: 7 }, announceDays: 1 },
  { kind: 'volume-check', every: { unit: 'days', count: 1 }, announceDays: 0 },
  { kind: 'biological-control', every: { unit: 'days', count: 7 }, announceDays: 1 },
  { kind: 'syringe-leak', every: { unit: 'months', count: 12 }, announceDays: 30 },
  { kind: 'syringe-calibration', every: { unit: 'months', count: 12 }, announceDays: 30 },
  { kind: 'barometer', every: { unit: 'months', count: 12 }, announceDays: 30 },
];

/** Out of service: from the first day without use up to the day it is used again, null while it is not. */
export interface ServicePause {
  from: CivilDate;
  until: CivilDate | null;
}

export interface CheckHistory {
  plan: CheckPlan;
  /** In service since. */
  since: CivilDate;
  /** Taken out of use for good. */
  retiredOn?: CivilDate | null | undefined;
  /** When the check was last done, in ms; null when it never was. */
  lastDoneAt: number | null;
  pauses: readonly ServicePause[];
}

export type DueState = 'not-applicable' | 'paused' | 'later' | 'soon' | 'today' | 'overdue';

export interface CheckDue {
  kind: CheckKind;
  state: DueState;
  /** Null while it is not applicable or paused without an end. */
  dueOn: CivilDate | null;
  /** Days in service since it was due; 0 unless overdue. */
  daysOverdue: number;
}

/**
 * When a check is due, by the dates on the laboratory's wall: seven days later is the same weekday whatever the clocks do.
 * Due is the interval after it was last done, or, when it never was, the day the equipment came into service. What falls
 * due during a pause is due on the day the equipment is used again, and days out of service are never days overdue.
 * @throws {RangeError} if a date, an instant, the zone or the interval is impossible.
 * @example last done on Monday 2 March, weekly: due on Monday 9 March, overdue from the 10th
 */
export function checkDue(history: CheckHistory, now: number, zone: string): CheckDue {
  const { plan, since, retiredOn, lastDoneAt, pauses } = history;
  const { kind } = plan;
  requirePlan(plan);
  for (const { from, until } of pauses) {
    if (until !== null && daysBetween(from, until) < 0) {
      throw new RangeError(`checkDue: a pause is until ${until}, before it began on ${from}`);
    }
  }
  const today = civilDateOf(now, zone);
  const isInService = daysBetween(since, today) >= 0 && !(retiredOn && daysBetween(retiredOn, today) >= 0);
  if (!isInService) return { kind, state: 'not-applicable', dueOn: null, daysOverdue: 0 };
  const planned = lastDoneAt === null ? since : addInterval(civilDateOf(lastDoneAt, zone), plan.every);
  const dueOn = afterPauses(planned, pauses);
  if (pauses.some((pause) => isPaused(pause, today))) return { kind, state: 'paused', dueOn, daysOverdue: 0 };
  if (dueOn === null) return { kind, state: 'paused', dueOn, daysOverdue: 0 };
  const ahead = daysBetween(today, dueOn);
  if (ahead > plan.announceDays) return { kind, state: 'later', dueOn, daysOverdue: 0 };
  if (ahead > 0) return { kind, state: 'soon', dueOn, daysOverdue: 0 };
  if (ahead === 0) return { kind, state: 'today', dueOn, daysOverdue: 0 };
  return { kind, state: 'overdue', dueOn, daysOverdue: daysInService(dueOn, today, pauses) };
}

function addInterval(date: CivilDate, { unit, count }: CheckInterval): CivilDate {
  return unit === 'days' ? addDays(date, count) : addMonths(date, count);
}

function isPaused({ from, until }: ServicePause, date: CivilDate): boolean {
  return daysBetween(from, date) >= 0 && (until === null || daysBetween(date, until) > 0);
}

/** The first day of use on or after a date; null while no end is known. */
function afterPauses(date: CivilDate, pauses: readonly ServicePause[]): CivilDate | null {
  const pause = pauses.find((each) => isPaused(each, date));
  if (pause === undefined) return date;
  return pause.until === null ? null : afterPauses(pause.until, pauses);
}

/** Days in service after a date, up to and with another. */
function daysInService(after: CivilDate, upTo: CivilDate, pauses: readonly ServicePause[]): number {
  let days = 0;
  for (let date = addDays(after, 1); daysBetween(date, upTo) >= 0; date = addDays(date, 1)) {
    if (!pauses.some((pause) => isPaused(pause, date))) days += 1;
  }
  return days;
}

function requirePlan({ every, announceDays }: CheckPlan): void {
  if (!Number.isSafeInteger(every.count) || every.count < 1) {
    throw new RangeError(
      `checkDue: plan.every.count is ${every.count} ${every.unit}, not a whole number of 1 or more`,
    );
  }
  if (!Number.isSafeInteger(announceDays) || announceDays < 0) {
    throw new RangeError(
      `checkDue: plan.announceDays is ${announceDays} days, not a whole number of 0 or more`,
    );
  }
}
