import { type CivilDate, daysBetween } from './civilDate.ts';
import { addInterval, afterPauses, type CheckInterval, type ServicePause } from './schedule.ts';

/** A check that fell due, and what became of it. */
export interface DueDate {
  dueOn: CivilDate;
  /** The day of the run that answered it; null where none did before the next fell due. */
  madeOn: CivilDate | null;
  state: 'on-time' | 'late' | 'missed';
}

export interface DueDatesInput {
  /** Days on which the check was made, in any order; those after `today` do not count. */
  madeOn: readonly CivilDate[];
  every: CheckInterval;
  /** In use since; a run before it moves it there. */
  since: CivilDate;
  /** Taken out of use for good: nothing falls due from that day on. */
  retiredOn: CivilDate | null;
  pauses: readonly ServicePause[];
  today: CivilDate;
}

/**
 * Every date on which a check fell due up to today, oldest first. It falls due one interval after the day it was last made, and the first
 * time one interval after coming into use; what falls into a pause falls due on the day of use again. While it is not made it
 * falls due again after every further interval: the earlier ones are missed, and the next run answers the last of them, on time on its very
 * day and late after it. A run ahead of its date answers it on time and moves the next; but one made sooner than half the interval after the last
 * that answered a date is a repeat, at which nothing was due, though it moves the next as well. Where a weekly check is made daily, every fourth
 * run counts. A date that is today and
 * unanswered is left out: the day is not over.
 * @throws {RangeError} if a date or the interval is impossible.
 * @example weekly, made on Mondays 2, 9 and Tuesday 17 March 2026: due on the 9th, on time, and on the 16th, late
 */
export function dueDates({
  madeOn,
  every,
  since,
  retiredOn,
  pauses,
  today,
}: DueDatesInput): readonly DueDate[] {
  const made = [...new Set(madeOn)].filter((date) => daysBetween(date, today) >= 0).sort();
  const [inUseSince = since] = [since, ...made.slice(0, 1)].sort();
  const falls = (date: CivilDate): CivilDate | null => {
    const dueOn = afterPauses(date, pauses);
    return dueOn === null || (retiredOn !== null && dueOn >= retiredOn) ? null : dueOn;
  };
  const dates: DueDate[] = [];
  let answered = inUseSince;
  let dueOn = falls(addInterval(answered, every));
  for (const date of made) {
    if (date === inUseSince) continue;
    dueOn = missUntil(date, dueOn);
    if (dueOn === null || date > dueOn || !isRepeat(date)) {
      if (dueOn !== null) dates.push({ dueOn, madeOn: date, state: date > dueOn ? 'late' : 'on-time' });
      answered = date;
    }
    dueOn = falls(addInterval(date, every));
  }
  const last = missUntil(today, dueOn);
  if (last !== null && last < today) dates.push({ dueOn: last, madeOn: null, state: 'missed' });
  return dates;

  /** Notes as missed what the next date, falling due by `date`, overtook; gives the last one. */
  function missUntil(date: CivilDate, first: CivilDate | null): CivilDate | null {
    let current = first;
    while (current !== null) {
      const next = falls(addInterval(current, every));
      if (next === null || next > date) return current;
      dates.push({ dueOn: current, madeOn: null, state: 'missed' });
      current = next;
    }
    return null;
  }

  function isRepeat(date: CivilDate): boolean {
    return 2 * daysBetween(answered, date) < daysBetween(answered, addInterval(answered, every));
  }
}
