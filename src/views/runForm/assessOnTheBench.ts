/** Judges a run that is not yet recorded by the analyzer's earlier runs, exactly as it will be judged when it is. */
import type { RunAssessment } from '../../core/index.ts';
import { epochAt, simulationOf } from '../../journal/fold.ts';
import type { Logbook } from '../../journal/logbook.ts';
import { assessEach } from '../assessEach.ts';
import type { RunOnTheBench } from './readBenchDraft.ts';

const onTheBench = 'on-the-bench';

export function assessOnTheBench(run: RunOnTheBench, logbook: Logbook): RunAssessment {
  const epoch = epochAt(logbook.baselineStarts, run.analyzerId, run.madeAt);
  const simulation = simulationOf({ ...run, runId: onTheBench }, { epoch, excluded: false });
  const earlier = logbook.runs
    .filter(({ body, simulation: { at } }) => body.analyzerId === run.analyzerId && at <= simulation.at)
    .map((logged) => logged.simulation);
  const { assessments } = assessEach([...earlier, simulation], logbook);
  const assessment = assessments.get(onTheBench);
  if (!assessment) throw new Error('assessOnTheBench: the run was not assessed');
  return assessment;
}
