/** How long each failure of a series lasted, on the time axis. */
import type { ChartFailure } from './controlChartModel.ts';

/** A failure of a series of runs or of controls. Instants in ms. */
export interface SeriesFailure {
  /** Of the run or control that opened it. */
  id: string;
  from: number;
  /** Null while nobody has closed it and no new baseline has put it aside. */
  ended: { by: 'closure'; at: number; reason: string } | { by: 'new-baseline'; at: number } | null;
}

/** A failure lasts until its closure, until a new baseline puts it aside, or until now: then it reaches the edge. */
export const failureSpans = (failures: readonly SeriesFailure[], edge: number): readonly ChartFailure[] =>
  failures.map(({ id, from, ended }) =>
    ended === null
      ? { id, from, to: edge, open: true, word: 'failure open' }
      : { id, from, to: ended.at, open: false, word: 'failure' },
  );
