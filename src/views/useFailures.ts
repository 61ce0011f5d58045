import { useMemo } from 'react';
import { type Failure, listFailures } from './failures.ts';
import { useLogbook } from './logbookContext.tsx';

/** Every failure there was. Listing them walks all runs: it is done when the logbook changes, not at each keystroke of a form. */
export function useFailures(): readonly Failure[] {
  const { logbook, assessments } = useLogbook();
  return useMemo(() => listFailures(logbook, assessments), [logbook, assessments]);
}
