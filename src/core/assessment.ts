import { AssessedRuns, type Assessments } from './assessedRuns.ts';
import { namingTheRun } from './impossible.ts';
import { runInput } from './judgedRows.ts';
import { type PolicyStep, policyHistory } from './policySteps.ts';
import { closuresBySeries } from './seriesKeys.ts';
import { enterRun, SeriesThread } from './seriesThread.ts';
import type { SeriesClosure, SimulationRun } from './simulationRun.ts';

export interface AssessmentOptions {
  /**
   * How an analyzer's policy changed, in any order; before the first step, and without any, the default policy is in force. A run is
   * judged by the policy of its own day for ever. Where that is another than the run before it was judged by, every
   * pattern, EWMA and CUSUM begin anew, as after a closed failure. An open failure stays open. The epoch's accepted runs
   * stay: the limits are those the new policy makes of them. A step that says again what is in force changes nothing.
   */
  policyStepsFor?: ((analyzerId: string) => readonly PolicyStep[]) | undefined;
  closures?: readonly SeriesClosure[] | undefined;
  /**
   * Called for a run whose numbers cannot be, such as a damaged or foreign record may hold: it then has no assessment
   * and takes part in nothing. Without it such a run is an error.
   */
  onImpossible?: ((run: SimulationRun, problem: RangeError) => void) | undefined;
}

/**
 * From a laboratory's runs, of all analyzers in time order, to the verdict of each by its id. Runs are parted into
 * series by analyzer, method and route; VA and DLCO are judged apart, and a run that breaches the limit of one is
 * breached in that series only.
 * Every run is checked and judged at once; the objects that say so in full are made when they are first asked for. A screen
 * shows a hundred runs of a hundred thousand, and objects of all cost ten times what judging them does. So `runs` must not
 * be changed afterwards.
 * @throws {RangeError} if runs are not in time order or a run's numbers, a closure or a policy are impossible; if an id comes twice, when the
 * result is first looked into.
 */
export function assessRuns(runs: readonly SimulationRun[], options: AssessmentOptions = {}): Assessments {
  const { policyStepsFor, closures = [], onImpossible } = options;
  const closuresOf = closuresBySeries(closures);
  const assessed = new AssessedRuns(runs, (key) => {
    return new SeriesThread({
      history: policyHistory('assessRuns', policyStepsFor?.(key.analyzerId) ?? []),
      vaClosures: closuresOf(key, 'va'),
      dlcoClosures: closuresOf(key, 'dlco'),
    });
  });
  const va = runInput();
  const dlco = runInput();
  let lastAt = -Number.MAX_VALUE;
  // One visit to each run: its objects lie far apart in memory, and a second would cost as much as all the arithmetic.
  for (let index = 0; index < runs.length; index += 1) {
    const run = runs[index];
    if (run === undefined) continue;
    requireOrder(run, lastAt);
    lastAt = run.at;
    try {
      enterRun(run, va, dlco);
    } catch (cause) {
      const problem = namingTheRun('assessRuns', run.id, cause);
      if (onImpossible === undefined) throw problem;
      onImpossible(run, problem);
      continue;
    }
    const { thread, place } = assessed.threadOf(run);
    assessed.keep(index, place, thread.judgeVa(va), thread.judgeDlco(dlco));
  }
  return assessed;
}

function requireOrder(run: SimulationRun, lastAt: number): void {
  if (!(run.at >= lastAt && run.at < Number.POSITIVE_INFINITY)) throw outOfOrder(run, lastAt);
}

function outOfOrder(run: SimulationRun, lastAt: number): RangeError {
  return new RangeError(`assessRuns: at of run ${run.id} is ${run.at} ms, not at or after ${lastAt} ms`);
}
