/** What a change of a description brings with it beyond describing, and on which analyzers. Pure. */
import type { AnalyzerDescription, Role, SyringeDescription } from '../../journal/entries.ts';
import type { Analyzer, Logbook } from '../../journal/logbook.ts';
import { policyInForce } from '../judgedBy.ts';

/** True when a change of the description moves every later result, so that old and new runs share no mean. */
export function movesTheMean(before: AnalyzerDescription, after: AnalyzerDescription): boolean {
  return (
    JSON.stringify(before.conversion) !== JSON.stringify(after.conversion) ||
    before.vaReportedAs !== after.vaReportedAs ||
    before.analyzerDeadSpaceL !== after.analyzerDeadSpaceL ||
    before.volumeInsideL !== after.volumeInsideL
  );
}

/**
 * What a change of an analyzer's description brings with it. A new baseline is a supervisor's to start, and would put
 * an open failure aside without a word: by way of the description as little as by its own button.
 */
export function consequenceOfChange(
  before: AnalyzerDescription,
  after: AnalyzerDescription,
  hasOpenFailure: boolean,
): { notice: string; only: 'supervisor'; refused: boolean } | null {
  if (!movesTheMean(before, after)) return null;
  return {
    notice: hasOpenFailure
      ? 'This moves every later result, and a new baseline would start with it. Not while a failure is open on this analyzer: close it under Review first.'
      : 'This moves every later result: a new baseline starts with it. Until it is built, only the published limits judge.',
    only: 'supervisor',
    refused: hasOpenFailure,
  };
}

/**
 * What a change of a syringe's volumes brings with it. On which analyzers a new baseline follows, a supervisor decides
 * for each in the same form. The volume of its certificate is not among them: no target rests on it.
 */
export function consequenceOfSyringeChange(
  before: SyringeDescription,
  after: SyringeDescription,
): { notice: string; only: 'supervisor'; refused: boolean } | null {
  const isMoved = before.volumeL !== after.volumeL || before.deadSpaceL !== after.deadSpaceL;
  if (!isMoved) return null;
  return {
    notice:
      'This moves every later result made with this syringe. Runs that are recorded keep the volumes they were recorded with.',
    only: 'supervisor',
    refused: false,
  };
}

/** For how long after its last run with a syringe an analyzer counts as one that uses it. */
const usedWithinMs = 90 * 86_400_000;

/** The analyzers in use that a syringe is the usual one of, or that ran with it in the last 90 days. */
export function usersOf(
  { analyzers, runs }: Pick<Logbook, 'analyzers' | 'runs'>,
  syringeId: string,
  now: number,
): Analyzer[] {
  const ranWithIt = new Set<string>();
  for (let index = runs.length - 1; index >= 0; index -= 1) {
    const run = runs[index];
    if (run === undefined || run.simulation.at < now - usedWithinMs) break;
    if (run.voided === null && run.body.syringeId === syringeId) ranWithIt.add(run.body.analyzerId);
  }
  return [...analyzers.values()].filter(
    ({ id, description, retired }) =>
      retired === null && (description.syringeId === syringeId || ranWithIt.has(id)),
  );
}

/** What follows from a new baseline, before one is started; `now` in ms. */
export function afterNewBaseline(
  logbook: Pick<Logbook, 'policies'>,
  analyzerId: string,
  now: number,
): string {
  const { minimumSize } = policyInForce(logbook, { analyzerId, madeAt: new Date(now).toISOString() });
  return (
    'From then on no earlier run takes part in a mean, a pattern or a limit of this analyzer. The next ' +
    `${minimumSize} accepted runs build the new one; until then only the published limits judge.`
  );
}

/** Who may close failures and sign is not for anybody to say of themself: once there is a supervisor, one of them makes another. */
export function consequenceOfRole(
  before: Role | null,
  after: Role,
  { technologists }: Pick<Logbook, 'technologists'>,
): { notice: string; only: 'supervisor'; refused: boolean } | null {
  const isMadeSupervisor = after === 'supervisor' && before !== 'supervisor';
  const hasSupervisor = [...technologists.values()].some(
    ({ role, retired }) => role === 'supervisor' && retired === null,
  );
  if (!isMadeSupervisor || !hasSupervisor) return null;
  return { notice: 'Only a supervisor makes another person one.', only: 'supervisor', refused: false };
}
