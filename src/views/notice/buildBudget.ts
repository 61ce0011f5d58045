/** How well one simulated VA can be known, source by source, and whether the analyzer's own runs scatter as that lets expect. Pure. */
import {
  compareSpread,
  expectedSpread,
  type SpreadComparison,
  type UncertaintyBudget,
  type UncertaintyContribution,
  type UncertaintySource,
} from '../../core/index.ts';
import { counted, day, marked, percent, plain, tenthsOfMillilitre } from '../parts/figures.ts';
import { routeWords } from '../parts/words.ts';
import { budgetOfRun } from '../uncertaintyOfRun.ts';
import type { RouteSpreads } from './ownSpreads.ts';

export interface BudgetRow {
  source: string;
  /** Half-width with its unit. */
  knownTo: string;
  addsMl: string;
  sharePercent: string;
}

export interface BudgetTable {
  /** Of which run it is the budget. */
  of: string;
  rows: readonly BudgetRow[];
  standard: string;
  comparisons: readonly string[];
  /** From what to what an SD is as expected. */
  thresholds: string;
}

const sourceWords: Record<UncertaintySource, string> = {
  syringe: 'Stroke of the syringe',
  temperature: 'Temperature',
  pressure: 'Pressure',
  'dead-space': 'Dead space',
  display: 'Display of VA',
};

/** Null where there is no run, or where the newest lies at the edge of what can be and its sources cannot be varied. */
export function buildBudget(spreads: readonly RouteSpreads[]): BudgetTable | null {
  const newest = spreads
    .map((spread) => spread.newest)
    .sort((one, other) => one.simulation.at - other.simulation.at);
  const run = newest.at(-1);
  if (run === undefined) return null;
  const budget = budgetOfRun(run);
  if (budget === null) return null;
  const { leastL, mostL } = expectedSpread(budget);
  return {
    of: `Of a simulated VA such as that of ${day(run.body.madeAt)}.`,
    rows: budget.contributions.map(rowOf),
    standard: `Standard uncertainty ${ml(budget.standardL)} mL; expanded (k = 2, about 95 %) ${ml(budget.expandedL)} mL.`,
    comparisons: spreads.map((spread) => comparisonSentence(spread, budget)),
    thresholds: `Expected: an SD from ${ml(leastL)} mL (a quarter of the budget, or what the display alone makes) to ${ml(mostL)} mL (five times the budget), judged by its 95 % interval from 10 runs on. Both bounds are this logbook’s own choice, without a source.`,
  };
}

const rowOf = ({ source, halfWidth, standardL, share }: UncertaintyContribution): BudgetRow => ({
  source: sourceWords[source],
  knownTo: `± ${halfWidthWords(source, halfWidth)}`,
  addsMl: ml(standardL),
  sharePercent: percent(share, 0),
});

function halfWidthWords(source: UncertaintySource, halfWidth: number): string {
  if (source === 'temperature') return `${plain(halfWidth)} °C`;
  if (source === 'pressure') return `${marked(halfWidth.toFixed(0))} mmHg`;
  return `${plain(Number((halfWidth * 1000).toFixed(1)))} mL`;
}

function comparisonSentence({ route, va }: RouteSpreads, budget: UncertaintyBudget): string {
  const name = routeWords[route];
  // Own limits from that many runs and yet no SD: all are alike.
  const sdL = va.own?.sd ?? 0;
  const compared = compareSpread({ sdL, n: va.n }, budget);
  if (compared.judgement === 'too-few-runs')
    return `${name}: ${counted(va.n, 'accepted run')}, too few to compare.`;
  return `${name}: the SD of ${va.n} runs is ${ml(sdL)} mL, ${judgementWords[compared.judgement]}`;
}

const judgementWords: Record<Exclude<SpreadComparison['judgement'], 'too-few-runs'>, string> = {
  'smaller-than-possible': 'much smaller than the budget lets expect: are values copied or rounded?',
  'as-expected': 'as the budget lets expect.',
  'larger-than-expected': 'much larger than the budget lets expect: technique, or a fault?',
};

const ml = (litres: number) => tenthsOfMillilitre(litres * 1000);
