import type { Entry } from '../journal/entries.ts';
import { useLogbook } from './logbookContext.tsx';
import {
  type ChangeAfterSignOff,
  type ControlChangeAfterSignOff,
  type Coverage,
  changesAfterSignOff,
  controlChangesAfterSignOff,
  coverageOf,
} from './signedOff.ts';

interface SignedOff {
  coverage: Coverage;
  changes: readonly ChangeAfterSignOff[];
  controlChanges: readonly ControlChangeAfterSignOff[];
}

/** By the entries, of which every snapshot has its own list. */
const known = new WeakMap<readonly Entry[], SignedOff>();

/** What the sign-offs cover, and what was changed under them since: looked at once for each state of the journal. */
export function useSignedOff(): SignedOff {
  const { snapshot, logbook } = useLogbook();
  const { entries } = snapshot;
  const found = known.get(entries);
  if (found !== undefined) return found;
  const coverage = coverageOf(entries, logbook.signOffs);
  const signedOff = {
    coverage,
    changes: changesAfterSignOff(logbook, entries, coverage),
    controlChanges: controlChangesAfterSignOff(logbook, entries, coverage),
  };
  known.set(entries, signedOff);
  return signedOff;
}
