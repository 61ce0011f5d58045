import { useMemo } from 'react';
import { Link, useParams } from 'wouter';
import { type WeighedInquiry, weighInquiry } from '../investigationChecks.ts';
import { inquiryInto } from '../investigations.ts';
import { useLogbook } from '../logbookContext.tsx';
import { Notice } from '../parts/notice.tsx';
import { Spread } from '../parts/spread.tsx';
import { useNow } from '../parts/useNow.ts';
import { useFailures } from '../useFailures.ts';
import { buildInvestigation } from './buildInvestigation.ts';
import { CheckList } from './checkList.tsx';
import { WhatWasFound } from './whatWasFound.tsx';
import './investigation.css';

/** One investigation: what was found and what it points to on the left page, the checks on the right. */
export default function InvestigationScreen() {
  const { logbook, assessments } = useLogbook();
  const { runId = '' } = useParams();
  const failures = useFailures();
  const now = useNow(logbook);
  const weighed = useMemo((): WeighedInquiry | null => {
    const inquiry = inquiryInto(logbook, failures, runId);
    return inquiry && weighInquiry(inquiry, { logbook, assessments, now: new Date(now).toISOString() });
  }, [logbook, assessments, failures, runId, now]);
  if (weighed === null) return <NoSuchRun />;
  const page = buildInvestigation(weighed, failures, logbook);
  return (
    <Spread
      left={<WhatWasFound weighed={weighed} page={page} />}
      right={<CheckList weighed={weighed} isOver={page.standing?.isOver ?? false} />}
    />
  );
}

function NoSuchRun() {
  return (
    <Spread
      left={
        <Notice title="This address names no run of the logbook." tone="quiet">
          <p>
            Open failures stand under Review: <Link href="/review">go to Review</Link>.
          </p>
        </Notice>
      }
      right={null}
    />
  );
}
