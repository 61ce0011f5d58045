import { useEffect, useMemo, useState } from 'react';
import { flushSync } from 'react-dom';
import { chainHeads } from '../../journal/chain.ts';
import { useChainCheck } from '../chainCheck.tsx';
import { useLogbook } from '../logbookContext.tsx';
import { localZone } from '../parts/localTime.ts';
import { useSignatureChecks } from '../parts/useSignatureChecks.ts';
import { usePersonInHand } from '../screenState.ts';
import { useControlAssessments, useControlFailures } from '../useControlAssessments.ts';
import { useFailures } from '../useFailures.ts';
import { breaksIn, journalFound } from './journalFound.ts';
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
  const { check } = useChainCheck();
  const breaks = check.state === 'done' ? breaksIn(check.report) : null;
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
      journal: journalFound(snapshot, breaks),
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
    snapshot,
    breaks,
    signatures,
    now,
    personId,
    demonstration,
  ]);
}

export interface ReportInMaking {
  chapters: readonly Chapter[];
  isWhole: boolean;
}

/** What a plan has come to after so many of its pieces. */
interface Made {
  plan: ReportPlan;
  pieces: number;
  chapters: readonly Chapter[];
}

/**
 * The chapters one after the other, with time between them for whatever is pressed meanwhile. A print that is asked for before all
 * are there gets the rest at once.
 */
export function useReport(choice: ReportChoice, sources: ReportSources): ReportInMaking {
  const plan = useMemo(() => reportPlan(choice, sources), [choice, sources]);
  const [last, setLast] = useState<Made>(() => begun(plan));
  const made = useMemo(() => (last.plan === plan ? last : begun(plan)), [last, plan]);
  const isWhole = made.pieces === plan.length;
  useEffect(() => {
    if (isWhole) return;
    const timer = setTimeout(() => setLast(oneMore(made)));
    const finish = () => {
      let whole = made;
      while (whole.pieces < whole.plan.length) whole = oneMore(whole);
      flushSync(() => setLast(whole));
    };
    window.addEventListener('beforeprint', finish);
    return () => {
      clearTimeout(timer);
      window.removeEventListener('beforeprint', finish);
    };
  }, [made, isWhole]);
  return { chapters: made.chapters, isWhole };
}

const begun = (plan: ReportPlan): Made => ({ plan, pieces: 0, chapters: [] });

function oneMore({ plan, pieces, chapters }: Made): Made {
  const chapter = plan[pieces]?.() ?? null;
  return { plan, pieces: pieces + 1, chapters: chapter === null ? chapters : [...chapters, chapter] };
}
