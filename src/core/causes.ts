import { type Evidence, evidenceOf, type Observations } from './causeEvidence.ts';
import {
  type CauseId,
  type CheckId,
  causeRules,
  causeText,
  checkOutcomes,
  type EvidenceId,
} from './causeTable.ts';

export interface RankedCause {
  id: CauseId;
  text: string;
  /** Sum of the weights for and against. */
  score: number;
  for: readonly WeighedEvidence[];
  against: readonly WeighedEvidence[];
}

/** A pattern that was seen, all of whose parts count together. */
export interface WeighedEvidence {
  evidence: readonly EvidenceId[];
  eventIds: readonly string[];
  weight: number;
}

export interface CauseRanking {
  evidence: readonly Evidence[];
  /** What the evidence supports more than it speaks against, strongest first; equal ones in the order of the table. */
  causes: readonly RankedCause[];
  /** The check that would tell the two strongest apart, or confirm the only one; null when none is known that was not done. */
  nextCheck: CheckId | null;
}

/**
 * Ranks the likely causes of a failure by what was observed: each cause's score is the plain sum of the weights of the
 * patterns seen, and the patterns are named beside it. It says what the evidence supports, never what is the case: nothing
 * seen, nothing ranked. `settled`: checks that were done, whatever they showed, or cannot be done here; none is proposed.
 * Source: the table in causeTable.ts.
 */
export function rankCauses(seen: Observations, settled: ReadonlySet<CheckId> = new Set()): CauseRanking {
  const evidence = evidenceOf(seen);
  const ids = new Set(evidence.map(({ id }) => id));
  const matching = causeRules.filter(({ when }) => when.every((id) => ids.has(id)));
  const causes = causesInOrder().flatMap((id): RankedCause[] => {
    const weighed = matching.flatMap(({ when, says }): WeighedEvidence[] => {
      const weight = says[id];
      return weight === undefined ? [] : [{ evidence: when, eventIds: eventIdsOf(evidence, when), weight }];
    });
    const score = weighed.reduce((sum, { weight }) => sum + weight, 0);
    if (score <= 0) return [];
    return [
      {
        id,
        text: causeText[id],
        score,
        for: weighed.filter(({ weight }) => weight > 0),
        against: weighed.filter(({ weight }) => weight < 0),
      },
    ];
  });
  causes.sort((first, second) => second.score - first.score);
  return { evidence, causes, nextCheck: nextCheck(causes, ids, settled) };
}

// Functions, not constants: a table that is read while the module loads stays in every bundle that needs none of it.
const causesInOrder = () => Object.keys(causeText) as readonly CauseId[];

function eventIdsOf(evidence: readonly Evidence[], when: readonly EvidenceId[]): readonly string[] {
  return evidence.filter(({ id }) => when.includes(id)).flatMap(({ eventIds }) => eventIds);
}

const checks = () =>
  Object.entries(checkOutcomes) as readonly [CheckId, Partial<Record<CauseId, EvidenceId>>][];

function nextCheck(
  causes: readonly RankedCause[],
  seen: ReadonlySet<EvidenceId>,
  settled: ReadonlySet<CheckId>,
): CheckId | null {
  const [first, ...others] = causes;
  if (first === undefined) return null;
  const open = checks().filter(
    ([id, outcomes]) => !settled.has(id) && !Object.values(outcomes).some((outcome) => seen.has(outcome)),
  );
  // The strongest rival that some check can tell from the first; without one, the check that is most of all about the first.
  for (const other of others) {
    const telling = open.find(([id, outcomes]) => tellsApart(id, outcomes[first.id], outcomes[other.id]));
    if (telling !== undefined) return telling[0];
  }
  const confirming = open.filter(([, outcomes]) => outcomes[first.id] !== undefined);
  confirming.sort(([, one], [, two]) => Object.keys(one).length - Object.keys(two).length);
  return confirming[0]?.[0] ?? null;
}

/** Where a check says nothing of a cause it tells nothing, unless doing it is the repair: then the next run tells. */
function tellsApart(
  check: CheckId,
  ifFirst: EvidenceId | undefined,
  ifOther: EvidenceId | undefined,
): boolean {
  const isRepair = check === 'read-conditions' || check === 'other-gas';
  return ifFirst !== ifOther && (isRepair || (ifFirst !== undefined && ifOther !== undefined));
}
