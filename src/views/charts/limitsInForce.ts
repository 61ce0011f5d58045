/** The own limits by which the next run of a series will be judged, which the last run itself may have moved. */
import { assessRuns, type PointEvaluation } from '../../core/index.ts';
import { epochAt, seriesClosures } from '../../journal/fold.ts';
import type { Logbook } from '../../journal/logbook.ts';
import { evaluationOf } from '../failures.ts';
import type { ChartSeries, SeriesRun } from './chartSeries.ts';
import type { SeriesScale } from './seriesScale.ts';

export interface LimitsInForce {
  /** Accepted runs that the limits rest on. */
  n: number;
  /** In the unit of the series; null where the runs are too few, or have no spread. */
  own: { mean: number; sd: number } | null;
}

/** Asks the core itself: a run that nobody made, dated now, is judged and its limits are read off. */
export function limitsInForce(
  logbook: Logbook,
  series: ChartSeries,
  runs: readonly SeriesRun[],
  scale: SeriesScale,
  now: number,
): LimitsInForce {
  const last = runs.at(-1);
  if (!last) return { n: 0, own: null };
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
  }).get(next.id);
  if (!assessed) throw new Error('limitsInForce: the next run was not assessed');
  const { n, mean, sd }: PointEvaluation = evaluationOf(assessed, series.quantity);
  return { n, own: mean === null || sd === null ? null : { mean: scale.inUnit(mean), sd: scale.inUnit(sd) } };
}
