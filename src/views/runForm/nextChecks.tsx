import { useMemo } from 'react';
import { Link } from 'wouter';
import { nextChecks, weighInquiry } from '../investigationChecks.ts';
import { inquiryInto } from '../investigations.ts';
import { useLogbook } from '../logbookContext.tsx';
import { BeginChecks } from '../parts/beginChecks.tsx';
import { investigationHref } from '../routes.ts';
import { useFailures } from '../useFailures.ts';

const shown = 2;

/** After a failing run: the two checks that would tell most, each begun with a press, and the way to all of them. */
export default function NextChecks({ runId, hasRepeat }: { runId: string; hasRepeat: boolean }) {
  const { logbook, assessments } = useLogbook();
  const failures = useFailures();
  const weighed = useMemo(() => {
    const inquiry = inquiryInto(logbook, failures, runId);
    return inquiry && weighInquiry(inquiry, { logbook, assessments, now: new Date().toISOString() });
  }, [logbook, assessments, failures, runId]);
  if (weighed === null) return null;
  const checks = nextChecks(weighed)
    .filter(({ check }) => !(hasRepeat && check === 'repeat'))
    .slice(0, shown);
  return (
    <section aria-label="Look into it" className="stack group">
      <h2>Look into it</h2>
      {checks.map(({ check, why, begins }) => (
        <div className="next-check" key={check}>
          <p className="quiet">{why}</p>
          <BeginChecks begins={begins} />
        </div>
      ))}
      <p>
        <Link href={investigationHref(weighed.inquiry.about.id)}>All checks and what they point to</Link>
      </p>
    </section>
  );
}
