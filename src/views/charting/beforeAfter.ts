/** What a series came to before and after something that happened to the analyzer. */
import { mean, meanDifference, sampleSd } from '../../core/index.ts';
import type { EntryOf } from '../../journal/entries.ts';
import { counted, day } from '../parts/figures.ts';
import { eventWords } from '../parts/words.ts';
import type { AxisView } from './axisView.ts';
import { isCounted, type SeriesItem } from './seriesItem.ts';

/** At most so many on either side: as many as a full baseline has, and no more of the past than that. */
const mostItems = 20;

/** Something to look before and after of. */
export interface Turning {
  id: string;
  at: number;
  label: string;
}

export interface Side {
  /** Oldest first. */
  items: readonly { at: number; level: number }[];
  mean: number | null;
  words: string;
}

export interface BeforeAfter {
  turning: Turning;
  before: Side;
  after: Side;
  /** The difference of the means with its interval, or why there is none. */
  difference: string;
  /** What else happened among these, which a difference may come from as well; empty where nothing did. */
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
 * Up to twenty on either side, in the axis's own measure. Only voided ones are left out: one that failed is part of what
 * happened. `noun`: `run`, or what else the series is of.
 */
export function beforeAfter(
  items: readonly SeriesItem[],
  turning: Turning,
  { others, view, noun }: { others: readonly Turning[]; view: AxisView; noun: string },
): BeforeAfter {
  const levels = items.flatMap((item) => {
    const level = isCounted(item) ? view.levelOf(item) : null;
    return level === null ? [] : [{ at: item.at, level }];
  });
  const before = sideOf(levels.filter(({ at }) => at < turning.at).slice(-mostItems), view, noun);
  const after = sideOf(levels.filter(({ at }) => at >= turning.at).slice(0, mostItems), view, noun);
  const from = before.items[0]?.at ?? turning.at;
  const to = after.items.at(-1)?.at ?? turning.at;
  const within = others.filter(({ id, at }) => id !== turning.id && at > from && at < to);
  return {
    turning,
    before,
    after,
    difference: differenceWords(before, after, view, noun),
    alsoWithin:
      within.length === 0
        ? ''
        : `Among these ${noun}s fall also ${within.map(({ label }) => label).join('; ')}: the difference may come from there.`,
  };
}

const withUnit = (text: string, unit: string) => (unit === '' ? text : `${text} ${unit}`);

function sideOf(items: Side['items'], view: AxisView, noun: string): Side {
  const levels = items.map(({ level }) => level);
  const average = mean(levels);
  const spread = sampleSd(levels);
  const [first, last] = [items[0], items.at(-1)];
  if (average === undefined || !first || !last) return { items, mean: null, words: `no ${noun}` };
  const sd = spread === undefined ? '' : `, SD ${withUnit(view.sd(spread), view.unit)}`;
  const [from, to] = [day(first.at), day(last.at)];
  const span = from === to ? from : `${from} to ${to}`;
  return {
    items,
    mean: average,
    words: `mean ${withUnit(view.average(average), view.unit)}${sd}, ${counted(items.length, noun)}, ${span}`,
  };
}

function differenceWords(before: Side, after: Side, view: AxisView, noun: string): string {
  const levels = ({ items }: Side) => items.map(({ level }) => level);
  const found = meanDifference(levels(after), levels(before));
  if (found === undefined)
    return `Two ${noun}s on either side are needed, and a spread, to compare the means.`;
  const { difference, lower, upper } = found;
  const judged =
    lower > 0 || upper < 0
      ? 'The interval leaves out 0: chance alone seldom does that.'
      : 'The interval takes in 0: it may be chance.';
  return `After less before: ${withUnit(view.difference(difference), view.unit)}, 95 % interval ${view.difference(lower)} to ${withUnit(view.difference(upper), view.unit)}. ${judged}`;
}
