/** The names of what fired at a run, in full for the table and in short for the chart. */
import type { SeriesRun } from './chartSeries.ts';
import type { FiredRule } from './controlChartModel.ts';

/** In the core's order of rules, after a breached published limit. */
export function firedRules({
  breached,
  evaluation,
}: Pick<SeriesRun, 'breached' | 'evaluation'>): FiredRule[] {
  const rules: FiredRule[] = evaluation.signals.map(({ rule }) => rule);
  return breached ? ['published limit', ...rules] : rules;
}

const mostNames = 2;

/** What stands beside a mark: what made the run fail, or where nothing did, what made it a warning. Two names at most. */
export function rulesLabel(
  { breached, evaluation }: Pick<SeriesRun, 'breached' | 'evaluation'>,
  fired: readonly FiredRule[],
): string {
  const actions = evaluation.signals.filter(({ severity }) => severity === 'action').map(({ rule }) => rule);
  const heaviest: FiredRule[] = [...(breached ? ['published limit' as const] : []), ...actions];
  const names = fired.length === 0 || heaviest.length === 0 ? fired : heaviest;
  const shown = names.slice(0, mostNames).join(' ');
  return names.length > mostNames ? `${shown} +${names.length - mostNames}` : shown;
}
