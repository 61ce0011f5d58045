/** The weeks of one analyzer, each with its mark and what is to be said of it. Pure. */
import type { Assessments, CivilDate, CompletenessWeek, VerdictWord } from '../../core/index.ts';
import type { Logbook, LoggedRun } from '../../journal/logbook.ts';
import { initialsIn } from '../amendments.ts';
import type { CompletenessAnswer } from '../completenessOf.ts';
import { dayIn } from '../investigationShift.ts';
import { counted, day, month } from '../parts/figures.ts';
import { dayByName } from '../scheduleWords.ts';
import { shownJudgement } from '../verdictOfTheDay.ts';

/** Told apart by shape alone; `blank`: there was nothing to be done in it. */
export type WeekShape = VerdictWord | 'unjudged' | 'gap' | 'explained' | 'paused' | 'not-due' | 'blank';

export interface WeekLine extends CompletenessWeek {
  shape: WeekShape;
  /** `Mon 2 Mar to Sun 8 Mar`. */
  name: string;
  /** What happened in it: `Late, passed: was due Mon 2 Mar`. */
  words: string;
  /** The runs that stand, oldest first. */
  runs: readonly LoggedRun[];
}

export interface MonthOfWeeks {
  /** `Mar 2026`, by the Monday of each week. */
  name: string;
  weeks: readonly WeekLine[];
}

export interface GivenReason {
  id: string;
  text: string;
  /** Who wrote it and when. */
  written: string;
}

/** Weeks on end without a run, or one run that was late, with the reasons given for it. */
export interface Lapse {
  kind: 'gap' | 'late';
  from: CivilDate;
  to: CivilDate;
  sentence: string;
  reasons: readonly GivenReason[];
}

export function buildWeeks(
  { weeks }: Pick<CompletenessAnswer, 'weeks'>,
  analyzerId: string,
  { logbook, assessments, today }: { logbook: Logbook; assessments: Assessments; today: CivilDate },
): readonly WeekLine[] {
  const runs = runsByWeek(weeks, analyzerId, logbook);
  return weeks.map((week) => {
    const ofWeek = runs.get(week.monday) ?? [];
    const shape = shapeOf(week, ofWeek, assessments);
    return {
      ...week,
      shape,
      name: `${dayByName(week.monday, today)} to ${dayByName(week.sunday, today)}`,
      words: wordsOf(week, shape, today),
      runs: ofWeek,
    };
  });
}

function runsByWeek(
  weeks: readonly CompletenessWeek[],
  analyzerId: string,
  { runs }: Pick<Logbook, 'runs'>,
): ReadonlyMap<CivilDate, LoggedRun[]> {
  const [first] = weeks;
  const last = weeks.at(-1);
  const found = new Map<CivilDate, LoggedRun[]>();
  if (first === undefined || last === undefined) return found;
  // No zone is a day away from UTC: the date itself is asked only of the runs that are about of the period.
  const from = Date.parse(first.monday) - dayMs;
  const until = Date.parse(last.sunday) + 2 * dayMs;
  for (const run of runs) {
    const { at } = run.simulation;
    const isOfIt = run.body.analyzerId === analyzerId && run.body.method === 'syringe' && run.voided === null;
    if (!isOfIt || at < from || at > until) continue;
    const date = dayIn(at, run.entry.zone);
    const week = weeks.find(({ monday, sunday }) => date >= monday && date <= sunday);
    if (week === undefined) continue;
    const there = found.get(week.monday);
    if (there) there.push(run);
    else found.set(week.monday, [run]);
  }
  return found;
}

const dayMs = 86_400_000;

/** Of several runs the worst: a week in which something failed is not a week that passed. */
function shapeOf(week: CompletenessWeek, runs: readonly LoggedRun[], assessments: Assessments): WeekShape {
  switch (week.state) {
    case 'made':
    case 'late': {
      const words = runs.flatMap((run) => shownJudgement(run, assessments)?.word ?? []);
      return (['fail', 'warn', 'pass'] as const).find((word) => words.includes(word)) ?? 'unjudged';
    }
    case 'gap':
      return week.explanations.length > 0 ? 'explained' : 'gap';
    case 'paused':
    case 'not-due':
      return week.state;
    case 'to-come':
    case 'not-in-use':
      return 'blank';
  }
}

export const shapeWords: Record<Exclude<WeekShape, 'blank'>, string> = {
  pass: 'Passed',
  warn: 'Warned',
  fail: 'Failed',
  unjudged: 'Run without a verdict',
  gap: 'No run, no reason given',
  explained: 'No run, with a reason',
  paused: 'Out of service',
  'not-due': 'None due',
};

function wordsOf({ state, dueOn }: CompletenessWeek, shape: WeekShape, today: CivilDate): string {
  const due = dueOn === null ? '' : `, was due ${dayByName(dueOn, today)}`;
  if (state === 'to-come') return 'Still to come';
  if (state === 'not-in-use') return 'Not in use';
  const word = shape === 'blank' ? '' : shapeWords[shape];
  return state === 'late' ? `Late${due}. ${word}` : `${word}${due}`;
}

export function byMonth(weeks: readonly WeekLine[]): readonly MonthOfWeeks[] {
  const months: { name: string; weeks: WeekLine[] }[] = [];
  for (const week of weeks) {
    const name = month(Date.parse(`${week.monday}T12:00:00Z`));
    const last = months.at(-1);
    if (last?.name === name) last.weeks.push(week);
    else months.push({ name, weeks: [week] });
  }
  return months;
}

/** What was missed or late, newest first. Weeks on end without a run that have the same reasons are one. */
export function lapsesOf(weeks: readonly WeekLine[], logbook: Logbook, today: CivilDate): readonly Lapse[] {
  const lapses: (Lapse & { weeks: number })[] = [];
  let before: WeekLine | null = null;
  for (const week of weeks) {
    const follows = before !== null && before.state === 'gap' && week.state === 'gap';
    const last = lapses.at(-1);
    if (last !== undefined && follows && reasonKey(before) === reasonKey(week)) {
      last.to = week.sunday;
      last.weeks += 1;
      last.sentence = gapSentence(last, today);
    } else if (week.state === 'gap' || week.state === 'late') {
      const span = { kind: week.state, from: week.monday, to: week.sunday, weeks: 1 };
      const sentence =
        week.state === 'gap' ? gapSentence(span, today) : `${week.name}: ${lateSentence(week, today)}`;
      lapses.push({ ...span, sentence, reasons: reasonsOf(week, logbook) });
    }
    before = week;
  }
  return lapses.reverse();
}

const reasonKey = (week: WeekLine | null) => week?.explanations.map(({ id }) => id).join(' ') ?? '';

const gapSentence = (
  { from, to, weeks }: { from: CivilDate; to: CivilDate; weeks: number },
  today: CivilDate,
) => `${dayByName(from, today)} to ${dayByName(to, today)}: ${counted(weeks, 'week')} without a run.`;

const lateSentence = ({ dueOn, madeOn }: WeekLine, today: CivilDate) =>
  dueOn === null || madeOn === null
    ? 'late.'
    : `was due ${dayByName(dueOn, today)}, made ${dayByName(madeOn, today)}.`;

export function reasonsOf(
  { explanations }: Pick<CompletenessWeek, 'explanations'>,
  { gaps, technologists }: Pick<Logbook, 'gaps' | 'technologists'>,
): readonly GivenReason[] {
  return explanations.map(({ id, reason }) => {
    const entry = gaps.find(({ body }) => body.gapId === id);
    const written = entry ? `${initialsIn(technologists, entry.by)}, ${day(entry.at, entry.zone)}` : '';
    return { id, text: reason, written };
  });
}
