/** The names of what fired, in full for the table and in short for the chart. */
import type { RuleId } from '../../core/index.ts';
import { ruleWords } from '../parts/words.ts';
import type { FiredRule } from './controlChartModel.ts';
import type { SeriesItem } from './seriesItem.ts';

/** In the core's order of rules, after a breached published limit. */
export function firedRules({
  breached,
  evaluation,
}: Pick<SeriesItem, 'breached' | 'evaluation'>): FiredRule[] {
  const rules: FiredRule[] = evaluation.signals.map(({ rule }) => rule);
  return breached ? ['published limit', ...rules] : rules;
}

const mostNames = 2;

/** What stands beside a mark: what made it fail, or where nothing did, what made it a warning. Two names at most. */
export function rulesLabel(
  { breached, evaluation }: Pick<SeriesItem, 'breached' | 'evaluation'>,
  fired: readonly FiredRule[],
): string {
  const actions = evaluation.signals.filter(({ severity }) => severity === 'action').map(({ rule }) => rule);
  const heaviest: FiredRule[] = [...(breached ? ['published limit' as const] : []), ...actions];
  const names = fired.length === 0 || heaviest.length === 0 ? fired : heaviest;
  const shown = names.slice(0, mostNames).join(' ');
  return names.length > mostNames ? `${shown} +${names.length - mostNames}` : shown;
}

/** What a rule says, of a series of runs or of what else it is of: `two tests in a row beyond 2 SD on the same side`. */
export const ruleSentence = (rule: RuleId, noun: string) => ruleWords[rule].replace(/\brun/g, noun);

/** R-4s between the two levels of one session of a simulator. */
export const acrossLevelsSentence = (rule: RuleId) =>
  `${rule}: the two levels of the session lie beyond 2 SD on opposite sides.`;
