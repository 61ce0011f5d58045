/** The lines that limits draw: level where they stayed the same, a step where they changed. */
import { type PolicyStep, policyAt } from '../../core/index.ts';
import { type LimitWidths, limitWidths } from '../judgedBy.ts';
import type { SeriesRun } from './chartSeries.ts';
import type { LimitStep, RailStep } from './controlChartModel.ts';
import type { LimitsInForce } from './limitsInForce.ts';
import type { SeriesScale } from './seriesScale.ts';

export function limitStep(
  mean: number,
  sd: number,
  { inner, outer }: LimitWidths,
): Omit<LimitStep, 'from' | 'to'> {
  return {
    mean,
    sd,
    low3: mean - outer * sd,
    low2: mean - inner * sd,
    high2: mean + inner * sd,
    high3: mean + outer * sd,
  };
}

export interface LimitTerms {
  inForce: LimitsInForce;
  /** Of those in force, on the axis; null where there are none. */
  own: { mean: number; sd: number } | null;
  policySteps: readonly PolicyStep[];
}

/**
 * A run's limits were in force from the run before it, of the same epoch, until the run itself. The limits that the
 * next run will be judged by follow the last run to the end of the axis. Each stands as wide as the policy of its run has it.
 */
export function limitSteps(
  counted: readonly SeriesRun[],
  onAxis: (mean: number, sd: number) => { mean: number; sd: number },
  { inForce, own, policySteps }: LimitTerms,
  end: number,
): LimitStep[] {
  const steps: LimitStep[] = [];
  const add = (from: number, to: number, limits: Omit<LimitStep, 'from' | 'to'>) => {
    const last = steps.at(-1);
    const { mean, high2, high3 } = limits;
    if (last && last.to === from && last.mean === mean && last.high2 === high2 && last.high3 === high3)
      last.to = to;
    else steps.push({ from, to, ...limits });
  };
  let before: SeriesRun | null = null;
  for (const seriesRun of counted) {
    const { mean, sd, n } = seriesRun.evaluation;
    const sameEpoch = before?.run.simulation.epoch === seriesRun.run.simulation.epoch;
    if (mean !== null && sd !== null) {
      const widths = limitWidths(policyAt(policySteps, seriesRun.at), n);
      const from = before && sameEpoch ? before.at : seriesRun.at;
      const limits = onAxis(mean, sd);
      add(from, seriesRun.at, limitStep(limits.mean, limits.sd, widths));
    }
    before = seriesRun;
  }
  if (before && own) add(before.at, end, limitStepInForce(own, inForce));
  return steps;
}

export const limitStepInForce = (
  own: { mean: number; sd: number },
  { n, policy }: Pick<LimitsInForce, 'n' | 'policy'>,
) => limitStep(own.mean, own.sd, limitWidths(policy, n));

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
