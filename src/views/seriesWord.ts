/** The verdict of one quantity of a run alone, as it comes out today. */
import type { Quantity, RunAssessment, VerdictWord } from '../core/index.ts';
import { evaluationOf } from './failures.ts';

export function wordOf(
  breached: boolean,
  signals: readonly { severity: 'action' | 'warning' }[],
): VerdictWord {
  if (breached || signals.some(({ severity }) => severity === 'action')) return 'fail';
  return signals.length > 0 ? 'warn' : 'pass';
}

export function wordOfQuantity(assessment: RunAssessment, quantity: Quantity): VerdictWord {
  const { vaWithinPublished, dlcoWithinPublished } = assessment.numbers;
  const isWithin = quantity === 'va' ? vaWithinPublished : dlcoWithinPublished;
  return wordOf(!isWithin, evaluationOf(assessment, quantity).signals);
}
