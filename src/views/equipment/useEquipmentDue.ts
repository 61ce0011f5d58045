import { useMemo } from 'react';
import { useLogbook } from '../logbookContext.tsx';
import { localZone } from '../parts/localTime.ts';
import { useNow } from '../parts/useNow.ts';
import { type DueCheck, dueChecks } from '../schedule.ts';

/** What is due now, and this moment in ms. Reading it walks all runs: it is done twice a minute, not at each keystroke. */
export function useEquipmentDue(): { now: number; due: readonly DueCheck[] } {
  const { logbook } = useLogbook();
  const now = useNow(logbook);
  const due = useMemo(() => dueChecks(logbook, now, localZone()), [logbook, now]);
  return { now, due };
}
