/** The lines that limits draw: level where they stayed the same, a step where they changed. */
import type { SeriesRun } from './chartSeries.ts';
import type { LimitStep, RailStep } from './controlChartModel.ts';
import type { LimitsInForce } from './limitsInForce.ts';
import type { SeriesScale } from './seriesScale.ts';

export function limitStep(mean: number, sd: number): Omit<LimitStep, 'from' | 'to'> {
  return { mean, sd, low3: mean - 3 * sd, low2: mean - 2 * sd, high2: mean + 2 * sd, high3: mean + 3 * sd };
}

/**
 * A run's limits were in force from the run before it, of the same epoch, until the run itself. The limits that the
 * next run will be judged by follow the last run to the end of the axis.
 */
export function limitSteps(
  counted: readonly SeriesRun[],
  scale: SeriesScale,
  inForce: LimitsInForce,
  end: number,
): LimitStep[] {
  const steps: LimitStep[] = [];
  const add = (from: number, to: number, mean: number, sd: number) => {
    const last = steps.at(-1);
    if (last && last.to === from && last.mean === mean && last.sd === sd) last.to = to;
    else steps.push({ from, to, ...limitStep(mean, sd) });
  };
  let before: SeriesRun | null = null;
  for (const seriesRun of counted) {
    const { mean, sd } = seriesRun.evaluation;
    const sameEpoch = before?.run.simulation.epoch === seriesRun.run.simulation.epoch;
    if (mean !== null && sd !== null) {
      add(before && sameEpoch ? before.at : seriesRun.at, seriesRun.at, scale.inUnit(mean), scale.inUnit(sd));
    }
    before = seriesRun;
  }
  if (before && inForce.own) add(before.at, end, inForce.own.mean, inForce.own.sd);
  return steps;
}

/** The published limits of each run's own edition, around the target for VA and around zero for DLCO. */
export function publishedRails(
  runs: readonly SeriesRun[],
  scale: Pick<SeriesScale, 'target' | 'tolerance'>,
  axis: { from: number; to: number },
): RailStep[] {
  const steps: RailStep[] = [];
  let reached = axis.from;
  for (const { run, at, assessment } of runs) {
    const target = scale.target(assessment.numbers);
    const tolerance = scale.tolerance(run.body.limits);
    const [low, high] = [target - tolerance, target + tolerance];
    const last = steps.at(-1);
    if (last && last.low === low && last.high === high) last.to = at;
    else steps.push({ from: reached, to: at, low, high });
    reached = at;
  }
  const last = steps.at(-1);
  if (last) last.to = axis.to;
  return steps;
}
