/** Other rules than those in force, tried out on the page: as its fields hold them, and as a policy. Nothing is saved. Pure. */
import { type ControlPolicy, type RuleId, type RuleSeverity, ruleIds, severityOf } from '../../core/index.ts';
import { inField } from '../parts/figures.ts';
import type { Errors } from '../parts/formReading.ts';
import { readNumber } from '../parts/readNumber.ts';
import { type RuleNumber, ruleNumberSpecs } from '../ruleNumbers.ts';

export interface WhatIf extends Record<RuleNumber, string> {
  severity: Readonly<Partial<Record<RuleId, RuleSeverity>>>;
}

export const whatIfOf = (policy: ControlPolicy): WhatIf => ({
  severity: Object.fromEntries(ruleIds.map((rule) => [rule, severityOf(rule, policy)])),
  ewmaLambda: inField(policy.ewma.lambda),
  ewmaLimit: inField(policy.ewma.limit),
  cusumSlack: inField(policy.cusum.slack),
  cusumDecision: inField(policy.cusum.decision),
});

export interface WhatIfReading {
  errors: Errors<WhatIf>;
  /** Null where a field is wrong, or where all is as in force. */
  policy: ControlPolicy | null;
}

/** Own limits and few runs stay as in force: they say how the SD is made, not how soon a rule fires on it. */
export function readWhatIf(draft: WhatIf, inForce: ControlPolicy): WhatIfReading {
  const errors: Errors<WhatIf> = {};
  const take = (field: RuleNumber): number => {
    const spec = ruleNumberSpecs[field];
    const read = readNumber(draft[field], spec);
    if (read.state === 'number') return read.value;
    errors[field] = read.state === 'empty' ? `Type the ${spec.name}.` : read.message;
    return Number.NaN;
  };
  const policy: ControlPolicy = {
    ...inForce,
    severity: draft.severity,
    ewma: { lambda: take('ewmaLambda'), limit: take('ewmaLimit') },
    cusum: { slack: take('cusumSlack'), decision: take('cusumDecision') },
  };
  const isWrong = Object.keys(errors).length > 0;
  return { errors, policy: isWrong || hasSameRules(policy, inForce) ? null : policy };
}

const hasSameRules = (one: ControlPolicy, other: ControlPolicy) =>
  ruleIds.every((rule) => severityOf(rule, one) === severityOf(rule, other)) &&
  one.ewma.lambda === other.ewma.lambda &&
  one.ewma.limit === other.ewma.limit &&
  one.cusum.slack === other.cusum.slack &&
  one.cusum.decision === other.cusum.decision;
