/** The entry that closes failures of one analyzer. Pure. */
import type { SignableDraft } from '../../journal/signature.ts';
import { type Closing, named } from '../closing.ts';
import type { Failure } from '../failures.ts';

export interface ClosedTogether {
  failure: Failure;
  closing: Closing;
}

/** What a text of the journal holds at most. */
const longest = 2000;
/** As many as an entry names: the newest prove most. */
const mostProofRuns = 20;

/** With the runs that prove it, and what was done, as it stands in the actions' own entries. */
export function closingEntry(
  closed: readonly ClosedTogether[],
  { cause, reason, closedAt, by }: { cause: string; reason: string; closedAt: string; by: string },
): SignableDraft {
  const actions = new Map(
    closed.flatMap(({ closing }) => closing.actions.map((action) => [action.id, action.body.what])),
  );
  const proof = new Map(
    closed.flatMap(({ closing }) => closing.proof.runs.map(({ id, simulation }) => [id, simulation.at])),
  );
  const proofRunIds = [...proof].sort(([, one], [, other]) => one - other).map(([id]) => id);
  return {
    id: crypto.randomUUID(),
    by,
    kind: 'failure-closed',
    body: {
      closureId: crypto.randomUUID(),
      analyzerId: closed[0]?.failure.analyzerId ?? '',
      failures: named(closed.map(({ failure }) => failure)),
      closedAt,
      reason,
      correctiveAction: [...actions.values()].join(' ').slice(0, longest),
      signature: null,
      proofRunIds: proofRunIds.slice(-mostProofRuns),
      cause,
    },
  };
}
