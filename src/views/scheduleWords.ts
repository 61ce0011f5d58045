/** What is due, in words: wherever a screen names a check or its date. Dates carry their weekday: a laboratory plans by it. */
import { type CheckInterval, type CivilDate, civilDateOf, daysBetween } from '../core/index.ts';
import type { NotedCheck, ScheduledCheck } from '../journal/entries.ts';
import type { Logbook } from '../journal/logbook.ts';
import { civilDay, civilDayInYear, counted } from './parts/figures.ts';
import { type CheckedThing, type DueCheck, isNeverNoted } from './schedule.ts';

export const checkWords: Record<ScheduledCheck, string> = {
  simulation: 'Simulation',
  'volume-check': 'Volume calibration check',
  'biological-control': 'Biological control',
  linearity: 'Gas analyzer linearity',
  'syringe-leak': 'Leak and stop check',
  'syringe-calibration': 'Syringe calibration',
  barometer: 'Barometer check',
  'cylinder-expiry': 'Cylinder expiry',
  simulator: 'Precision-gas simulator',
};

export const outcomeWords = { passed: 'passed', failed: 'failed', noted: 'noted' } as const;

/** Every check that is noted by hand; a simulation is a run, a simulator's session a control, and an expiry comes by itself. */
export const isNotedCheck = (check: ScheduledCheck): check is NotedCheck =>
  check !== 'simulation' && check !== 'cylinder-expiry' && check !== 'simulator';

const weekdays = ['Sun', 'Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat'] as const;

/** `Mon 23 Nov`; with its year where that is not half a year from `today`. */
export function dayByName(date: CivilDate, today: CivilDate): string {
  const weekday = weekdays[new Date(`${date}T00:00:00Z`).getUTCDay()];
  return `${weekday} ${Math.abs(daysBetween(date, today)) < 183 ? civilDayInYear(date) : civilDay(date)}`;
}

/** The day of an instant, by the clocks of a zone; by UTC where this browser does not know it. */
export function dayByNameAt(at: number, zone: string, today: CivilDate): string {
  try {
    return dayByName(civilDateOf(at, zone), today);
  } catch {
    return `${dayByName(civilDateOf(at, 'UTC'), today)} UTC`;
  }
}

/** `every 2 weeks`: weeks as weeks, since seven days are one in every laboratory's mouth. */
export function intervalWords(every: CheckInterval | null): string {
  if (every === null) return 'by a date of its own';
  const { unit, count } = every;
  if (unit === 'months') return everySo(count, 'month');
  return count % 7 === 0 ? everySo(count / 7, 'week') : everySo(count, 'day');
}

const everySo = (count: number, unit: string) => (count === 1 ? `every ${unit}` : `every ${count} ${unit}s`);

/** As it stands on the equipment: the analyzer's, syringe's or cylinder's label. */
export function nameOfThing({ kind, id }: Pick<CheckedThing, 'kind' | 'id'>, logbook: Logbook): string {
  const things = { analyzer: logbook.analyzers, syringe: logbook.syringes, cylinder: logbook.cylinders };
  return kind === 'laboratory' ? 'The laboratory' : (things[kind].get(id)?.description.label ?? 'Unknown');
}

/**
 * The sentence of one check, without what it is about: `Simulation overdue by 3 days, was due Mon 23 Nov`. What has failed or
 * follows a fall is said in place of the date.
 */
export function dueSentence(due: DueCheck, today: CivilDate, zone: string): string {
  const name = checkWords[due.check];
  if (isNeverNoted(due)) return `${name} usually ${intervalWords(due.plan.every)}`;
  if (due.failed !== null) {
    return `${name} failed ${dayByNameAt(due.failed.at, due.failed.zone, today)}: not passed since`;
  }
  if (due.droppedAt !== null) {
    const dropped = dayByNameAt(Date.parse(due.droppedAt), zone, today);
    return `${name} due at once: dropped ${dropped} and not checked since`;
  }
  if (due.check === 'cylinder-expiry') return expirySentence(due, today);
  return `${name} ${whenDue(due, today)}`;
}

function whenDue({ due: { state, dueOn, daysOverdue } }: DueCheck, today: CivilDate): string {
  if (state === 'paused') return 'due once it is back in service';
  if (dueOn === null) return 'has no date';
  const on = dayByName(dueOn, today);
  switch (state) {
    case 'overdue':
      return `overdue by ${counted(daysOverdue, 'day')}, was due ${on}`;
    case 'today':
      return 'due today';
    case 'soon':
    case 'later':
      return `due ${soonWords(dueOn, today)}${on}`;
    case 'not-applicable':
      return 'not applicable';
  }
}

function expirySentence({ due: { state, dueOn } }: DueCheck, today: CivilDate): string {
  if (dueOn === null) return 'No expiry written down';
  const on = dayByName(dueOn, today);
  if (state === 'overdue')
    return `Expired ${counted(daysBetween(dueOn, today), 'day')} ago: last day was ${on}`;
  return state === 'today' ? 'Expires today: its last day' : `Expires ${soonWords(dueOn, today)}${on}`;
}

/** `in 4 days, `; empty for a date so far off that nobody counts the days. */
function soonWords(dueOn: CivilDate, today: CivilDate): string {
  const days = daysBetween(today, dueOn);
  return days > 30 ? '' : `${daysAhead(days)}, `;
}

export const daysAhead = (days: number) => (days === 1 ? 'tomorrow' : `in ${days} days`);
