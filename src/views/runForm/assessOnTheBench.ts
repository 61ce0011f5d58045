/** Judges a run that is not yet written by the analyzer's earlier runs, exactly as it will be judged when it is. */
import type { Assessments, RunAssessment, SimulationRun } from '../../core/index.ts';
import { epochAt, simulationOf } from '../../journal/fold.ts';
import type { Logbook } from '../../journal/logbook.ts';
import { assessEach } from '../assessEach.ts';
import type { RunOnTheBench } from './readBenchDraft.ts';

const onTheBench = 'on-the-bench';

/** `except`: the run that is amended, which is not among those that judge it. */
export function assessOnTheBench(
  run: RunOnTheBench,
  { logbook, assessments }: { logbook: Logbook; assessments: Assessments },
  except?: string,
): RunAssessment {
  const epoch = epochAt(logbook.baselineStarts, run.analyzerId, run.madeAt);
  const simulation = simulationOf({ ...run, runId: onTheBench }, { epoch, excluded: false });
  // At every key pressed: going through twenty thousand runs again would take longer than drawing the page.
  return except === undefined && isNewestOfItsSeries(simulation, logbook)
    ? assessments.oneMore(simulation)
    : assessAnew(simulation, logbook, except);
}

/** Asked from the end, where a run that is made now finds its answer at once. */
function isNewestOfItsSeries(simulation: SimulationRun, { runs }: Logbook): boolean {
  for (let index = runs.length - 1; index >= 0; index -= 1) {
    const other = runs[index]?.simulation;
    if (other === undefined || other.at <= simulation.at) return true;
    const isOfItsSeries =
      other.analyzerId === simulation.analyzerId &&
      other.method === simulation.method &&
      other.route === simulation.route;
    if (isOfItsSeries) return false;
  }
  return true;
}

function assessAnew(simulation: SimulationRun, logbook: Logbook, except: string | undefined): RunAssessment {
  const earlier = logbook.runs
    .filter(
      ({ id, simulation: { analyzerId, at } }) =>
        analyzerId === simulation.analyzerId && at <= simulation.at && id !== except,
    )
    .map((logged) => logged.simulation);
  const assessment = assessEach([...earlier, simulation], logbook).assessments.get(onTheBench);
  if (!assessment) throw new Error('assessOnTheBench: the run was not assessed');
  return assessment;
}
