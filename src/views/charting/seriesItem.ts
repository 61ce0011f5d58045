/** A run or a control as one of its series sees it: all that a chart needs to know of it, whichever it is. */
import type { PointEvaluation, VerdictWord } from '../../core/index.ts';
import type { Former } from '../amendments.ts';

export interface SeriesItem {
  id: string;
  /** When it was made, in ms. */
  at: number;
  /** Counts the baseline starts of its analyzer. */
  epoch: number;
  /** In the unit of the series' scale. */
  value: number;
  /** The values that amendments replaced, as the scale writes them. */
  former: readonly Former[];
  evaluation: PointEvaluation;
  /** The published limits of its own edition, in the unit of the scale; null where none applies, or none yet. */
  published: { low: number; high: number } | null;
  breached: boolean;
  /** Of this series alone, as it comes out today. */
  word: VerdictWord;
  voided: { reason: string } | null;
  setAside: { reason: string } | null;
  /** What was written beside it. */
  comment: string;
}

/** It takes part in the hairline and in the limits. */
export const isCounted = ({ voided }: Pick<SeriesItem, 'voided'>) => voided === null;

/** It passed or warned, or a supervisor has set it aside, and so the statistics leave it out. */
export const isApart = ({ voided, setAside, evaluation, word }: SeriesItem) =>
  voided === null &&
  (setAside !== null || (word !== 'fail' && evaluation.failureOpen && !evaluation.accepted));
