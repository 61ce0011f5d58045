import { useMemo } from 'react';
import { policyStepsOf } from '../../journal/standing.ts';
import { type Failure, seriesKey } from '../failures.ts';
import { useLogbook } from '../logbookContext.tsx';
import { type ChartSeries, runsOfSeries } from './chartSeries.ts';
import { limitsInForce } from './limitsInForce.ts';

/** Everything that the logbook has to tell of one series. */
export function useSeriesStory(series: ChartSeries, failures: readonly Failure[]) {
  const { logbook, assessments } = useLogbook();
  return useMemo(() => {
    const { runs, scale, impossible } = runsOfSeries(logbook, assessments, series);
    const key = seriesKey(series.analyzerId, series);
    return {
      runs,
      scale,
      impossible,
      inForce: limitsInForce(logbook, series, runs, scale, Date.now()),
      policySteps: policyStepsOf(logbook, series.analyzerId),
      policies: logbook.policies.filter(({ body }) => body.analyzerId === series.analyzerId),
      events: logbook.events.filter(({ body }) => body.analyzerId === series.analyzerId),
      baselineStarts: logbook.baselineStarts.filter(({ body }) => body.analyzerId === series.analyzerId),
      failures: failures.filter((failure) => seriesKey(failure.analyzerId, failure.series) === key),
    };
  }, [logbook, assessments, series, failures]);
}
