/** Whole weeks, Monday to Sunday, in which an analyzer made no run. Pure. */
import { addDays, type CivilDate, daysBetween } from '../../core/index.ts';

export interface Gap {
  from: CivilDate;
  to: CivilDate;
  weeks: number;
  isOutOfService: boolean;
}

const mondayOnOrAfter = (date: CivilDate): CivilDate => {
  const weekday = new Date(`${date}T00:00:00Z`).getUTCDay();
  return addDays(date, (8 - weekday) % 7);
};

/** `runDays` in any order. A stretch of weeks out of service is a gap of its own: it wants no explanation. */
export function weeksWithoutRun(
  runDays: readonly CivilDate[],
  { from, to }: { from: CivilDate; to: CivilDate },
  isOutOfService: (from: CivilDate, to: CivilDate) => boolean = () => false,
): readonly Gap[] {
  const firstMonday = mondayOnOrAfter(from);
  const withRun = new Set(runDays.map((date) => Math.floor(daysBetween(firstMonday, date) / 7)));
  const gaps: Gap[] = [];
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
