/** Everything that the logbook has to tell of one series of runs. */
import type { Logbook } from '../../journal/logbook.ts';
import { policyStepsOf } from '../../journal/standing.ts';
import { type Failure, seriesKey } from '../failures.ts';
import type { SeriesFailure } from './failureSpans.ts';
import { limitsInForce } from './runLimits.ts';
import { type Assessments, type ChartSeries, runsOfSeries } from './runSeries.ts';

/** `failures`: all there are. `now`: in ms, as of when the next run would be judged. */
export function runStory(
  logbook: Logbook,
  assessments: Assessments,
  series: ChartSeries,
  { failures, now }: { failures: readonly Failure[]; now: number },
) {
  const { runs, scale, impossible } = runsOfSeries(logbook, assessments, series);
  const key = seriesKey(series.analyzerId, series);
  const ofThisAnalyzer = ({ body }: { body: { analyzerId: string } }) =>
    body.analyzerId === series.analyzerId;
  return {
    items: runs,
    noun: 'run',
    scale,
    impossible,
    inForce: limitsInForce(logbook, series, runs, scale, now),
    policySteps: policyStepsOf(logbook, series.analyzerId),
    policies: logbook.policies.filter(ofThisAnalyzer),
    events: logbook.events.filter(ofThisAnalyzer),
    baselineStarts: logbook.baselineStarts.filter(ofThisAnalyzer),
    failures: failures
      .filter((failure) => seriesKey(failure.analyzerId, failure.series) === key)
      .map(seriesFailure),
  };
}

const seriesFailure = ({ openedBy, ended }: Failure): SeriesFailure => ({
  id: openedBy.id,
  from: openedBy.simulation.at,
  ended: ended && endOf(ended),
});

const endOf = (ended: NonNullable<Failure['ended']>): SeriesFailure['ended'] =>
  ended.by === 'new-baseline'
    ? { by: 'new-baseline', at: Date.parse(ended.from) }
    : { by: 'closure', at: Date.parse(ended.closure.body.closedAt), reason: ended.closure.body.reason };
