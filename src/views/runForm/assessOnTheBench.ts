/** Judges a run that is not yet written by the analyzer's earlier runs, exactly as it will be judged when it is. */
import type { RunAssessment } from '../../core/index.ts';
import { epochAt, simulationOf } from '../../journal/fold.ts';
import type { Logbook } from '../../journal/logbook.ts';
import { assessEach } from '../assessEach.ts';
import type { RunOnTheBench } from './readBenchDraft.ts';

const onTheBench = 'on-the-bench';

/** `except`: the run that is amended, which is not among those that judge it. */
export function assessOnTheBench(run: RunOnTheBench, logbook: Logbook, except?: string): RunAssessment {
  const epoch = epochAt(logbook.baselineStarts, run.analyzerId, run.madeAt);
  const simulation = simulationOf({ ...run, runId: onTheBench }, { epoch, excluded: false });
  const earlier = logbook.runs
    .filter(
      ({ id, body, simulation: { at } }) =>
        body.analyzerId === run.analyzerId && at <= simulation.at && id !== except,
    )
    .map((logged) => logged.simulation);
  const { assessments } = assessEach([...earlier, simulation], logbook);
  const assessment = assessments.get(onTheBench);
  if (!assessment) throw new Error('assessOnTheBench: the run was not assessed');
  return assessment;
}
