import { addDays, type CivilDate, daysBetween } from './civilDate.ts';
import { mondayOf } from './civilWeek.ts';

/** Whole weeks in a row, from a Monday to a Sunday. */
export interface WeeksWithoutRun {
  from: CivilDate;
  to: CivilDate;
  weeks: number;
  isOutOfService: boolean;
}

/**
 * The whole weeks of a period, both its ends in, in which no run was made, `runDays` in any order. A stretch out of service stands by itself,
 * since it wants no explanation. Whether a run was due is not asked here: see `completeness`.
 * @throws {RangeError} if a date is not one of the calendar.
 * @example weeksWithoutRun(['2026-03-08', '2026-03-09', '2026-03-22'], { from: '2026-03-01', to: '2026-03-31' }) // that from 23 to 29 March
 */
export function weeksWithoutRun(
  runDays: readonly CivilDate[],
  { from, to }: { from: CivilDate; to: CivilDate },
  isOutOfService: (from: CivilDate, to: CivilDate) => boolean = () => false,
): readonly WeeksWithoutRun[] {
  const firstMonday = mondayOf(addDays(from, 6));
  const withRun = new Set(runDays.map((date) => Math.floor(daysBetween(firstMonday, date) / 7)));
  const gaps: WeeksWithoutRun[] = [];
  for (let week = 0; ; week += 1) {
    const monday = addDays(firstMonday, week * 7);
    const sunday = addDays(monday, 6);
    if (sunday > to) return gaps;
    if (withRun.has(week)) continue;
    const isOut = isOutOfService(monday, sunday);
    const before = gaps.at(-1);
    if (before && before.isOutOfService === isOut && addDays(before.to, 1) === monday) {
      before.to = sunday;
      before.weeks += 1;
    } else gaps.push({ from: monday, to: sunday, weeks: 1, isOutOfService: isOut });
  }
}
