/** The left page: every series with the state of its last run, grouped by analyzer, and which one to open first. */

import type { Logbook } from '../../journal/logbook.ts';
import { type Assessments, type ChartSeries, listSeries, runsOfSeries } from '../charting/runSeries.ts';
import { type Failure, openFailures, seriesKey } from '../failures.ts';
import { counted, zOnChart } from '../parts/figures.ts';
import type { MarkShape } from '../parts/verdictMark.tsx';
import { quantityWords, routeWords, verdictWords } from '../parts/words.ts';
import { seriesPath } from '../routes.ts';

export interface SeriesLine {
  series: ChartSeries;
  path: string;
  name: string;
  /** The verdict of the last run, or the dotted box while it passed without own limits. */
  mark: MarkShape | null;
  markWord: string;
  z: string;
  since: string;
  failureOpen: boolean;
}

export interface AnalyzerLines {
  analyzerId: string;
  label: string;
  retired: boolean;
  lines: readonly SeriesLine[];
}

export function buildSeriesList(
  logbook: Logbook,
  assessments: Assessments,
  failures: readonly Failure[],
  now: number,
): AnalyzerLines[] {
  const open = new Set(openFailures(failures).map(({ analyzerId, series }) => seriesKey(analyzerId, series)));
  const groups = new Map<string, AnalyzerLines & { lines: SeriesLine[] }>();
  for (const series of listSeries(logbook, assessments)) {
    const analyzer = logbook.analyzers.get(series.analyzerId);
    const group = groups.get(series.analyzerId) ?? {
      analyzerId: series.analyzerId,
      label: analyzer?.description.label ?? 'Unknown analyzer',
      retired: analyzer?.retired !== null,
      lines: [],
    };
    group.lines.push(
      seriesLine(series, logbook, assessments, open.has(seriesKey(series.analyzerId, series)), now),
    );
    groups.set(series.analyzerId, group);
  }
  const all = [...groups.values()];
  return [...all.filter(({ retired }) => !retired), ...all.filter(({ retired }) => retired)];
}

function seriesLine(
  series: ChartSeries,
  logbook: Logbook,
  assessments: Assessments,
  failureOpen: boolean,
  now: number,
): SeriesLine {
  const last = runsOfSeries(logbook, assessments, series)
    .runs.filter(({ run }) => run.voided === null)
    .at(-1);
  const how = series.method === 'syringe' ? '' : ', precision gas';
  const common = {
    series,
    path: seriesPath(series),
    name: `${quantityWords[series.quantity]}, ${routeWords[series.route].toLowerCase()}${how}`,
    failureOpen,
  };
  if (!last) return { ...common, mark: null, markWord: 'All runs voided', z: '', since: '' };
  const { z } = last.evaluation;
  const establishing = z === null && last.word === 'pass';
  return {
    ...common,
    mark: establishing ? 'establishing' : last.word,
    markWord: establishing ? 'No own baseline yet' : verdictWords[last.word],
    z: z === null ? '' : `z ${zOnChart(z)}`,
    since: daysSince(last.at, now),
  };
}

const dayMs = 86_400_000;

function daysSince(at: number, now: number): string {
  const days = Math.floor((now - at) / dayMs);
  return days < 1 ? 'last run within a day' : `last run ${counted(days, 'day')} ago`;
}

/**
 * The series shown when the address names none: the first with a failure, then the first with a warning, then the
 * first of the analyzer in hand, then the first.
 */
export function firstToLookAt(groups: readonly AnalyzerLines[], inHand = ''): SeriesLine | undefined {
  const lines = groups.filter(({ retired }) => !retired).flatMap((group) => group.lines);
  return (
    lines.find(({ failureOpen, mark }) => failureOpen || mark === 'fail') ??
    lines.find(({ mark }) => mark === 'warn') ??
    lines.find(({ series }) => series.analyzerId === inHand) ??
    lines[0] ??
    groups[0]?.lines[0]
  );
}
