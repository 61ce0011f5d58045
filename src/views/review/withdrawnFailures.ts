import type { LoggedControl, LoggedRun } from '../../journal/logbook.ts';
import type { ControlFailure } from '../controlAssessments.ts';
import type { Failure } from '../failures.ts';

/**
 * Runs that failed on their day and were voided, amended or set aside since, so that no failure tells of them any more; newest
 * first. Anyone may put a slip right at the bench, and a supervisor sees here that it was done.
 */
export function withdrawnFailures(
  runs: readonly LoggedRun[],
  failures: readonly Failure[],
): readonly LoggedRun[] {
  const told = new Set(failures.flatMap((failure) => failure.runs.map(({ id }) => id)));
  return runs
    .filter(({ id, entry, voided, setAside, amendments }) => {
      const failedOnItsDay = entry.body.judged?.word === 'fail';
      return (
        failedOnItsDay && !told.has(id) && (voided !== null || setAside !== null || amendments.length > 0)
      );
    })
    .toReversed();
}

/** The same of controls; of a person who was excluded afterwards too. One that was excluded when it was made never opened a failure. */
export function withdrawnControls(
  controls: readonly LoggedControl[],
  failures: readonly ControlFailure[],
): readonly LoggedControl[] {
  const told = new Set(failures.flatMap((failure) => failure.controls.map(({ id }) => id)));
  return controls
    .filter(
      ({ id, entry, excluded, amendments }) =>
        entry.body.judged.word === 'fail' &&
        entry.body.judged.failureOpen &&
        !told.has(id) &&
        (excluded || amendments.length > 0),
    )
    .toReversed();
}
