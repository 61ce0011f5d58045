/** Every analyzer's weeks and how many of its runs came in time, as the pages show them. Pure. */
import { type Assessments, civilDateOf, type OnTime } from '../../core/index.ts';
import type { Analyzer, Logbook } from '../../journal/logbook.ts';
import {
  type AnalyzerCheck,
  analyzerChecks,
  type CompletenessAnswer,
  completenessOf,
} from '../completenessOf.ts';
import { counted, percent } from '../parts/figures.ts';
import { checkWords, intervalWords } from '../scheduleWords.ts';
import { buildWeeks, type WeekLine } from './buildWeeks.ts';
import type { PeriodChoice } from './periods.ts';

export interface AnalyzerLine {
  analyzer: Analyzer;
  label: string;
  isRetired: boolean;
  /** Of its simulations; null where the laboratory makes none by an interval. */
  answer: CompletenessAnswer | null;
  weeks: readonly WeekLine[];
  /** Weeks on which nobody has said a word yet. */
  unexplained: number;
  inShort: string;
}

export interface Sources {
  logbook: Logbook;
  assessments: Assessments;
  now: number;
  zone: string;
}

/** Every analyzer that was in use at some time of the period, in the order of the logbook, retired ones last. */
export function buildLines({ period }: PeriodChoice, sources: Sources): readonly AnalyzerLine[] {
  const { logbook, assessments, now, zone } = sources;
  const today = civilDateOf(now, zone);
  return [...logbook.analyzers.values()]
    .map((analyzer): AnalyzerLine => {
      const answer = completenessOf(logbook, { analyzer, check: 'simulation', period, now, zone });
      const weeks = answer ? buildWeeks(answer, analyzer.id, { logbook, assessments, today }) : [];
      return {
        analyzer,
        label: analyzer.description.label,
        isRetired: analyzer.retired !== null,
        answer,
        weeks,
        unexplained: weeks.filter(({ shape }) => shape === 'gap').length,
        inShort: answer === null ? 'not scheduled' : onTimeInShort(answer.whole),
      };
    })
    .filter(({ isRetired, weeks }) => !isRetired || weeks.some(({ shape }) => shape !== 'blank'))
    .sort((one, other) => Number(one.isRetired) - Number(other.isRetired));
}

/** `47 of 50 on time (94 %)`. */
function onTimeInShort({ due, onTime, rate }: OnTime): string {
  return rate === null ? 'none due' : `${onTime} of ${due} on time (${percent(rate, 0)} %)`;
}

/** `47 of 50 runs on time (94 %), 1 late, 2 missed; a reason is given for 1.` */
export function onTimeSentence({ due, onTime, late, missed, explained, rate }: OnTime): string {
  if (rate === null) return 'No run fell due in this period.';
  const lapsed = late + missed;
  const given =
    explained === 0
      ? 'no reason is given'
      : `a reason is given for ${explained === lapsed ? 'each' : explained}`;
  const reasons = lapsed === 0 ? '' : `; ${given}`;
  return `${onTime} of ${counted(due, 'run')} on time (${percent(rate, 0)} %), ${late} late, ${missed} missed${reasons}.`;
}

/** The quarters that any of the lines has, oldest first. */
export function quartersOf(lines: readonly AnalyzerLine[]): readonly string[] {
  return [
    ...new Set(lines.flatMap(({ answer }) => answer?.quarters.map(({ quarter }) => quarter) ?? [])),
  ].sort();
}

export interface OtherCheck {
  check: AnalyzerCheck;
  name: string;
  interval: string;
  whole: OnTime;
}

/** The other checks of one analyzer that this laboratory makes, or has made, by an interval. */
export function otherChecks(
  analyzer: Analyzer,
  { period }: PeriodChoice,
  sources: Sources,
): readonly OtherCheck[] {
  const { logbook, now, zone } = sources;
  return analyzerChecks.flatMap((check) => {
    if (check === 'simulation') return [];
    const answer = completenessOf(logbook, { analyzer, check, period, now, zone });
    if (answer === null || answer.isNeverNoted) return [];
    const { whole, every } = answer;
    return [{ check, name: checkWords[check], interval: intervalWords(every), whole }];
  });
}

/** What a strip of weeks shows, for who cannot see it. */
export function stripSentence({ label, weeks, answer }: AnalyzerLine): string {
  if (answer === null) return `${label}: simulations are not scheduled.`;
  const count = (isCounted: (week: WeekLine) => boolean) => weeks.filter(isCounted).length;
  const parts = [
    `${count(({ state }) => state === 'made' || state === 'late')} with a run`,
    `${count(({ state }) => state === 'late')} of them late`,
    `${count(({ state }) => state === 'gap')} without one though it was due`,
    `${count(({ state }) => state === 'paused')} out of service`,
  ];
  return `${label}, ${counted(weeks.length, 'week')}: ${parts.join(', ')}.`;
}
