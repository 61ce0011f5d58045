import { addDays, type CivilDate, daysBetween } from './civilDate.ts';
import { mondayOf, quarterOf } from './civilWeek.ts';
import { type DueDate, type DueDatesInput, dueDates } from './dueDates.ts';
import type { CheckInterval } from './schedule.ts';

/** Why a check was not made, between two dates, both in. */
export interface GapExplanation {
  id: string;
  from: CivilDate;
  to: CivilDate;
  reason: string;
}

/** The interval that held up to a day, which is the first of the next; null where the check was not made by an interval then. */
export interface FormerInterval {
  until: CivilDate;
  every: CheckInterval | null;
}

export interface CompletenessInput extends DueDatesInput {
  /** What held before `every`, oldest first. */
  formerly: readonly FormerInterval[];
  /** The period, both ends in. */
  from: CivilDate;
  to: CivilDate;
  explanations: readonly GapExplanation[];
}

/**
 * `made`: with a run, none of them late. `late`: with a run that was made after its date. `gap`: without a run although a date passed
 * unanswered in it. `paused`: without a run and out of service on at least a day of it, nothing being due on the others. `not-due`: without a run, and none due.
 * `to-come`: without a run, and not over. `not-in-use`: before the analyzer came into use, or after it was taken out for good.
 */
export type WeekState = 'made' | 'late' | 'gap' | 'paused' | 'not-due' | 'to-come' | 'not-in-use';

export interface CompletenessWeek {
  monday: CivilDate;
  sunday: CivilDate;
  state: WeekState;
  /** The first day of the week on which a run was made; null without one. */
  madeOn: CivilDate | null;
  /** Of a late week or a gap: the first date that passed unanswered. */
  dueOn: CivilDate | null;
  /** Of a late week or a gap: those that lie on any of its days. */
  explanations: readonly GapExplanation[];
}

export interface OnTime {
  due: number;
  onTime: number;
  late: number;
  missed: number;
  /** Of late and missed: those with an explanation for any day from the due date to the run. They count as late or missed all the same. */
  explained: number;
  /** On time of due; null where none was due. */
  rate: number | null;
}

export interface Completeness {
  /** Every week that has a day in the period, Monday to Sunday, oldest first. */
  weeks: readonly CompletenessWeek[];
  /** Every quarter that has a day in the period and a date that counts, oldest first, by its name such as `2026-Q2`. */
  quarters: readonly (OnTime & { quarter: string })[];
  whole: OnTime;
}

/**
 * How completely a weekly check, or one of another interval, was made on one analyzer in a period. What is counted are the dates on which
 * it fell due, as `dueDates` says, each in the quarter of its date, or of its run where that came earlier; only dates in the
 * period, and none that is today and unanswered. A date is that of the interval which held on its day: another schedule does not reach back. Runs that are voided are not to be among `madeOn`; one that failed is, since it was made. The on-time rate
 * is dates answered on or before their day, of all that fell due.
 * Source: counting by due date is this project's own; weeks as in ISO 8601.
 * @throws {RangeError} if a date or the interval is impossible, or the period ends before it begins.
 * @example weekly, made on Mondays 2, 9 and Tuesday 17 March 2026, period of that month up to the 22nd: weeks made, made, late; 1 of 2 on time
 */
export function completeness(input: CompletenessInput): Completeness {
  const { from, to, explanations } = input;
  if (daysBetween(from, to) < 0) throw new RangeError(`completeness: to is ${to}, before from, ${from}`);
  const dates = datesOf(input);
  const counted = dates.filter((date) => countsOn(date) >= from && countsOn(date) <= to);
  const quarters = [...new Set(counted.map((date) => quarterOf(countsOn(date))))].sort();
  return {
    weeks: weeksOf(input, dates),
    quarters: quarters.map((quarter) => {
      const ofQuarter = counted.filter((date) => quarterOf(countsOn(date)) === quarter);
      return { quarter, ...onTimeOf(ofQuarter, explanations) };
    }),
    whole: onTimeOf(counted, explanations),
  };
}

function datesOf(input: CompletenessInput): readonly DueDate[] {
  const steps = [...input.formerly, { until: null, every: input.every }];
  const answered = new Set<CivilDate>();
  return steps.flatMap(({ until, every }, index) => {
    if (every === null) return [];
    const from = steps[index - 1]?.until ?? null;
    const own = dueDates({ ...input, every }).filter((date) => {
      const on = countsOn(date);
      const isOfStep = (from === null || on >= from) && (until === null || on < until);
      // A run that was late for the interval before is no run ahead of this one.
      return isOfStep && !(date.madeOn !== null && answered.has(date.madeOn));
    });
    for (const { madeOn } of own) if (madeOn !== null) answered.add(madeOn);
    return own;
  });
}

const countsOn = ({ dueOn, madeOn }: DueDate): CivilDate =>
  madeOn !== null && madeOn < dueOn ? madeOn : dueOn;

function onTimeOf(dates: readonly DueDate[], explanations: readonly GapExplanation[]): OnTime {
  const count = (state: DueDate['state']) => dates.filter((date) => date.state === state).length;
  const onTime = count('on-time');
  return {
    due: dates.length,
    onTime,
    late: count('late'),
    missed: count('missed'),
    explained: dates.filter(
      ({ state, dueOn, madeOn }) =>
        state !== 'on-time' &&
        explanations.some((one) => overlaps(one, { from: dueOn, to: madeOn ?? dueOn })),
    ).length,
    rate: dates.length === 0 ? null : onTime / dates.length,
  };
}

function weeksOf(input: CompletenessInput, dates: readonly DueDate[]): CompletenessWeek[] {
  const weeks: CompletenessWeek[] = [];
  for (let monday = mondayOf(input.from); monday <= input.to; monday = addDays(monday, 7)) {
    weeks.push(weekOf({ from: monday, to: addDays(monday, 6) }, input, dates));
  }
  return weeks;
}

interface Span {
  from: CivilDate;
  to: CivilDate;
}

function weekOf(week: Span, input: CompletenessInput, dates: readonly DueDate[]): CompletenessWeek {
  const isIn = (date: CivilDate) => date >= week.from && date <= week.to;
  const madeOn = input.madeOn.filter((date) => isIn(date) && date <= input.today).sort()[0] ?? null;
  const late = dates.find((date) => date.state === 'late' && date.madeOn !== null && isIn(date.madeOn));
  // A date that the run of a later week answered passed unanswered in this one.
  const passed = dates.find((date) => isIn(date.dueOn) && (date.madeOn === null || date.madeOn > week.to));
  const state = stateOf(week, input, {
    isMade: madeOn !== null,
    isLate: late !== undefined,
    isPassed: passed !== undefined,
  });
  const dueOn = state === 'late' ? (late?.dueOn ?? null) : state === 'gap' ? (passed?.dueOn ?? null) : null;
  const explanations = dueOn === null ? [] : input.explanations.filter((one) => overlaps(one, week));
  return { monday: week.from, sunday: week.to, state, madeOn, dueOn, explanations };
}

function stateOf(
  week: Span,
  { since, madeOn, retiredOn, pauses, today }: CompletenessInput,
  { isMade, isLate, isPassed }: { isMade: boolean; isLate: boolean; isPassed: boolean },
): WeekState {
  if (isMade) return isLate ? 'late' : 'made';
  if (isPassed) return 'gap';
  const [inUseSince = since] = [since, ...madeOn].sort();
  if (week.to < inUseSince || (retiredOn !== null && week.from >= retiredOn)) return 'not-in-use';
  const isPaused = pauses.some(({ from, until }) => from <= week.to && (until === null || until > week.from));
  if (isPaused) return 'paused';
  return week.to >= today ? 'to-come' : 'not-due';
}

const overlaps = (one: Span, other: Span) => one.from <= other.to && one.to >= other.from;
