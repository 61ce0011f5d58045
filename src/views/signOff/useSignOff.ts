/** A sign-off while it is being made: its period, what is new in it, and what was ticked and typed so far. */
import { useMemo, useState } from 'react';
import { useLogbook } from '../logbookContext.tsx';
import { localDay } from '../parts/localTime.ts';
import { useNow } from '../parts/useNow.ts';
import { useControlFailures } from '../useControlAssessments.ts';
import { useFailures } from '../useFailures.ts';
import { useSignedOff } from '../useSignedOff.ts';
import { buildWorklist, type Period } from './buildWorklist.ts';
import { dayOfEntry } from './newEntries.ts';
import { nextPeriod, periodErrors, type SignOffDraft } from './readSignOff.ts';
import { useKeptSignOff } from './useKeptSignOff.ts';

export function useSignOff() {
  const { logbook, snapshot, assessments } = useLogbook();
  const { coverage } = useSignedOff();
  const failures = useFailures();
  const controlFailures = useControlFailures();
  const today = localDay(useNow(logbook));
  const [typed, setTyped] = useState<Partial<Period>>({});
  const [draft, setDraft] = useKeptSignOff();

  const usual = useMemo(() => {
    const [oldest] = snapshot.entries.toSorted((one, other) => Date.parse(one.at) - Date.parse(other.at));
    const first = oldest === undefined ? today : dayOfEntry(oldest);
    return nextPeriod(logbook.signOffs, first, today);
  }, [snapshot.entries, logbook.signOffs, today]);
  const from = typed.from ?? usual.from;
  const to = typed.to ?? usual.to;
  const errors = useMemo(() => periodErrors({ from, to }, today), [from, to, today]);
  const isPeriod = errors.from === undefined && errors.to === undefined;
  const worklist = useMemo(
    () =>
      isPeriod
        ? buildWorklist(
            { from, to },
            { logbook, entries: snapshot.entries, coverage, assessments, failures, controlFailures },
          )
        : null,
    [isPeriod, from, to, logbook, snapshot.entries, coverage, assessments, failures, controlFailures],
  );
  return {
    period: { from, to },
    setPeriod: (changed: Partial<Period>) => setTyped({ ...typed, ...changed }),
    errors,
    /** Null while the period is none. */
    worklist,
    draft,
    change: (changed: Partial<SignOffDraft>) => setDraft({ ...draft, ...changed }),
    tick: (key: string, isSeen: boolean) =>
      setDraft({ ...draft, seen: isSeen ? [...draft.seen, key] : draft.seen.filter((one) => one !== key) }),
  };
}

export type SignOffInHand = ReturnType<typeof useSignOff>;
