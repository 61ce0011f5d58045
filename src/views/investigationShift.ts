/** Which way a run reads, and whether the other analyzers with the same syringe moved with it. Pure. */
import {
  type Assessments,
  civilDateOf,
  type Movement,
  type Quantity,
  type RunAssessment,
  type ShiftSplit,
  splitShift,
} from '../core/index.ts';
import type { LoggedRun } from '../journal/logbook.ts';
import { evaluationOf } from './failures.ts';

/** Beyond this many SD a quantity has moved, whether or not a rule is set to notice one run alone. */
const movedFromSd = 2;

/**
 * What the run itself shows: `good` where no published limit, no action rule and no 2 SD are passed. What EWMA, CUSUM and
 * a trend say is left out: these still remember the runs before, a failed one just repeated above all.
 */
export function movementOf(assessment: RunAssessment, quantity: Quantity): Movement {
  const { z } = evaluationOf(assessment, quantity);
  let side = z ?? 0;
  let isOff = Math.abs(side) > movedFromSd;
  for (const finding of assessment.verdict.findings) {
    if (!('quantity' in finding) || finding.quantity !== quantity) continue;
    if (finding.kind === 'published-limit') side = finding.value;
    if (finding.kind === 'published-limit' || finding.severity === 'action') isOff = true;
  }
  if (!isOff) return 'good';
  return side < 0 ? 'low' : 'high';
}

/** Of the run that is looked into: what any rule noticed counts, a slow movement too. */
export function movementNoticed(assessment: RunAssessment, quantity: Quantity): Movement {
  const own = movementOf(assessment, quantity);
  const { signals, ewma, z } = evaluationOf(assessment, quantity);
  if (own !== 'good' || signals.length === 0) return own;
  return (ewma ?? z ?? 0) < 0 ? 'low' : 'high';
}

/** What an investigation follows: VA where it moved, since a wrong volume moves DLCO with it. Null where neither did. */
export function quantityOff(assessment: RunAssessment): Quantity | null {
  if (movementNoticed(assessment, 'va') !== 'good') return 'va';
  return movementNoticed(assessment, 'dlco') === 'good' ? null : 'dlco';
}

const dayMs = 86_400_000;

/** Made on the same day by the calendar on the run's own wall. */
export function isSameDay(run: LoggedRun, at: number): boolean {
  // Asking a clock of some zone is slow: most runs are days away.
  if (Math.abs(at - run.simulation.at) > dayMs + 2 * 3_600_000) return false;
  return dayIn(at, run.entry.zone) === dayIn(run.simulation.at, run.entry.zone);
}

function dayIn(at: number, zone: string): string {
  try {
    return civilDateOf(at, zone);
  } catch {
    // A zone that only a newer browser knows.
    return civilDateOf(at, 'UTC');
  }
}

/** Runs of other analyzers by which a shift is split, and what came out. */
export interface Across {
  split: ShiftSplit | undefined;
  others: readonly { run: LoggedRun; movement: Movement }[];
}

/** How many earlier runs of each analyzer say where it usually stands. */
const earlierRuns = 5;

/** `others`: the newest run of each other analyzer with the same syringe on the day, or made to find out. */
export function splitAcross(
  about: LoggedRun,
  others: readonly LoggedRun[],
  {
    runs,
    assessments,
    quantity,
  }: { runs: readonly LoggedRun[]; assessments: Assessments; quantity: Quantity },
): Across {
  const zOf = ({ id }: LoggedRun) => {
    const assessment = assessments.get(id);
    return assessment === undefined ? null : evaluationOf(assessment, quantity).z;
  };
  const judged = others.flatMap((run) => {
    const assessment = assessments.get(run.id);
    return assessment === undefined ? [] : [{ run, movement: movementOf(assessment, quantity) }];
  });
  const row = (run: LoggedRun) => {
    const before = zBefore(run, runs, assessments, quantity);
    return [...new Array<null>(earlierRuns - before.length).fill(null), ...before, zOf(run)];
  };
  const own = zOf(about);
  const comparable = judged.filter(({ run }) => zOf(run) !== null);
  const [only] = comparable;
  const split =
    own === null || only === undefined
      ? undefined
      : comparable.length === 1
        ? splitOfTwo(own, zOf(only.run) ?? 0)
        : splitShift([row(about), ...comparable.map(({ run }) => row(run))], 0);
  return { split, others: judged };
}

/** The z of accepted runs of the same series before a run, oldest first. */
function zBefore(
  run: LoggedRun,
  runs: readonly LoggedRun[],
  assessments: Assessments,
  quantity: Quantity,
): number[] {
  const found: number[] = [];
  for (let index = runs.indexOf(run) - 1; index >= 0 && found.length < earlierRuns; index -= 1) {
    const earlier = runs[index];
    if (earlier === undefined || !isOfSameSeries(earlier, run) || earlier.voided !== null) continue;
    const assessment = assessments.get(earlier.id);
    const evaluation = assessment && evaluationOf(assessment, quantity);
    if (evaluation?.accepted && evaluation.z !== null) found.unshift(evaluation.z);
  }
  return found;
}

export const isOfSameSeries = ({ body: one }: LoggedRun, { body: other }: LoggedRun) =>
  one.analyzerId === other.analyzerId && one.method === other.method && one.route === other.route;

/**
 * Of two analyzers no median can say whose shift it is; but where the other stayed the syringe is not to blame, and where
 * both moved alike on one day it is. Undefined where they moved apart, or this one did not move. Derived.
 */
function splitOfTwo(own: number, other: number): ShiftSplit | undefined {
  if (Math.abs(own) <= movedFromSd) return undefined;
  if (Math.abs(other) <= movedFromSd) return { commonSd: 0, ownSd: own, kind: 'own' };
  if (Math.sign(own) !== Math.sign(other)) return undefined;
  const commonSd = (own + other) / 2;
  return { commonSd, ownSd: own - commonSd, kind: 'common' };
}
