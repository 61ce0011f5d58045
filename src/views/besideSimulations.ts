/** A control beside the simulations that its analyzer made on the same day, and what the two say together. Pure. */
import {
  type Assessments,
  type BiologicalAssessment,
  type Quantity,
  type RunAssessment,
  readTogether,
  type Standing,
  standingOf,
  type TogetherId,
} from '../core/index.ts';
import type { Logbook, LoggedControl, LoggedRun } from '../journal/logbook.ts';
import type { ControlAssessments } from './controlAssessments.ts';
import { evaluationOf } from './failures.ts';
import { dayIn } from './investigationShift.ts';

export interface BesideSimulation {
  run: LoggedRun;
  simulation: Standing;
  /** Of a person's test; null beside a simulator, which is given the same gas as the syringe's fault would show in. */
  together: TogetherId | null;
}

/** A control as it was made, written down or not yet; `at` in ms. */
export interface MadeOnDay {
  at: number;
  control: Pick<LoggedControl['control'], 'analyzerId'>;
  entry: Pick<LoggedControl['entry'], 'zone'>;
}

/** Asking a clock of some zone is slow: most runs are days away. */
const nearMs = 2 * 86_400_000;

/** The simulations with a syringe on the control's day, oldest first; what was voided or set aside says nothing. */
export function simulationsOfDay(
  { at, control, entry }: MadeOnDay,
  { runs }: Pick<Logbook, 'runs'>,
): readonly LoggedRun[] {
  return runs.filter(
    (run) =>
      run.voided === null &&
      run.setAside === null &&
      run.body.analyzerId === control.analyzerId &&
      run.body.method === 'syringe' &&
      Math.abs(run.simulation.at - at) < nearMs &&
      dayIn(run.simulation.at, entry.zone) === dayIn(at, entry.zone),
  );
}

/** Of the simulations of a day, oldest first, the last before a control, or else the first after it: nearest to what was tested. */
export const nearestSimulation = (runs: readonly LoggedRun[], at: number): LoggedRun | undefined =>
  runs.findLast(({ simulation }) => simulation.at <= at) ?? runs[0];

/** `quantity`: which of a person's two, and of the simulation's. */
export function besideSimulations(
  logged: LoggedControl,
  quantity: Quantity,
  sources: {
    logbook: Pick<Logbook, 'runs'>;
    assessments: Assessments;
    controls: Pick<ControlAssessments, 'biological'>;
  },
): readonly BesideSimulation[] {
  const tested = sources.controls.biological.get(logged.id);
  return simulationsOfDay(logged, sources.logbook).flatMap((run): BesideSimulation[] => {
    const assessment = sources.assessments.get(run.id);
    if (assessment === undefined) return [];
    const simulation = standingOfRun(assessment, quantity);
    if (tested === undefined) return [{ run, simulation, together: null }];
    return [{ run, simulation, together: readTogether(standingOfTest(tested, quantity), simulation) }];
  });
}

/** How a person's test came out in one quantity. */
export const standingOfTest = (test: BiologicalAssessment, quantity: Quantity): Standing =>
  standingOf(test[quantity], {
    isBreached: quantity === 'dlco' && test.withinPublished === false,
    offTarget: test.offMlMinMmHg ?? 0,
  });

/** How a run came out in one quantity. */
export function standingOfRun(assessment: RunAssessment, quantity: Quantity): Standing {
  const breach = assessment.verdict.findings.find(
    (finding) => finding.kind === 'published-limit' && finding.quantity === quantity,
  );
  return standingOf(evaluationOf(assessment, quantity), {
    isBreached: breach !== undefined,
    offTarget: breach?.kind === 'published-limit' ? breach.value : 0,
  });
}
