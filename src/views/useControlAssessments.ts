import type { Logbook } from '../journal/logbook.ts';
import {
  assessControls,
  type ControlAssessments,
  type ControlFailure,
  listControlFailures,
} from './controlAssessments.ts';
import { useLogbook } from './logbookContext.tsx';

interface Controls {
  assessments: ControlAssessments;
  /** Every one there was, in the order in which they opened. */
  failures: readonly ControlFailure[];
}

const known = new WeakMap<Logbook, Controls>();

/** The controls of a logbook: worked out once for each logbook, whichever part of a page asks first. */
export function controlsOf(logbook: Logbook): Controls {
  const earlier = known.get(logbook);
  if (earlier !== undefined) return earlier;
  const assessments = assessControls(logbook);
  const controls = { assessments, failures: listControlFailures(logbook, assessments) };
  known.set(logbook, controls);
  return controls;
}

/** Not with `useLogbook`'s own: the bench need not wait for what assesses controls. */
export const useControlAssessments = (): ControlAssessments => controlsOf(useLogbook().logbook).assessments;

export const useControlFailures = (): readonly ControlFailure[] => controlsOf(useLogbook().logbook).failures;
