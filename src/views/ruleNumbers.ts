/** What EWMA and CUSUM can be set to, as it is typed. */
import type { NumberSpec } from './parts/readNumber.ts';

export type RuleNumber = 'ewmaLambda' | 'ewmaLimit' | 'cusumSlack' | 'cusumDecision';

export const ruleNumberSpecs: Readonly<Record<RuleNumber, NumberSpec>> = {
  ewmaLambda: { name: 'weight λ', unit: '', lowest: 0.01, highest: 1, example: '0.2' },
  ewmaLimit: { name: 'limit L', unit: 'SD', lowest: 0.5, highest: 10, example: '2.86' },
  cusumSlack: { name: 'slack k', unit: 'SD', lowest: 0, highest: 3, example: '0.5' },
  cusumDecision: { name: 'limit h', unit: 'SD', lowest: 0.5, highest: 30, example: '4.77' },
};
