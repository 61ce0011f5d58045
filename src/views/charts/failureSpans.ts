/** How long each failure of a series lasted, on the time axis. */
import type { EntryOf } from '../../journal/entries.ts';
import type { Failure } from '../failures.ts';
import type { ChartFailure } from './controlChartModel.ts';

export const failureSpans = (
  { failures, baselineStarts }: FailureSource,
  edge: number,
): readonly ChartFailure[] => failures.map((failure) => chartFailure(failure, baselineStarts, edge));

interface FailureSource {
  failures: readonly Failure[];
  /** Of this analyzer. */
  baselineStarts: readonly EntryOf<'baseline-started'>[];
}

/** A failure lasts until its closure, until a new baseline puts it aside, or until now: then it reaches the edge. */
function chartFailure(
  { openedBy, ended }: Failure,
  baselineStarts: readonly EntryOf<'baseline-started'>[],
  edge: number,
): ChartFailure {
  const from = openedBy.simulation.at;
  const common = { id: openedBy.id, from };
  if (ended === null) return { ...common, to: edge, open: true, word: 'failure open' };
  if (ended.by === 'closure') {
    return { ...common, to: Date.parse(ended.closure.body.closedAt), open: false, word: 'failure' };
  }
  const putAside = baselineStarts
    .map(({ body }) => Date.parse(body.from))
    .filter((at) => at > from)
    .reduce((earliest, at) => Math.min(earliest, at), edge);
  return { ...common, to: putAside, open: false, word: 'failure' };
}
