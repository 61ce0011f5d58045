/** What of a policy the figures on the page do not tell. Pure. */
import type { ControlPolicy } from '../../core/index.ts';
import { limitWidths } from '../judgedBy.ts';
import { marked } from '../parts/figures.ts';
import type { RouteSpreads } from './ownSpreads.ts';

export function policyNotes(policy: ControlPolicy, spreads: readonly RouteSpreads[]): string[] {
  return [
    ...(policy.smallSample ? [smallSampleNote(policy, spreads)] : []),
    ...(policy.limits === 'rolling'
      ? [
          'The own limits are rolling: a mean that follows the runs takes part of a shift in before it is noticed. The weeks below are for a mean that stays.',
        ]
      : []),
  ];
}

function smallSampleNote(policy: ControlPolicy, spreads: readonly RouteSpreads[]): string {
  const counts = spreads
    .flatMap(({ va, dlco }) => [va, dlco])
    .flatMap(({ n, own }) => (own === null ? [] : [n]));
  const fewest = counts.length === 0 ? policy.minimumSize : Math.min(...counts);
  const { inner, outer } = limitWidths(policy, fewest);
  return `This policy widens its limits for few runs: with ${fewest} of them 2 and 3 SD stand at ${marked(inner.toFixed(1))} and ${marked(outer.toFixed(1))} SD. The weeks below are for 2 and 3 SD as they are: a shift waits longer than they say.`;
}
