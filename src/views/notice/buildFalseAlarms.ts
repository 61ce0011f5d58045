/** How often the rules of a laboratory say something while nothing is wrong. Pure. */
import type { ControlPolicy } from '../../core/index.ts';
import type { Logbook } from '../../journal/logbook.ts';
import { policyInForce } from '../judgedBy.ts';
import { counted } from '../parts/figures.ts';
import { syringeRoutes } from '../syringeRoutes.ts';
import type { Asked } from './buildNotice.ts';
import { type KnownRunLengths, questionOf, type RunLengthQuestion, runsUntil } from './questions.ts';
import { rateInWords } from './waitWords.ts';

const weeksInYear = 365.2425 / 7;
const quantitiesOfRun = 2;

/** An analyzer's series, VA and DLCO of each route it is run by, and the policy that judges them. */
export interface JudgedAnalyzer {
  series: number;
  policy: ControlPolicy;
}

export const judgedAnalyzer = (
  logbook: Pick<Logbook, 'runs' | 'policies'>,
  analyzerId: string,
  madeAt: string,
): JudgedAnalyzer => ({
  series: syringeRoutes(logbook, analyzerId).size * quantitiesOfRun,
  policy: policyInForce(logbook, { analyzerId, madeAt }),
});

/** All that are in use and have been run. `madeAt`: the ISO 8601 instant that is looked at. */
export function fleetOf(
  logbook: Pick<Logbook, 'analyzers' | 'runs' | 'policies'>,
  madeAt: string,
): JudgedAnalyzer[] {
  return [...logbook.analyzers.values()]
    .filter(({ retired }) => retired === null)
    .map(({ id }) => judgedAnalyzer(logbook, id, madeAt))
    .filter(({ series }) => series > 0);
}

export function falseAlarmQuestions(
  fleet: readonly JudgedAnalyzer[],
  { inForce, whatIf, counting }: Omit<Asked, 'runsPerWeek'>,
): RunLengthQuestion[] {
  const policies = [inForce, ...(whatIf === null ? [] : [whatIf]), ...fleet.map(({ policy }) => policy)];
  return policies.flatMap((policy) => questionOf(policy, counting, 0) ?? []);
}

export interface FalseAlarmRow {
  of: string;
  inForce: string;
  /** Null where no other rules are tried. Of the fleet: as if every analyzer had them. */
  whatIf: string | null;
}

export function buildFalseAlarms(
  analyzer: JudgedAnalyzer,
  fleet: readonly JudgedAnalyzer[],
  { whatIf, counting, runsPerWeek }: Asked,
  known: KnownRunLengths,
): FalseAlarmRow[] {
  const row = (of: string, judged: readonly JudgedAnalyzer[]): FalseAlarmRow => {
    const rate = (analyzers: readonly JudgedAnalyzer[]) =>
      inWords(alarmsPerYear(analyzers, { counting, runsPerWeek }, known));
    return {
      of,
      inForce: rate(judged),
      whatIf: whatIf === null ? null : rate(judged.map(({ series }) => ({ series, policy: whatIf }))),
    };
  };
  const seriesOfFleet = fleet.reduce((sum, { series }) => sum + series, 0);
  return [
    row(`This analyzer, ${counted(analyzer.series, 'series', 'series')}`, [analyzer]),
    row(`Fleet: ${counted(fleet.length, 'analyzer')}, ${counted(seriesOfFleet, 'series', 'series')}`, fleet),
  ];
}

/** Of series that know nothing of each other; null while it is being worked out. */
export function alarmsPerYear(
  analyzers: readonly JudgedAnalyzer[],
  { counting, runsPerWeek }: Pick<Asked, 'counting' | 'runsPerWeek'>,
  known: KnownRunLengths,
): number | null {
  let sum = 0;
  for (const { series, policy } of analyzers) {
    const runs = runsUntil(questionOf(policy, counting, 0), known);
    if (runs === 'computing') return null;
    if (runs !== 'never') sum += (series * runsPerWeek * weeksInYear) / runs;
  }
  return sum;
}

const inWords = (perYear: number | null) =>
  perYear === null ? 'computing…' : perYear === 0 ? 'none' : rateInWords(perYear);
