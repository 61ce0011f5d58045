import { useMemo } from 'react';
import type { ChartSeries } from '../charting/runSeries.ts';
import { runStory } from '../charting/runStory.ts';
import type { Failure } from '../failures.ts';
import { useLogbook } from '../logbookContext.tsx';

/** Everything that the logbook has to tell of one series. */
export function useSeriesStory(series: ChartSeries, failures: readonly Failure[]) {
  const { logbook, assessments } = useLogbook();
  return useMemo(
    () => runStory(logbook, assessments, series, { failures, now: Date.now() }),
    [logbook, assessments, series, failures],
  );
}
