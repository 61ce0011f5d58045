import type { Assessments } from '../core/index.ts';
import type { Logbook } from '../journal/logbook.ts';
import { type Failure, listFailures } from './failures.ts';
import { useLogbook } from './logbookContext.tsx';

/** By the assessments, which are made anew with every logbook. */
const listed = new WeakMap<Assessments, { logbook: Logbook; failures: readonly Failure[] }>();

/**
 * Every failure there was. Listing them walks all runs: it is done once for each logbook, whichever part of a page asks
 * first, and not at the keystroke of a form that lets another part appear.
 */
export function useFailures(): readonly Failure[] {
  const { logbook, assessments } = useLogbook();
  const known = listed.get(assessments);
  if (known?.logbook === logbook) return known.failures;
  const failures = listFailures(logbook, assessments);
  listed.set(assessments, { logbook, failures });
  return failures;
}
