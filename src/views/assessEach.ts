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

type Assessed = ReturnType<typeof assessEach>;
type AssessedLogbook = Pick<Logbook, 'runs' | 'closures' | 'policies'>;

const runsOf = ({ runs }: AssessedLogbook) => runs.map(({ simulation }) => simulation);

/**
 * Assesses the logbook as it is, and as it then becomes. A logbook that only has one more run behind the others, as after
 * every "Record run", is the assessments before with that run taken up: years of runs need not be judged again.
 */
export function createAssessor(): (logbook: AssessedLogbook) => Assessed {
  let last: { logbook: AssessedLogbook; assessed: Assessed } | null = null;
  return (logbook) => {
    if (last?.logbook === logbook) return last.assessed;
    const assessed =
      (last && withTheNewest(last.logbook, logbook, last.assessed)) ?? assessEach(runsOf(logbook), logbook);
    last = { logbook, assessed };
    return assessed;
  };
}

/** Null where more than one run behind the others is new. */
function withTheNewest(
  before: AssessedLogbook,
  logbook: AssessedLogbook,
  assessed: Assessed,
): Assessed | null {
  const { runs, closures, policies } = logbook;
  if (closures !== before.closures || policies !== before.policies) return null;
  const newest = runs.at(-1);
  if (newest === undefined || runs.length !== before.runs.length + 1) return null;
  if (!before.runs.every((run, index) => run === runs[index])) return null;
  try {
    return { ...assessed, assessments: assessed.assessments.withOneMore(newest.simulation) };
  } catch (error) {
    // Numbers that cannot be are told of by whoever assesses all runs.
    if (!(error instanceof RangeError)) throw error;
    return null;
  }
}
