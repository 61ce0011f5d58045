/** By which published limits a run is judged: the laboratory's edition of its day, or the one that this logbook comes with. */
import { type PublishedLimits, publishedLimits2017 } from '../core/index.ts';
import type { Logbook } from '../journal/logbook.ts';
import { adoptedLimitsAt } from '../journal/standing.ts';

/** `madeAt`: ISO 8601 instant of the run. */
export const limitsInForce = (logbook: Pick<Logbook, 'limitEditions'>, madeAt: string): PublishedLimits =>
  adoptedLimitsAt(logbook, madeAt) ?? publishedLimits2017;
