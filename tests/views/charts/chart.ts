/** From made-up entries to the chart model of one series, as the screen builds it. */
import type { DlcoUnit, Quantity } from '../../../src/core/index.ts';
import type { Entry } from '../../../src/journal/entries.ts';
import type { AxisKind } from '../../../src/views/charting/axisView.ts';
import { buildControlChart } from '../../../src/views/charting/buildControlChart.ts';
import type { Span } from '../../../src/views/charting/chartWindow.ts';
import type { ChartPoint } from '../../../src/views/charting/controlChartModel.ts';
import { describePoint } from '../../../src/views/charting/describePoint.ts';
import type { ComparedSeries } from '../../../src/views/charting/overlays.ts';
import { runScale } from '../../../src/views/charting/runScale.ts';
import type { ChartSeries } from '../../../src/views/charting/runSeries.ts';
import { runStory } from '../../../src/views/charting/runStory.ts';
import { listFailures } from '../../../src/views/failures.ts';
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
  const failures = listFailures(logbook, assessments);
  return {
    logbook,
    assessments,
    ...runStory(logbook, assessments, series, { failures, now }),
    compared: [] as ComparedSeries[],
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
) => point && describePoint(point.item, runScale(quantity, unit));
