import type { RunAssessment } from '../core/index.ts';
import type { Judgement } from '../journal/entries.ts';
import { judgementOf } from '../journal/judgement.ts';
import type { LoggedRun } from '../journal/logbook.ts';

/**
 * What is shown as a run's verdict: that of its day, which is never rewritten; or, where nobody judged it here on its
 * day because it was imported, what comes out of the journal today. Null where neither can be.
 */
export function shownJudgement(
  run: LoggedRun,
  assessments: ReadonlyMap<string, RunAssessment>,
): Judgement | null {
  if (run.body.judged !== null) return run.body.judged;
  const assessment = assessments.get(run.id);
  return assessment ? judgementOf(assessment) : null;
}
