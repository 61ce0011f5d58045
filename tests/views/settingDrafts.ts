/** Entries that set limits and policies, for the tests of what is judged by them. */
import { defaultControlPolicy, defaultSeverity, publishedLimits2017 } from '../../src/core/index.ts';
import type { EntryBody, EntryDraft } from '../../src/journal/entries.ts';
import { draft, ids } from './laboratory.ts';

type Policy = EntryBody<'policy-set'>['policy'];

let made = 0;
const newId = (kind: string) => `${kind}-number-${++made}`;

/** The usual policy, each rule by its name, but for what is changed. */
export const policyWith = ({
  severity,
  ...changes
}: Partial<Omit<Policy, 'severity'>> & { severity?: Partial<Policy['severity']> } = {}): Policy => ({
  ...defaultControlPolicy,
  ...changes,
  severity: { ...defaultSeverity, ...severity },
});

export const policySet = (from: string, policy: Policy, analyzerId: string = ids.analyzer): EntryDraft =>
  draft('policy-set', {
    policyId: newId('policy'),
    analyzerId,
    policy,
    from,
    reason: 'Decided at the quality meeting.',
  });

export const limitsAdopted = (
  from: string,
  limits: Partial<EntryBody<'limits-adopted'>['limits']>,
): EntryDraft =>
  draft('limits-adopted', {
    adoptionId: newId('adoption'),
    limits: { ...publishedLimits2017, edition: 'House 2026', source: 'Procedure of the house', ...limits },
    from,
    reason: 'A tighter limit was decided.',
  });
