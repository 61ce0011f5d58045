/** How often a laboratory makes its runs, by its own schedule or the usual one. Pure. */
import type { CheckInterval } from '../../core/index.ts';
import type { Logbook } from '../../journal/logbook.ts';
import { counted } from '../parts/figures.ts';
import { planOf } from '../schedule.ts';

/** A twelfth of the civil calendar's 365.2425 days. */
const daysInMonth = 365.2425 / 12;

export interface HowOften {
  runsPerWeek: number;
  /** A sentence. */
  words: string;
}

export function howOften(logbook: Pick<Logbook, 'schedules'>): HowOften {
  const planned = planOf(logbook, 'simulation');
  const every = planned?.plan.every ?? null;
  if (planned === null || every === null) {
    return {
      runsPerWeek: 1,
      words: 'By the schedule no simulation is made here: reckoned for one run a week by each route.',
    };
  }
  const days = every.unit === 'days' ? every.count : every.count * daysInMonth;
  const whose = planned.isUsual ? 'the usual schedule' : 'your schedule';
  return { runsPerWeek: 7 / days, words: `Reckoned for ${intervalWords(every)} by each route: ${whose}.` };
}

function intervalWords({ unit, count }: CheckInterval): string {
  if (unit === 'days' && count === 7) return 'one run a week';
  if (count === 1) return `one run a ${unit === 'days' ? 'day' : 'month'}`;
  return `one run every ${counted(count, unit === 'days' ? 'day' : 'month')}`;
}
