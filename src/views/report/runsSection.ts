/** The simulations of an analyzer in a period: when they were made, how they came out, and what each series comes to. Pure. */
import {
  type Completeness,
  type CompletenessWeek,
  daysBetween,
  type OnTime,
  type Route,
} from '../../core/index.ts';
import type { Analyzer, LoggedRun } from '../../journal/logbook.ts';
import { quarterWords } from '../completenessOf.ts';
import { asSentence } from '../parts/asSentence.ts';
import { civilDay, counted, day, millilitres } from '../parts/figures.ts';
import { quantityWords, routeWords } from '../parts/words.ts';
import { budgetOfRun } from '../uncertaintyOfRun.ts';
import { rateWords, verdictsOf, type Weeks } from './analyzerSummary.ts';
import { howWords, type SeriesInPeriod } from './chartsSection.ts';
import { type Block, type Cell, type Section, section, words } from './reportModel.ts';
import { type Period, type ReportSources, runsIn, spanOf } from './reportSources.ts';
import { seriesColumns, seriesRows } from './seriesRows.ts';

export function runsSections(
  analyzer: Analyzer,
  found: readonly SeriesInPeriod[],
  period: Period,
  sources: ReportSources,
  weeks: Weeks,
): readonly Section[] {
  const runs = runsIn(sources.logbook, analyzer.id, period);
  return [
    ...section('weeks', 'Were the runs made?', weekBlocks(weeks(analyzer))),
    ...section(
      'runs',
      'What the runs came to',
      runs.length === 0
        ? [words('No run was made in this period.')]
        : [verdictTable(runs, sources), ...seriesBlocks(found, period), ...uncertainty(runs)],
    ),
  ];
}

function weekBlocks(found: Completeness | null): Block[] {
  if (found === null) return [words('Simulations are made at no interval here: none was due.')];
  const row = (name: string, { due, onTime, late, missed, explained, rate }: OnTime): readonly Cell[] => [
    name,
    ...[due, onTime, late, missed, explained].map(String),
    rateWords(rate),
  ];
  const gaps = gapLines(found.weeks);
  return [
    {
      kind: 'table',
      id: 'on-time',
      caption:
        'Simulations that fell due, by quarter; a late run answers its date late, a missed date was answered by none',
      columns: ['Quarter', 'Due', 'On time', 'Late', 'Missed', 'Explained', 'On-time rate'].map(
        (head, index) => ({
          head,
          isNumber: index > 0,
        }),
      ),
      rows: [
        ...found.quarters.map((one) => row(quarterWords(one.quarter), one)),
        row('The period', found.whole),
      ],
    },
    ...(gaps.length === 0
      ? [words('No week is without a run that was due.')]
      : [words('Weeks without a run that was due:', 'lead'), { kind: 'lines' as const, lines: gaps }]),
  ];
}

/** Weeks in a row with the same reason are one line. */
export function gapLines(weeks: readonly CompletenessWeek[]): readonly string[] {
  const stretches: { from: string; to: string; reason: string }[] = [];
  for (const { monday, sunday, state, explanations } of weeks) {
    if (state !== 'gap') continue;
    const reason = explanations.map((one) => asSentence(one.reason)).join(' ') || 'No reason given.';
    const before = stretches.at(-1);
    if (before && before.reason === reason && daysBetween(before.to, monday) === 1) before.to = sunday;
    else stretches.push({ from: monday, to: sunday, reason });
  }
  return stretches.map(({ from, to, reason }) => {
    const count = Math.round((daysBetween(from, to) + 1) / 7);
    return `${civilDay(from)} to ${civilDay(to)}, ${counted(count, 'week')}: ${reason}`;
  });
}

const routes: readonly Route[] = ['patient-test', 'built-in'];

function verdictTable(runs: readonly LoggedRun[], sources: ReportSources): Block {
  const row = (name: string, ofRoute: readonly LoggedRun[]): readonly Cell[] => {
    const { passed, warned, failed, notJudged, passRate } = verdictsOf(ofRoute, sources);
    const voided = ofRoute.filter((run) => run.voided !== null).length;
    const aside = ofRoute.filter((run) => run.voided === null && run.setAside !== null).length;
    return [
      name,
      String(ofRoute.length - voided),
      String(passed),
      String(warned),
      String(failed),
      String(notJudged),
      rateWords(passRate),
      String(aside),
      String(voided),
    ];
  };
  const used = routes.filter((route) => runs.some(({ body }) => body.route === route));
  return {
    kind: 'table',
    id: 'verdicts',
    caption:
      'Verdicts on record; the pass rate is of the runs that were judged, and a run that warned is not a pass',
    columns: [
      { head: 'Route' },
      { head: 'Runs', isNumber: true },
      { head: 'Pass', isNumber: true },
      { head: 'Warning', isNumber: true },
      { head: 'Fail', isNumber: true },
      { head: 'Not judged', isNumber: true },
      { head: 'Pass rate', isNumber: true },
      { head: 'Set aside', isNumber: true },
      { head: 'Voided besides', isNumber: true },
    ],
    rows: [
      ...used.map((route) =>
        row(
          routeWords[route],
          runs.filter(({ body }) => body.route === route),
        ),
      ),
      ...(used.length > 1 ? [row('Both', runs)] : []),
    ],
  };
}

function seriesBlocks(found: readonly SeriesInPeriod[], period: Period): Block[] {
  const rows = found.flatMap(({ series, story }) =>
    seriesRows(
      story,
      { name: `${quantityWords[series.quantity]}, ${howWords(series)}`, hasCv: series.quantity === 'va' },
      spanOf(period),
    ),
  );
  if (rows.length === 0) return [];
  return [
    {
      kind: 'table',
      id: 'series',
      caption:
        'Mean, SD and CV of the period’s own runs; runs from before a new baseline are never averaged with those after it. Own limits: those that judged the last run',
      columns: seriesColumns,
      rows,
    },
  ];
}

function uncertainty(runs: readonly LoggedRun[]): Block[] {
  const newest = runs.findLast(({ voided }) => voided === null);
  const budget = newest === undefined ? null : budgetOfRun(newest);
  if (newest === undefined || budget === null) return [];
  return [
    words(
      `A simulated VA such as that of ${day(newest.body.madeAt, newest.entry.zone)} is known to ±${millilitres(budget.expandedL * 1000)} mL (k = 2, about 95 %): syringe, temperature, pressure, dead space and display taken together.`,
    ),
  ];
}
