import { useMemo } from 'react';
import type { SeriesOfControls } from '../charting/controlSeries.ts';
import { controlStory } from '../charting/controlStory.ts';
import { useLogbook } from '../logbookContext.tsx';
import { useControlAssessments, useControlFailures } from '../useControlAssessments.ts';

/** Everything that the logbook has to tell of one series of controls. */
export function useControlStory(named: SeriesOfControls) {
  const { logbook } = useLogbook();
  const assessments = useControlAssessments();
  const failures = useControlFailures();
  return useMemo(
    () => controlStory(logbook, assessments, named, { failures, now: Date.now() }),
    [logbook, assessments, named, failures],
  );
}
