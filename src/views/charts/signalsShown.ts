/** The signals of the runs that a chart shows, and the runs that each rests on. */
import type { LoggedRun } from '../../journal/logbook.ts';
import { dayAndTime } from '../parts/figures.ts';
import { ruleWords } from '../parts/words.ts';
import type { SeriesRun } from './chartSeries.ts';
import type { Span } from './chartWindow.ts';
import { firedRules } from './ruleNames.ts';

/** Every run that a signal of this one rests on, itself among them; none where nothing fired. */
export const idsBehind = ({ run, evaluation }: SeriesRun): readonly string[] =>
  run.voided === null ? [...new Set(evaluation.signals.flatMap(({ ids }) => ids))] : [];

/** A list can be looked through up to here; the rest is reached by showing less of the time. */
const mostChoices = 200;

export interface SignalChoices {
  /** How many runs of the part shown have a signal. */
  count: number;
  /** The newest of them, newest first. */
  choices: readonly { value: string; label: string }[];
}

export function signalChoices(runs: readonly SeriesRun[], { from, to }: Span): SignalChoices {
  const signalled = runs.filter(
    ({ at, run, evaluation }) =>
      at >= from && at <= to && run.voided === null && evaluation.signals.length > 0,
  );
  return {
    count: signalled.length,
    choices: signalled
      .slice(-mostChoices)
      .map((seriesRun) => ({
        value: seriesRun.run.id,
        label: `${dayAndTime(seriesRun.at)}: ${firedRules(seriesRun).join(', ')}`,
      }))
      .reverse(),
  };
}

export interface SignalStory {
  rule: string;
  /** `two runs in a row beyond 2 SD on the same side, action`. */
  words: string;
  /** Oldest first. */
  runs: readonly LoggedRun[];
}

export function signalStories({ evaluation }: SeriesRun, runs: readonly SeriesRun[]): SignalStory[] {
  const byId = new Map(runs.map(({ run }) => [run.id, run]));
  return evaluation.signals.map(({ rule, severity, ids }) => ({
    rule,
    words: `${ruleWords[rule]}, ${severity}`,
    runs: ids.flatMap((id) => byId.get(id) ?? []),
  }));
}
