import { type Assessments, assessRuns, type SimulationRun } from '../core/index.ts';
import { seriesClosures } from '../journal/fold.ts';
import type { Logbook } from '../journal/logbook.ts';
import { policyStepsOf } from '../journal/standing.ts';

/** A run whose numbers cannot be, such as a damaged or foreign entry may hold: it has no assessment. */
export interface ImpossibleRun {
  runId: string;
  problem: string;
}

/** Assesses runs in time order, each by its analyzer's policy of its own day; one entry with impossible numbers is set aside and takes nothing else down with it. */
export function assessEach(
  runs: readonly SimulationRun[],
  logbook: Pick<Logbook, 'closures' | 'policies'>,
): { assessments: Assessments; impossible: readonly ImpossibleRun[] } {
  const impossible: ImpossibleRun[] = [];
  const assessments = assessRuns(runs, {
    closures: seriesClosures(logbook),
    policyStepsFor: (analyzerId) => policyStepsOf(logbook, analyzerId),
    onImpossible: ({ id }, { message }) => impossible.push({ runId: id, problem: message }),
  });
  return { assessments, impossible };
}
