import { useEffect, useMemo, useState } from 'react';
import { flushSync } from 'react-dom';
import { chainHeads } from '../../journal/chain.ts';
import { useLogbook } from '../logbookContext.tsx';
import { localZone } from '../parts/localTime.ts';
import { useSignatureChecks } from '../parts/useSignatureChecks.ts';
import { usePersonInHand } from '../screenState.ts';
import { useControlAssessments, useControlFailures } from '../useControlAssessments.ts';
import { useFailures } from '../useFailures.ts';
import type { ReportChoice } from './reportChoice.ts';
import type { Chapter } from './reportModel.ts';
import { type ReportPlan, reportPlan } from './reportPlan.ts';
import type { ReportSources } from './reportSources.ts';

/** What a report of this moment is read from: made anew with the logbook, and not by the clock. */
export function useReportSources(): ReportSources {
  const { logbook, snapshot, assessments, demonstration } = useLogbook();
  const failures = useFailures();
  const controlAssessments = useControlAssessments();
  const controlFailures = useControlFailures();
  const signatures = useSignatureChecks();
  const [personId] = usePersonInHand();
  const [moment, setMoment] = useState(() => ({ logbook, now: Date.now() }));
  if (moment.logbook !== logbook) setMoment({ logbook, now: Date.now() });
  const { now } = moment;
  return useMemo(() => {
    const person = logbook.technologists.get(personId);
    return {
      logbook,
      assessments,
      failures,
      controlAssessments,
      controlFailures,
      heads: chainHeads(snapshot.rawRows),
      signatures,
      now,
      madeBy: person === undefined ? null : { initials: person.initials, name: person.name },
      zone: localZone(),
      demonstration,
    };
  }, [
    logbook,
    assessments,
    failures,
    controlAssessments,
    controlFailures,
    snapshot.rawRows,
    signatures,
    now,
    personId,
    demonstration,
  ]);
}

export interface ReportInMaking {
  chapters: readonly Chapter[];
  /** How many there will be. */
  of: number;
}

/**
 * The chapters one after the other, with time between them for whatever is pressed meanwhile. A print that is asked for before all
 * are there gets the rest at once.
 */
export function useReport(choice: ReportChoice, sources: ReportSources): ReportInMaking {
  const plan = useMemo(() => reportPlan(choice, sources), [choice, sources]);
  const [made, setMade] = useState<{ plan: ReportPlan; chapters: readonly Chapter[] }>({
    plan,
    chapters: [],
  });
  const chapters = made.plan === plan ? made.chapters : none;
  useEffect(() => {
    const next = plan[chapters.length];
    if (next === undefined) return;
    const timer = setTimeout(() => setMade({ plan, chapters: [...chapters, next()] }));
    return () => clearTimeout(timer);
  }, [plan, chapters]);
  useEffect(() => {
    const finish = () => {
      if (chapters.length === plan.length) return;
      const rest = plan.slice(chapters.length).map((make) => make());
      flushSync(() => setMade({ plan, chapters: [...chapters, ...rest] }));
    };
    window.addEventListener('beforeprint', finish);
    return () => window.removeEventListener('beforeprint', finish);
  }, [plan, chapters]);
  return { chapters, of: plan.length };
}

const none: readonly Chapter[] = [];
