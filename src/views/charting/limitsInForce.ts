import type { ControlPolicy } from '../../core/index.ts';

/** The limits and the policy by which the next of a series will be judged. */
export interface LimitsInForce {
  /** Accepted runs or tests that the limits rest on. */
  n: number;
  /** In the unit of the series; null where they are too few, or have no spread. */
  own: { mean: number; sd: number } | null;
  policy: ControlPolicy;
  /** In the unit of the series, with the edition that they are of; null where none applies, or none yet. */
  published: { low: number; high: number; edition: string } | null;
}
