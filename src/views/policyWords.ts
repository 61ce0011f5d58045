/** By which own limits and rules an analyzer's runs are judged, in words. Pure. */
import { type ControlPolicy, type RuleSeverity, ruleIds, severityOf } from '../core/index.ts';
import type { FieldInWords } from './parts/fieldsInWords.ts';
import { plain } from './parts/figures.ts';

export const limitsKindWords: Record<ControlPolicy['limits'], string> = {
  baseline: 'first runs, then frozen',
  rolling: 'newest runs, rolling',
};

export const severityWords: Record<RuleSeverity, string> = {
  action: 'action: fails the run',
  warning: 'warning',
  off: 'off',
};

export const policyInWords = (policy: ControlPolicy): FieldInWords[] => [
  { name: 'Own limits', value: limitsKindWords[policy.limits] },
  { name: 'Full at', value: `${policy.baselineSize} runs` },
  { name: 'Judge from', value: `${policy.minimumSize} runs on` },
  { name: 'Few runs', value: policy.smallSample ? 'widen 2 and 3 SD' : 'mean ± 2 and 3 SD as they are' },
  ...ruleIds.map((rule) => ({ name: rule, value: severityWords[severityOf(rule, policy)] })),
  { name: 'EWMA weight λ', value: plain(policy.ewma.lambda) },
  { name: 'EWMA limit L', value: `${plain(policy.ewma.limit)} SD of the average` },
  { name: 'CUSUM slack k', value: `${plain(policy.cusum.slack)} SD` },
  { name: 'CUSUM limit h', value: `${plain(policy.cusum.decision)} SD` },
];
