/** The lines that limits draw: level where they stayed the same, a step where they changed. */
import { type PolicyStep, policyAt } from '../../core/index.ts';
import { type LimitWidths, limitWidths } from '../judgedBy.ts';
import type { LimitStep, RailStep } from './controlChartModel.ts';
import type { LimitsInForce } from './limitsInForce.ts';
import type { SeriesItem } from './seriesItem.ts';

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
 * The limits of one were in force from the one before it, of the same epoch, until itself. The limits that the next will
 * be judged by follow the last to the end of the axis. Each stands as wide as the policy of its day has it.
 */
export function limitSteps(
  counted: readonly SeriesItem[],
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
  let before: SeriesItem | null = null;
  for (const item of counted) {
    const { mean, sd, n } = item.evaluation;
    const sameEpoch = before?.epoch === item.epoch;
    if (mean !== null && sd !== null) {
      const widths = limitWidths(policyAt(policySteps, item.at), n);
      const from = before && sameEpoch ? before.at : item.at;
      const limits = onAxis(mean, sd);
      add(from, item.at, limitStep(limits.mean, limits.sd, widths));
    }
    before = item;
  }
  if (before && own) add(before.at, end, limitStepInForce(own, inForce));
  return steps;
}

export const limitStepInForce = (
  own: { mean: number; sd: number },
  { n, policy }: Pick<LimitsInForce, 'n' | 'policy'>,
) => limitStep(own.mean, own.sd, limitWidths(policy, n));

/** The published limits of each one's own edition, then those that the next will be held to; nowhere while none applied. */
export function publishedRails(
  items: readonly SeriesItem[],
  next: LimitsInForce['published'],
  axis: { from: number; to: number },
): RailStep[] {
  const steps: RailStep[] = [];
  let reached = axis.from;
  const add = (to: number, published: { low: number; high: number } | null) => {
    const last = steps.at(-1);
    if (published !== null) {
      const { low, high } = published;
      if (last && last.to === reached && last.low === low && last.high === high) last.to = to;
      else steps.push({ from: reached, to, low, high });
    }
    reached = to;
  };
  for (const { at, published } of items) add(at, published);
  add(axis.to, next);
  return steps;
}
