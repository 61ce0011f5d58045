/** Whether a series is moving, by the weighted average of its runs: in words and as a number to sort by. */
import { type ControlPolicy, ewmaLimit, type PointEvaluation } from '../../core/index.ts';
import { zOnChart } from '../parts/figures.ts';

export interface Drift {
  words: string;
  /** With its sign and unit; empty while there is no average. */
  size: string;
  /** In SD; null while there is no average. */
  sd: number | null;
  /** It lies beyond the limit of the policy in force. */
  hasMoved: boolean;
}

/** Share of the limit from which a series is said to lean: common practice, no source. */
const leansFrom = 0.5;

/** `ewma` is in SD of the series. */
export function driftOf({ ewma }: Pick<PointEvaluation, 'ewma'>, policy: Pick<ControlPolicy, 'ewma'>): Drift {
  if (ewma === null) return { words: 'Not known yet', size: '', sd: null, hasMoved: false };
  const reach = Math.abs(ewma) / ewmaLimit(policy.ewma);
  const side = ewma > 0 ? 'high' : 'low';
  const words = reach > 1 ? `Moved ${side}` : reach > leansFrom ? `Leans ${side}` : 'Steady';
  return { words, size: `${zOnChart(ewma)} SD`, sd: ewma, hasMoved: reach > 1 };
}
