import { type Assessments, assessRuns, type SimulationRun } from '../core/index.ts';
import { seriesClosures } from '../journal/fold.ts';
import type { Logbook } from '../journal/logbook.ts';

/** A run whose numbers cannot be, such as a damaged or foreign entry may hold: it has no assessment. */
export interface ImpossibleRun {
  runId: string;
  problem: string;
}

/** Assesses runs in time order; one entry with impossible numbers is set aside and takes nothing else down with it. */
export function assessEach(
  runs: readonly SimulationRun[],
  logbook: Pick<Logbook, 'closures'>,
): { assessments: Assessments; impossible: readonly ImpossibleRun[] } {
  const impossible: ImpossibleRun[] = [];
  const assessments = assessRuns(runs, {
    closures: seriesClosures(logbook),
    onImpossible: ({ id }, { message }) => impossible.push({ runId: id, problem: message }),
  });
  return { assessments, impossible };
}
