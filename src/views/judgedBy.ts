/** By what a run is judged: the laboratory's limits and its analyzer's policy of the run's own day, or the usual ones. */
import {
  type ControlPolicy,
  type PublishedLimits,
  policyAt,
  predictionFactor,
  publishedLimits2017,
} from '../core/index.ts';
import type { Logbook } from '../journal/logbook.ts';
import { adoptedLimitsAt, policyStepsOf } from '../journal/standing.ts';

/** `madeAt`: ISO 8601 instant of the run. */
export const limitsInForce = (logbook: Pick<Logbook, 'limitEditions'>, madeAt: string): PublishedLimits =>
  adoptedLimitsAt(logbook, madeAt) ?? publishedLimits2017;

/** The policy that a run of the analyzer made at `madeAt`, an ISO 8601 instant, is judged by for ever. */
export const policyInForce = (
  logbook: Pick<Logbook, 'policies'>,
  { analyzerId, madeAt }: { analyzerId: string; madeAt: string },
): ControlPolicy => policyAt(policyStepsOf(logbook, analyzerId), Date.parse(madeAt));

export interface LimitWidths {
  inner: number;
  outer: number;
}

export const plainWidths: LimitWidths = { inner: 2, outer: 3 };

/** How many SD from the mean the limits of a policy stand that rest on `n` runs: 2 and 3, or more where few runs widen them. */
export const limitWidths = ({ smallSample }: Pick<ControlPolicy, 'smallSample'>, n: number): LimitWidths =>
  smallSample && n >= 2 ? { inner: predictionFactor(n, 2), outer: predictionFactor(n, 3) } : plainWidths;
