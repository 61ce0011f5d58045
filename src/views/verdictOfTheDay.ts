import type { RunAssessment } from '../core/index.ts';
import type { Judgement } from '../journal/entries.ts';
import { judgementOf } from '../journal/judgement.ts';
import type { LoggedRun } from '../journal/logbook.ts';

/**
 * What is shown as a run's verdict: that of its day, or of its newest amendment, neither of which is ever rewritten; or,
 * where nobody judged it here because it was imported, what comes out of the journal today. Null where none can be.
 */
export function shownJudgement(
  run: LoggedRun,
  assessments: ReadonlyMap<string, RunAssessment>,
): Judgement | null {
  const written = run.amendments.at(-1)?.body.judged ?? run.entry.body.judged;
  if (written !== null) return written;
  const assessment = assessments.get(run.id);
  return assessment ? judgementOf(assessment) : null;
}

/** The verdict of the day where an amendment changed it: it is shown struck through beside the amended one. */
export function struckJudgement(run: LoggedRun): Judgement | null {
  const ofTheDay = run.entry.body.judged;
  const amended = run.amendments.at(-1)?.body.judged;
  if (ofTheDay === null || amended === undefined) return null;
  return ofTheDay.word === amended.word && ofTheDay.establishing === amended.establishing ? null : ofTheDay;
}
