/** From made-up entries to the chart model of one series, as the screen builds it. */
import type { DlcoUnit, Quantity } from '../../../src/core/index.ts';
import type { Entry } from '../../../src/journal/entries.ts';
import { policyStepsOf } from '../../../src/journal/standing.ts';
import type { AxisKind } from '../../../src/views/charts/axisView.ts';
import { buildControlChart } from '../../../src/views/charts/buildControlChart.ts';
import { type ChartSeries, runsOfSeries } from '../../../src/views/charts/chartSeries.ts';
import type { Span } from '../../../src/views/charts/chartWindow.ts';
import type { ComparedSeries } from '../../../src/views/charts/compareSeries.ts';
import type { ChartPoint } from '../../../src/views/charts/controlChartModel.ts';
import { describePoint } from '../../../src/views/charts/describePoint.ts';
import { limitsInForce } from '../../../src/views/charts/limitsInForce.ts';
import { seriesScale } from '../../../src/views/charts/seriesScale.ts';
import { listFailures, seriesKey } from '../../../src/views/failures.ts';
import { opened, vaSeries } from './madeUpLogbook.ts';

export interface ChartOptions {
  series?: ChartSeries;
  showPublished?: boolean;
  now?: number;
  axis?: AxisKind;
  window?: Span | null;
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
    compared: [] as ComparedSeries[],
    failures: listFailures(logbook, assessments).filter(
      (failure) => seriesKey(failure.analyzerId, failure.series) === seriesKey(series.analyzerId, series),
    ),
  };
}

export function chartOf(entries: readonly Entry[], options: ChartOptions = {}) {
  const { showPublished = false, axis = 'value', window = null } = options;
  return buildControlChart(seriesOf(entries, options), { showPublished, axis, window });
}

/** What is told of a run where somebody points at it. */
export const detailsOf = (
  point: ChartPoint | undefined,
  quantity: Quantity = 'va',
  unit: DlcoUnit = 'mL/min/mmHg',
) => point && describePoint(point.seriesRun, seriesScale(quantity, unit));
