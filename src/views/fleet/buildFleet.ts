/** The fleet: a row for each series of each analyzer in use, in the order of Today. */
import { type Assessments, civilDateOf, daysBetween } from '../../core/index.ts';
import type { SeriesName } from '../../journal/entries.ts';
import type { Logbook } from '../../journal/logbook.ts';
import { type AnalyzerStanding, byAnalyzer, inOrderOfAttention } from '../attention.ts';
import { noticeHref } from '../deskRoutes.ts';
import { evaluationOf, type Failure, quantities } from '../failures.ts';
import { policyInForce } from '../judgedBy.ts';
import { type LineState, stateOf, stateWords } from '../lineStates.ts';
import { counted, day, zInTable } from '../parts/figures.ts';
import type { MarkShape } from '../parts/verdictMark.tsx';
import { quantityWords, routeWords, verdictWords } from '../parts/words.ts';
import { investigationHref, runHref, seriesPath } from '../routes.ts';
import { type DueCheck, dueChecks } from '../schedule.ts';
import { dayByName } from '../scheduleWords.ts';
import { wordOfQuantity } from '../seriesWord.ts';
import { buildSparkline, type Sparkline } from './buildSparkline.ts';
import { type Drift, driftOf } from './drift.ts';
import { type RouteRuns, recentRuns } from './seriesInHand.ts';

export interface FleetRow {
  key: string;
  analyzer: string;
  /** What the series is of; null for an analyzer that has no run yet. */
  series: FleetSeries | null;
  due: { words: string; isUrgent: boolean; on: string | null };
}

export interface FleetSeries {
  name: string;
  chartHref: string;
  noticeHref: string;
  sparkline: Sparkline;
  /** Of the last run, of this quantity alone, as it comes out today. */
  mark: MarkShape;
  markWord: string;
  z: number | null;
  zWords: string;
  drift: Drift;
  failure: { since: string; at: number; href: string } | null;
  last: { words: string; days: number; href: string };
}

export interface FleetPage {
  /** In the order of what needs attention. */
  rows: readonly FleetRow[];
  summary: string;
  /** Retired analyzers, which have no row. */
  retired: number;
}

interface CheckInState {
  due: DueCheck;
  state: LineState;
}

/** `zone`: IANA, as on the wall. */
export function buildFleet(
  logbook: Logbook,
  assessments: Assessments,
  openFailures: readonly Failure[],
  now: number,
  zone: string,
): FleetPage {
  const today = civilDateOf(now, zone);
  const checks = dueChecks(logbook, now, zone).map((due) => ({ due, state: stateOf(due) }));
  const instant = new Date(now).toISOString();
  const recent = recentRuns(logbook, assessments);
  const standings = inOrderOfAttention(logbook, openFailures, byAnalyzer(checks), instant);
  const rows = standings.flatMap((standing): FleetRow[] => {
    const { id, description } = standing.analyzer;
    const ofAnalyzer = { analyzer: description.label, due: dueOf(standing, today) };
    const routes = recent.get(id) ?? [];
    if (routes.length === 0) return [{ ...ofAnalyzer, key: id, series: null }];
    const { failures } = standing;
    return routes
      .flatMap((route) =>
        quantities.map((quantity) => {
          const name = { analyzerId: id, method: route.method, route: route.route, quantity };
          return seriesOf(name, route, { logbook, failures, today, zone });
        }),
      )
      .sort((one, other) => worst(one) - worst(other))
      .map((series) => ({ ...ofAnalyzer, key: series.chartHref, series }));
  });
  return {
    rows,
    summary: summaryOf(rows),
    retired: [...logbook.analyzers.values()].filter(({ retired }) => retired !== null).length,
  };
}

function seriesOf(
  name: SeriesName & { analyzerId: string },
  { recent }: RouteRuns,
  {
    logbook,
    failures,
    today,
    zone,
  }: { logbook: Logbook; failures: readonly Failure[]; today: string; zone: string },
): FleetSeries {
  const { analyzerId, method, route, quantity } = name;
  const last = recent.at(-1);
  if (last === undefined) throw new RangeError(`seriesOf: ${analyzerId} ${route} has no run`);
  const evaluation = evaluationOf(last.assessment, quantity);
  const word = wordOfQuantity(last.assessment, quantity);
  const isEstablishing = evaluation.z === null && word === 'pass';
  const how = method === 'syringe' ? '' : ', precision gas';
  return {
    name: `${quantityWords[quantity]}, ${routeWords[route].toLowerCase()}${how}`,
    chartHref: seriesPath(name),
    noticeHref: noticeHref(analyzerId),
    sparkline: buildSparkline(recent, quantity),
    mark: isEstablishing ? 'establishing' : word,
    markWord: isEstablishing ? 'No own limits' : verdictWords[word],
    z: evaluation.z,
    zWords: evaluation.z === null ? '–' : zInTable(evaluation.z),
    drift: driftOf(evaluation, policyInForce(logbook, last.run.body)),
    failure: failureOf(name, failures),
    last: lastOf(last.run.id, civilDateOf(last.run.simulation.at, zone), today),
  };
}

function failureOf(name: SeriesName, failures: readonly Failure[]): FleetSeries['failure'] {
  const open = failures.find(
    ({ series: { method, route, quantity } }) =>
      method === name.method && route === name.route && quantity === name.quantity,
  );
  if (open === undefined) return null;
  const { id, simulation, entry } = open.openedBy;
  return { since: day(simulation.at, entry.zone), at: simulation.at, href: investigationHref(id) };
}

function lastOf(runId: string, madeOn: string, today: string): FleetSeries['last'] {
  const days = daysBetween(madeOn, today);
  const words =
    days === 0
      ? 'today'
      : days === 1
        ? 'yesterday'
        : days < 0
          ? `dated ${counted(-days, 'day')} ahead`
          : `${days} days ago`;
  return { words, days, href: runHref(runId) };
}

function dueOf(
  { service, simulation }: Pick<AnalyzerStanding<CheckInState>, 'service' | 'simulation'>,
  today: string,
): FleetRow['due'] {
  if (service !== null) return { words: stateWords['out-of-service'], isUrgent: false, on: null };
  const on = simulation?.due.due.dueOn ?? null;
  if (simulation === undefined || on === null) return { words: 'Not scheduled', isUrgent: false, on: null };
  const date = dayByName(on, today);
  if (simulation.state === 'overdue') return { words: `Overdue since ${date}`, isUrgent: true, on };
  return simulation.state === 'today'
    ? { words: 'Today', isUrgent: true, on }
    : { words: date, isUrgent: false, on };
}

/** Lower is worse. */
function worst({ failure, mark }: Pick<FleetSeries, 'failure' | 'mark'>): number {
  if (failure !== null) return 0;
  return 1 + severities.indexOf(mark);
}

/** The worst first. */
export const severities: readonly MarkShape[] = ['fail', 'warn', 'establishing', 'pass'];

/** `Last runs of 22 series: 2 failed, 1 with a warning, 19 passed. Open failures: 2.` */
function summaryOf(rows: readonly FleetRow[]): string {
  const series = rows.flatMap((row) => (row.series === null ? [] : [row.series]));
  if (series.length === 0) return 'No run has been recorded yet.';
  const words: Record<MarkShape, string> = {
    fail: 'failed',
    warn: 'with a warning',
    establishing: 'without own limits',
    pass: 'passed',
  };
  const counts = severities
    .map((shape) => ({ shape, count: series.filter(({ mark }) => mark === shape).length }))
    .filter(({ count }) => count > 0)
    .map(({ shape, count }) => `${count} ${words[shape]}`);
  const open = series.filter(({ failure }) => failure !== null).length;
  return `Last runs of ${series.length} series: ${counts.join(', ')}. ${open === 0 ? 'No failure is open' : `Open failures: ${open}`}.`;
}
