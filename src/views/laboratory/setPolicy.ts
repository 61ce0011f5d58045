/** By which own limits and rules an analyzer's runs are judged: in words, as the form holds it, and as an entry. Pure. */
import {
  type ControlPolicy,
  defaultControlPolicy,
  type RuleId,
  type RuleSeverity,
  ruleIds,
  severityOf,
} from '../../core/index.ts';
import type { EntryBody, EntryDraft, EntryOf } from '../../journal/entries.ts';
import type { Logbook } from '../../journal/logbook.ts';
import { policyInForce } from '../judgedBy.ts';
import { changedFields } from '../parts/fieldsInWords.ts';
import { inField, plain } from '../parts/figures.ts';
import { type Errors, type FormReading, finish } from '../parts/formReading.ts';
import type { NumberSpec } from '../parts/readNumber.ts';
import { policyInWords } from '../policyWords.ts';
import { ruleNumberSpecs } from '../ruleNumbers.ts';
import { readCount, readNeeded } from './readSetting.ts';

/** Every rule is named in the journal: a later change of the usual policy must not reach a day that is over. */
type WholePolicy = EntryBody<'policy-set'>['policy'];

export interface PolicyDraft {
  limits: ControlPolicy['limits'];
  baselineSize: string;
  minimumSize: string;
  smallSample: boolean;
  severity: Record<RuleId, RuleSeverity>;
  ewmaLambda: string;
  ewmaLimit: string;
  cusumSlack: string;
  cusumDecision: string;
}

/** `Own limits, 10x`: in what a policy is another than the usual one; empty where in nothing. */
export const differsFromUsual = (policy: ControlPolicy): string[] =>
  changedFields(policyInWords(defaultControlPolicy), policyInWords(policy)).map(({ name }) => name);

/** The entry by which the policy in force was set; undefined while the usual one holds. */
export function policyEntryInForce(
  logbook: Pick<Logbook, 'policies'>,
  analyzerId: string,
  at: string,
): EntryOf<'policy-set'> | undefined {
  const policy = policyInForce(logbook, { analyzerId, madeAt: at });
  return logbook.policies.findLast(({ body }) => body.policy === policy);
}

export const policyDraft = (policy: ControlPolicy): PolicyDraft => ({
  limits: policy.limits,
  baselineSize: inField(policy.baselineSize),
  minimumSize: inField(policy.minimumSize),
  smallSample: policy.smallSample,
  severity: everySeverity((rule) => severityOf(rule, policy)),
  ewmaLambda: inField(policy.ewma.lambda),
  ewmaLimit: inField(policy.ewma.limit),
  cusumSlack: inField(policy.cusum.slack),
  cusumDecision: inField(policy.cusum.decision),
});

const everySeverity = (of: (rule: RuleId) => RuleSeverity): Record<RuleId, RuleSeverity> => ({
  '1-2s': of('1-2s'),
  '1-3s': of('1-3s'),
  '2-2s': of('2-2s'),
  'R-4s': of('R-4s'),
  '4-1s': of('4-1s'),
  '10x': of('10x'),
  '7T': of('7T'),
  EWMA: of('EWMA'),
  CUSUM: of('CUSUM'),
});

const runs = { unit: 'runs', lowest: 2, highest: 200 };
const specs: Record<Exclude<keyof PolicyDraft, 'limits' | 'smallSample' | 'severity'>, NumberSpec> = {
  baselineSize: { ...runs, name: 'number of runs', example: '20' },
  minimumSize: { ...runs, name: 'number of runs', example: '10' },
  ...ruleNumberSpecs,
};

export function readPolicy(draft: PolicyDraft): FormReading<PolicyDraft, WholePolicy> {
  const errors: Errors<PolicyDraft> = {};
  const take = (field: keyof typeof specs, read: typeof readCount): number => {
    const { value, message } = read(draft[field], specs[field], `Type the ${specs[field].name}.`);
    if (message !== undefined) errors[field] = message;
    return value;
  };
  const baselineSize = take('baselineSize', readCount);
  const minimumSize = take('minimumSize', readCount);
  if (errors.minimumSize === undefined && minimumSize > baselineSize) {
    errors.minimumSize = `Own limits would never judge: they are full at ${plain(baselineSize)} runs. Type ${plain(baselineSize)} or fewer.`;
  }
  return finish(errors, {
    limits: draft.limits,
    baselineSize,
    minimumSize,
    smallSample: draft.smallSample,
    severity: draft.severity,
    ewma: { lambda: take('ewmaLambda', readNeeded), limit: take('ewmaLimit', readNeeded) },
    cusum: { slack: take('cusumSlack', readNeeded), decision: take('cusumDecision', readNeeded) },
  });
}

/** What to know before it is set. */
export function policyWarnings(policy: ControlPolicy): string[] {
  const hasAction = ruleIds.some((rule) => severityOf(rule, policy) === 'action');
  const usualMinimum = defaultControlPolicy.minimumSize;
  return [
    ...(hasAction
      ? []
      : [
          'No rule is an action: this analyzer’s own runs can never fail a run, however far it drifts inside the published limits.',
        ]),
    ...(policy.minimumSize < usualMinimum && !policy.smallSample
      ? [
          `Limits from fewer than ${usualMinimum} runs alarm on good runs more often than 2 and 3 SD promise. Widening them for few runs keeps the promise.`,
        ]
      : []),
  ];
}

export function setPolicy(
  analyzerId: string,
  policy: WholePolicy,
  from: string,
  by: string,
  reason: string,
): EntryDraft[] {
  return [
    {
      id: crypto.randomUUID(),
      by,
      kind: 'policy-set',
      body: { policyId: crypto.randomUUID(), analyzerId, policy, from, reason },
    },
  ];
}
