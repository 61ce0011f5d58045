/** One analyzer's simulations in a line: how many were due and made, and how they came out. Pure. */
import { type Completeness, countVerdicts, type VerdictCounts } from '../../core/index.ts';
import type { Analyzer, LoggedRun } from '../../journal/logbook.ts';
import { completenessOf } from '../completenessOf.ts';
import { percent } from '../parts/figures.ts';
import { shownJudgement } from '../verdictOfTheDay.ts';
import { failuresOf } from './failuresSection.ts';
import type { Cell, Column } from './reportModel.ts';
import { type Period, type ReportSources, runsIn } from './reportSources.ts';
import { none } from './seriesRows.ts';

export const summaryColumns: readonly Column[] = [
  { head: 'Analyzer' },
  { head: 'Due', isNumber: true },
  { head: 'On time', isNumber: true },
  { head: 'On-time rate', isNumber: true },
  { head: 'Runs', isNumber: true },
  { head: 'Pass', isNumber: true },
  { head: 'Warning', isNumber: true },
  { head: 'Fail', isNumber: true },
  { head: 'Pass rate', isNumber: true },
  { head: 'Failures', isNumber: true },
  { head: 'Still open', isNumber: true },
];

export function analyzerSummary(
  analyzer: Analyzer,
  period: Period,
  sources: ReportSources,
  weeks: Weeks,
): readonly Cell[] {
  const whole = weeks(analyzer)?.whole;
  const runs = runsIn(sources.logbook, analyzer.id, period);
  const { passed, warned, failed, passRate } = verdictsOf(runs, sources);
  const failures = failuresOf(analyzer.id, period, sources.failures);
  return [
    analyzer.description.label,
    whole === undefined ? none : String(whole.due),
    whole === undefined ? none : String(whole.onTime),
    rateWords(whole?.rate ?? null),
    String(runs.filter(({ voided }) => voided === null).length),
    String(passed),
    String(warned),
    String(failed),
    rateWords(passRate),
    String(failures.length),
    String(failures.filter(({ ended }) => ended === null).length),
  ];
}

export const rateWords = (rate: number | null): string => (rate === null ? none : `${percent(rate, 0)} %`);

/** Of one analyzer; null where simulations are made at no interval. */
export type Weeks = (analyzer: Analyzer) => Completeness | null;

/** Asked again it answers at once: to tell the day of every run of many years takes a while. */
export function weeksOf({ from, to }: Period, { logbook, now, zone }: ReportSources): Weeks {
  const known = new Map<string, Completeness | null>();
  return (analyzer) => {
    const before = known.get(analyzer.id);
    if (before !== undefined) return before;
    const found = completenessOf(logbook, {
      analyzer,
      check: 'simulation',
      period: { from, to },
      now,
      zone,
    });
    known.set(analyzer.id, found);
    return found;
  };
}

/** As each stands on record; voided ones are not counted. */
export function verdictsOf(
  runs: readonly LoggedRun[],
  { assessments }: Pick<ReportSources, 'assessments'>,
): VerdictCounts {
  return countVerdicts(
    runs.filter(({ voided }) => voided === null).map((run) => shownJudgement(run, assessments)?.word ?? null),
  );
}
