/** What the runs came to before and after something that happened to the analyzer. */
import { mean, meanDifference, sampleSd } from '../../core/index.ts';
import type { EntryOf } from '../../journal/entries.ts';
import { counted, day } from '../parts/figures.ts';
import { eventWords } from '../parts/words.ts';
import type { AxisView } from './axisView.ts';
import type { SeriesRun } from './chartSeries.ts';

/** At most so many runs on either side: as many as a full baseline has, and no more of the past than that. */
const mostRuns = 20;

/** Something to look before and after of. */
export interface Turning {
  id: string;
  at: number;
  label: string;
}

export interface Side {
  /** Oldest first. */
  runs: readonly { at: number; level: number }[];
  mean: number | null;
  words: string;
}

export interface BeforeAfter {
  turning: Turning;
  before: Side;
  after: Side;
  /** The difference of the means with its interval, or why there is none. */
  difference: string;
  /** What else happened among these runs, which a difference may come from as well; empty where nothing did. */
  alsoWithin: string;
}

/** Events and new baselines of the analyzer, newest first. */
export function turnings(
  events: readonly EntryOf<'event-recorded'>[],
  baselineStarts: readonly EntryOf<'baseline-started'>[],
): Turning[] {
  const all = [
    ...events.map(({ body }) => ({
      id: body.eventId,
      at: Date.parse(body.happenedAt),
      word: eventWords[body.type],
    })),
    ...baselineStarts.map(({ body }) => ({
      id: body.baselineId,
      at: Date.parse(body.from),
      word: 'New baseline',
    })),
  ];
  return all
    .sort((one, other) => other.at - one.at)
    .map(({ id, at, word }) => ({ id, at, label: `${day(at)}: ${word}` }));
}

/**
 * Up to twenty runs on either side, in the axis's own measure. Only voided ones are left out: a run that failed is part of
 * what happened.
 */
export function beforeAfter(
  runs: readonly SeriesRun[],
  turning: Turning,
  others: readonly Turning[],
  view: AxisView,
): BeforeAfter {
  const levels = runs.flatMap((seriesRun) => {
    const level = seriesRun.run.voided === null ? view.levelOf(seriesRun) : null;
    return level === null ? [] : [{ at: seriesRun.at, level }];
  });
  const before = sideOf(levels.filter(({ at }) => at < turning.at).slice(-mostRuns), view);
  const after = sideOf(levels.filter(({ at }) => at >= turning.at).slice(0, mostRuns), view);
  const from = before.runs[0]?.at ?? turning.at;
  const to = after.runs.at(-1)?.at ?? turning.at;
  const within = others.filter(({ id, at }) => id !== turning.id && at > from && at < to);
  return {
    turning,
    before,
    after,
    difference: differenceWords(before, after, view),
    alsoWithin:
      within.length === 0
        ? ''
        : `Among these runs fall also ${within.map(({ label }) => label).join('; ')}: the difference may come from there.`,
  };
}

const withUnit = (text: string, unit: string) => (unit === '' ? text : `${text} ${unit}`);

function sideOf(runs: Side['runs'], view: AxisView): Side {
  const levels = runs.map(({ level }) => level);
  const average = mean(levels);
  const spread = sampleSd(levels);
  const [first, last] = [runs[0], runs.at(-1)];
  if (average === undefined || !first || !last) return { runs, mean: null, words: 'no run' };
  const sd = spread === undefined ? '' : `, SD ${withUnit(view.sd(spread), view.unit)}`;
  const [from, to] = [day(first.at), day(last.at)];
  const span = from === to ? from : `${from} to ${to}`;
  return {
    runs,
    mean: average,
    words: `mean ${withUnit(view.average(average), view.unit)}${sd}, ${counted(runs.length, 'run')}, ${span}`,
  };
}

function differenceWords(before: Side, after: Side, view: AxisView): string {
  const levels = ({ runs }: Side) => runs.map(({ level }) => level);
  const found = meanDifference(levels(after), levels(before));
  if (found === undefined) return 'Two runs on either side are needed, and a spread, to compare the means.';
  const { difference, lower, upper } = found;
  const judged =
    lower > 0 || upper < 0
      ? 'The interval leaves out 0: chance alone seldom does that.'
      : 'The interval takes in 0: it may be chance.';
  return `After less before: ${withUnit(view.difference(difference), view.unit)}, 95 % interval ${view.difference(lower)} to ${withUnit(view.difference(upper), view.unit)}. ${judged}`;
}
