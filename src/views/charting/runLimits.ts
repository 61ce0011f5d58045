/** The own limits and the policy by which the next run of a series will be judged, which the last run itself may have moved. */
import { assessRuns, type PointEvaluation, policyAt } from '../../core/index.ts';
import { epochAt, seriesClosures } from '../../journal/fold.ts';
import type { Logbook } from '../../journal/logbook.ts';
import { policyStepsOf } from '../../journal/standing.ts';
import { evaluationOf } from '../failures.ts';
import type { LimitsInForce } from './limitsInForce.ts';
import type { ChartSeries, SeriesRun } from './runSeries.ts';
import { isCounted } from './seriesItem.ts';
import type { SeriesScale } from './seriesScale.ts';

/** Asks the core itself: a run that nobody made, dated now, is judged and its limits are read off. */
export function limitsInForce(
  logbook: Logbook,
  series: ChartSeries,
  runs: readonly SeriesRun[],
  scale: SeriesScale,
  now: number,
): LimitsInForce {
  const policySteps = policyStepsOf(logbook, series.analyzerId);
  const last = runs.at(-1);
  if (!last) return { n: 0, own: null, policy: policyAt(policySteps, now), published: null };
  const at = Math.max(now, last.at);
  const next = {
    ...last.run.simulation,
    id: 'the-next-run',
    at,
    epoch: epochAt(logbook.baselineStarts, series.analyzerId, new Date(at).toISOString()),
    excluded: false,
  };
  const assessed = assessRuns([...runs.map(({ run }) => run.simulation), next], {
    closures: seriesClosures(logbook),
    policyStepsFor: () => policySteps,
  }).get(next.id);
  if (!assessed) throw new Error('limitsInForce: the next run was not assessed');
  const { n, mean, sd }: PointEvaluation = evaluationOf(assessed, series.quantity);
  return {
    n,
    own: mean === null || sd === null ? null : { mean: scale.inUnit(mean), sd: scale.inUnit(sd) },
    policy: policyAt(policySteps, at),
    published: publishedOf(runs.filter(isCounted).at(-1) ?? last),
  };
}

/** The edition of the newest that counts: what is adopted for the next is told by the list of what was set. */
const publishedOf = ({ published, run }: SeriesRun): LimitsInForce['published'] =>
  published && { ...published, edition: run.body.limits.edition };
