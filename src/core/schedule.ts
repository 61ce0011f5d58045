import { addDays, addMonths, type CivilDate, civilDateOf, daysBetween } from './civilDate.ts';

export type CheckKind =
  | 'simulation'
  | 'volume-check'
  | 'linearity'
  | 'biological-control'
  | 'syringe-leak'
  | 'syringe-calibration'
  | 'barometer'
  | 'cylinder-expiry'
  | 'simulator';

export type CheckInterval = { unit: 'days' | 'months'; count: number };

export interface CheckPlan {
  kind: CheckKind;
  /** Null for what has no interval, such as the date printed on a cylinder. */
  every: CheckInterval | null;
  /** Days before it is due from which it is announced. */
  announceDays: number;
  /** Where this plan comes from, in one sentence. */
  source: string;
}

/** What a laboratory starts from. Each says where its interval comes from; the days of announcement are common practice, no source. */
export const usualPlans: readonly CheckPlan[] = [
  {
    kind: 'simulation',
    every: { unit: 'days', count: 7 },
    announceDays: 1,
    source: 'Weekly, and whenever a fault is suspected: ERS/ATS standard 2017, equipment table.',
  },
  {
    kind: 'volume-check',
    every: { unit: 'days', count: 1 },
    announceDays: 0,
    source: 'Daily: ATS laboratory manual, 3rd edition, and ERS/ATS standard 2017.',
  },
  {
    kind: 'linearity',
    every: { unit: 'months', count: 1 },
    announceDays: 3,
    source: 'Monthly: common practice, no source.',
  },
  {
    kind: 'biological-control',
    every: { unit: 'days', count: 7 },
    announceDays: 1,
    source: 'Weekly: common practice, no source.',
  },
  {
    kind: 'simulator',
    every: { unit: 'months', count: 3 },
    announceDays: 7,
    source: 'Every three months, where there is a simulator: common practice, no source.',
  },
  {
    kind: 'syringe-leak',
    every: { unit: 'months', count: 12 },
    announceDays: 30,
    source: 'At least yearly, and after any drop: ATS laboratory manual, 3rd edition.',
  },
  {
    kind: 'syringe-calibration',
    every: { unit: 'months', count: 12 },
    announceDays: 30,
    source: 'Yearly: common practice, no source.',
  },
  {
    kind: 'barometer',
    every: { unit: 'months', count: 12 },
    announceDays: 30,
    source: 'Yearly: common practice, no source.',
  },
  {
    kind: 'cylinder-expiry',
    every: null,
    announceDays: 30,
    source: 'By the date on the cylinder or its certificate; common practice, no source.',
  },
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
  /** A date that the laboratory typed, of a certificate or an expiry: it rules in place of any interval. */
  dueOn?: CivilDate | null | undefined;
  /** Since something happened, in ms, after which the check is due at once, such as a syringe that was dropped. */
  dueAtOnceSince?: number | null | undefined;
  pauses: readonly ServicePause[];
}

export type DueState = 'not-applicable' | 'paused' | 'later' | 'soon' | 'today' | 'overdue';

export interface CheckDue {
  kind: CheckKind;
  state: DueState;
  /** Null while it is not applicable, without a date, or paused without an end. */
  dueOn: CivilDate | null;
  /** Days in service since it was due; 0 unless overdue. */
  daysOverdue: number;
}

/**
 * When a check is due, by the dates on the laboratory's wall: seven days later is the same weekday whatever the clocks do.
 * Due is the date that was typed, or the interval after it was last done, or, when it never was, the day the equipment came into
 * service. It is due at once when something has happened since it was last done, unless it was due before. What has neither
 * an interval nor a date is not applicable. What falls due during a pause is due on the day the equipment is used again,
 * and days out of service are never days overdue.
 * @throws {RangeError} if a date, an instant, the zone or the interval is impossible.
 * @example last done on Monday 2 March, weekly: due on Monday 9 March, overdue from the 10th
 */
export function checkDue(history: CheckHistory, now: number, zone: string): CheckDue {
  const { plan, since, retiredOn, pauses } = history;
  const { kind } = plan;
  requirePlan(plan);
  for (const { from, until } of pauses) {
    if (until !== null && daysBetween(from, until) < 0) {
      throw new RangeError(`checkDue: a pause is until ${until}, before it began on ${from}`);
    }
  }
  const today = civilDateOf(now, zone);
  const planned = earlierOf(plannedDate(history, zone), dateOfMishap(history, zone));
  const isInService = daysBetween(since, today) >= 0 && !(retiredOn && daysBetween(retiredOn, today) >= 0);
  if (!isInService || planned === null) return { kind, state: 'not-applicable', dueOn: null, daysOverdue: 0 };
  const dueOn = afterPauses(planned, pauses);
  if (pauses.some((pause) => isPaused(pause, today))) return { kind, state: 'paused', dueOn, daysOverdue: 0 };
  if (dueOn === null) return { kind, state: 'paused', dueOn, daysOverdue: 0 };
  const ahead = daysBetween(today, dueOn);
  if (ahead > plan.announceDays) return { kind, state: 'later', dueOn, daysOverdue: 0 };
  if (ahead > 0) return { kind, state: 'soon', dueOn, daysOverdue: 0 };
  if (ahead === 0) return { kind, state: 'today', dueOn, daysOverdue: 0 };
  return {
    kind,
    state: 'overdue',
    dueOn,
    daysOverdue: daysInService(laterOf(dueOn, addDays(since, -1)), today, pauses),
  };
}

function plannedDate({ plan, since, lastDoneAt, dueOn }: CheckHistory, zone: string): CivilDate | null {
  if (dueOn !== null && dueOn !== undefined) return dueOn;
  if (plan.every === null) return null;
  return lastDoneAt === null ? since : addInterval(civilDateOf(lastDoneAt, zone), plan.every);
}

/** The day of what made the check due at once; null when nothing did, or when it was done since. */
function dateOfMishap({ lastDoneAt, dueAtOnceSince }: CheckHistory, zone: string): CivilDate | null {
  if (dueAtOnceSince === null || dueAtOnceSince === undefined) return null;
  const date = civilDateOf(dueAtOnceSince, zone);
  return lastDoneAt !== null && lastDoneAt > dueAtOnceSince ? null : date;
}

function earlierOf(one: CivilDate | null, other: CivilDate | null): CivilDate | null {
  if (one === null || other === null) return one ?? other;
  return earliest(one, other);
}

function laterOf(one: CivilDate, other: CivilDate): CivilDate {
  return daysBetween(one, other) >= 0 ? other : one;
}

/**
 * When a check is due that was last done on a date.
 * @throws {RangeError} if the date is not one of the calendar or the count is not whole.
 * @example addInterval('2026-01-31', { unit: 'months', count: 1 }) // '2026-02-28'
 */
export function addInterval(date: CivilDate, { unit, count }: CheckInterval): CivilDate {
  return unit === 'days' ? addDays(date, count) : addMonths(date, count);
}

function isPaused({ from, until }: ServicePause, date: CivilDate): boolean {
  return daysBetween(from, date) >= 0 && (until === null || daysBetween(date, until) > 0);
}

/** The first day of use on or after a date; null while no end is known. */
export function afterPauses(date: CivilDate, pauses: readonly ServicePause[]): CivilDate | null {
  const pause = pauses.find((each) => isPaused(each, date));
  if (pause === undefined) return date;
  return pause.until === null ? null : afterPauses(pause.until, pauses);
}

/** Days in service after a date, up to and with another. */
function daysInService(after: CivilDate, upTo: CivilDate, pauses: readonly ServicePause[]): number {
  // Pause by pause, not day by day: years of arrears of every check of forty analyzers are asked for at once.
  let days = 0;
  let looked = after;
  for (const { from, until } of pauses.toSorted((one, other) => daysBetween(other.from, one.from))) {
    const before = earliest(addDays(from, -1), upTo);
    days += Math.max(0, daysBetween(looked, before));
    looked = laterOf(looked, until === null ? upTo : earliest(addDays(until, -1), upTo));
  }
  return days + daysBetween(looked, upTo);
}

const earliest = (one: CivilDate, other: CivilDate) => (daysBetween(one, other) >= 0 ? one : other);

function requirePlan({ every, announceDays }: CheckPlan): void {
  if (every !== null && (!Number.isSafeInteger(every.count) || every.count < 1)) {
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
