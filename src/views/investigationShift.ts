/** Which way a run reads, and whether the other analyzers with the same syringe moved with it. Pure. */
import {
  type Assessments,
  civilDateOf,
  type Movement,
  type Quantity,
  type RunAssessment,
  type ShiftSplit,
  splitShifts,
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

/** The day of an instant by the clocks of a zone; by UTC where this browser does not know it. */
export function dayIn(at: number, zone: string): string {
  try {
    return civilDateOf(at, zone);
  } catch {
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

interface Records {
  runs: readonly LoggedRun[];
  assessments: Assessments;
  quantity: Quantity;
}

/** `others`: the newest run of each other analyzer with the same syringe on the day, or made to find out. */
export function splitAcross(about: LoggedRun, others: readonly LoggedRun[], records: Records): Across {
  const { assessments, quantity } = records;
  const judged = others.flatMap((run) => {
    const assessment = assessments.get(run.id);
    return assessment === undefined ? [] : [{ run, movement: movementOf(assessment, quantity) }];
  });
  return { split: splitEach([about, ...others], records)[0], others: judged };
}

/**
 * The split of each of some runs, one of each analyzer, made with the same syringe on one day; undefined for a run without own
 * limits, and where too few have them to tell.
 */
export function splitEach(
  ofDay: readonly LoggedRun[],
  { runs, assessments, quantity }: Records,
): readonly (ShiftSplit | undefined)[] {
  const known = ofDay.flatMap((run) => {
    const assessment = assessments.get(run.id);
    const z = assessment === undefined ? null : evaluationOf(assessment, quantity).z;
    return z === null ? [] : [{ run, z }];
  });
  const rows = known.map(({ run, z }) => {
    const before = zBefore(run, runs, assessments, quantity);
    return [...new Array<null>(earlierRuns - before.length).fill(null), ...before, z];
  });
  const [one, other] = known;
  const splits =
    known.length === 2 && one !== undefined && other !== undefined
      ? [splitOfTwo(one.z, other.z), splitOfTwo(other.z, one.z)]
      : splitShifts(rows);
  const ofRun = new Map(known.map(({ run }, index) => [run, splits[index]]));
  return ofDay.map((run) => ofRun.get(run));
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
