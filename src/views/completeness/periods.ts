/** The stretches of time that can be looked at: the last twelve months, or a year of the calendar. Pure. */
import { addDays, type CivilDate, mondayOf } from '../../core/index.ts';
import type { Logbook } from '../../journal/logbook.ts';
import { dayIn } from '../investigationShift.ts';

export interface PeriodChoice {
  id: string;
  label: string;
  period: { from: CivilDate; to: CivilDate };
}

const weeksOfAYear = 52;

/** The first is the usual one; years newest first, back to that of the oldest run. */
export function periodChoices({ runs }: Pick<Logbook, 'runs'>, today: CivilDate): readonly PeriodChoice[] {
  const [oldest] = runs;
  const thisYear = Number(today.slice(0, 4));
  const firstDay = oldest === undefined ? today : dayIn(oldest.simulation.at, oldest.entry.zone);
  const firstYear = Math.min(thisYear, Number(firstDay.slice(0, 4)));
  const years = Array.from({ length: thisYear - firstYear + 1 }, (_, back) => String(thisYear - back));
  return [
    {
      id: 'last-year',
      label: 'The last 52 weeks',
      period: { from: addDays(mondayOf(today), (1 - weeksOfAYear) * 7), to: today },
    },
    ...years.map((year) => ({
      id: year,
      label: year,
      period: { from: `${year}-01-01`, to: `${year}-12-31` },
    })),
  ];
}
