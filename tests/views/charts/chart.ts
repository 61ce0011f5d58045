/** From made-up entries to the chart model of one series, as the screen builds it. */
import type { Entry } from '../../../src/journal/entries.ts';
import { policyStepsOf } from '../../../src/journal/standing.ts';
import { buildControlChart } from '../../../src/views/charts/buildControlChart.ts';
import { type ChartSeries, runsOfSeries } from '../../../src/views/charts/chartSeries.ts';
import { limitsInForce } from '../../../src/views/charts/limitsInForce.ts';
import { listFailures, seriesKey } from '../../../src/views/failures.ts';
import { opened, vaSeries } from './madeUpLogbook.ts';

export interface ChartOptions {
  series?: ChartSeries;
  showPublished?: boolean;
  now?: number;
}

export function seriesOf(entries: readonly Entry[], { series = vaSeries, now = 0 }: ChartOptions = {}) {
  const { logbook, assessments } = opened(entries);
  const { runs, scale } = runsOfSeries(logbook, assessments, series);
  return {
    logbook,
    assessments,
    runs,
    scale,
    inForce: limitsInForce(logbook, series, runs, scale, now),
    policySteps: policyStepsOf(logbook, series.analyzerId),
    events: logbook.events,
    baselineStarts: logbook.baselineStarts,
    failures: listFailures(logbook, assessments).filter(
      (failure) => seriesKey(failure.analyzerId, failure.series) === seriesKey(series.analyzerId, series),
    ),
  };
}

export function chartOf(entries: readonly Entry[], options: ChartOptions = {}) {
  return buildControlChart({ ...seriesOf(entries, options), showPublished: options.showPublished ?? false });
}
