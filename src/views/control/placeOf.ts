/** Where a control stands in its series, before it is written and after. Pure. */
import type { Control } from '../../journal/entries.ts';
import { epochAt } from '../../journal/fold.ts';
import type { Logbook, LoggedControl } from '../../journal/logbook.ts';
import { subjectStateAt } from '../../journal/standing.ts';
import { type ControlAssessment, evaluationsOf } from '../controlAssessments.ts';

interface ControlPlaceInSeries {
  epoch: number;
  /** A failure of one of its series was open when it was made, or is since. */
  failureOpen: boolean;
  /** Excluded, set aside or voided. */
  countsNowhere: boolean;
}

export function placeOf(
  control: Control,
  assessment: ControlAssessment,
  logged: LoggedControl | undefined,
  logbook: Pick<Logbook, 'baselineStarts' | 'subjectStates'>,
): ControlPlaceInSeries {
  const { analyzerId, madeAt } = control;
  const isOfExcluded =
    control.kind === 'biological' && subjectStateAt(logbook, control.subjectId, madeAt) === 'excluded';
  return {
    epoch: epochAt(logbook.baselineStarts, analyzerId, madeAt),
    failureOpen: evaluationsOf(control, assessment).some(({ evaluation }) => evaluation.failureOpen),
    countsNowhere:
      isOfExcluded || (logged !== undefined && (logged.setAside !== null || logged.voided !== null)),
  };
}
