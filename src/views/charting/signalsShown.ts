/** The signals that a chart shows, and what each rests on. */
import type { RuleId } from '../../core/index.ts';
import { dayAndTime } from '../parts/figures.ts';
import type { Span } from './chartWindow.ts';
import { firedRules, ruleSentence } from './ruleNames.ts';
import { isCounted, type SeriesItem } from './seriesItem.ts';

/** Ids of all that a signal of this one rests on, itself among them; none where nothing fired. */
export const idsBehind = (item: SeriesItem): readonly string[] =>
  isCounted(item) ? [...new Set(item.evaluation.signals.flatMap(({ ids }) => ids))] : [];

/** A list can be looked through up to here; the rest is reached by showing less of the time. */
const mostChoices = 200;

export interface SignalChoices {
  /** How many of the part shown have a signal. */
  count: number;
  /** The newest of them, newest first. */
  choices: readonly { value: string; label: string }[];
}

export function signalChoices(items: readonly SeriesItem[], { from, to }: Span): SignalChoices {
  const signalled = items.filter(
    (item) => item.at >= from && item.at <= to && isCounted(item) && item.evaluation.signals.length > 0,
  );
  return {
    count: signalled.length,
    choices: signalled
      .slice(-mostChoices)
      .map((item) => ({
        value: item.id,
        label: `${dayAndTime(item.at)}: ${firedRules(item).join(', ')}`,
      }))
      .reverse(),
  };
}

export interface SignalStory {
  rule: RuleId;
  /** `two runs in a row beyond 2 SD on the same side, action`. */
  words: string;
  /** Oldest first. */
  ids: readonly string[];
}

export const signalStories = ({ evaluation }: SeriesItem, noun: string): SignalStory[] =>
  evaluation.signals.map(({ rule, severity, ids }) => ({
    rule,
    words: `${ruleSentence(rule, noun)}, ${severity}`,
    ids,
  }));
