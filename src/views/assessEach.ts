import { createAssessor, type RunAssessment, type SimulationRun } from '../core/index.ts';
import { seriesClosures } from '../journal/fold.ts';
import type { Logbook } from '../journal/logbook.ts';

/** A run whose numbers cannot be, such as a damaged or foreign entry may hold: it has no assessment. */
export interface ImpossibleRun {
  runId: string;
  problem: string;
}

/** Assesses runs in time order, each by itself, so that one entry with impossible numbers takes nothing else down with it. */
export function assessEach(
  runs: readonly SimulationRun[],
  logbook: Pick<Logbook, 'closures'>,
): { assessments: ReadonlyMap<string, RunAssessment>; impossible: readonly ImpossibleRun[] } {
  const assessor = createAssessor({ closures: seriesClosures(logbook) });
  const assessments = new Map<string, RunAssessment>();
  const impossible: ImpossibleRun[] = [];
  for (const run of runs) {
    try {
      assessments.set(run.id, assessor.next(run));
    } catch (error) {
      if (!(error instanceof RangeError)) throw error;
      impossible.push({ runId: run.id, problem: error.message });
    }
  }
  return { assessments, impossible };
}
