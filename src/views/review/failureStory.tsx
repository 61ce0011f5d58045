import { useMemo } from 'react';
import { Link } from 'wouter';
import { outOfService } from '../../journal/standing.ts';
import { closingOf, endedAt, reopens } from '../closing.ts';
import { closingWindow } from '../closingWindow.ts';
import { type Failure, opensFailure } from '../failures.ts';
import { weighInquiry } from '../investigationChecks.ts';
import { inquiryInto, isVoided } from '../investigations.ts';
import { useLogbook } from '../logbookContext.tsx';
import { FigureList } from '../parts/figureList.tsx';
import { dayAndTime } from '../parts/figures.ts';
import { Notice } from '../parts/notice.tsx';
import { RunLink } from '../parts/runInTable.tsx';
import { TermLine } from '../parts/term.tsx';
import { useNow } from '../parts/useNow.ts';
import { findingSentence, quantityWords, routeWords } from '../parts/words.ts';
import { useFailures } from '../useFailures.ts';
import { onsetSentences } from '../windowWords.ts';
import { CloseForm, StillMissing } from './closeForm.tsx';
import { ActionSection, LookBackSection, ProofSection } from './closingSections.tsx';
import { stepLines } from './closingSteps.ts';
import { Ended } from './ended.tsx';
import { eventsDuring } from './eventsDuring.ts';
import { failureAddress } from './failureAddress.ts';
import { LikelyCauses } from './likelyCauses.tsx';
import { RunsMeanwhile } from './runsMeanwhile.tsx';
import { StepList } from './stepList.tsx';

/** One failure from opening to closure: how far it has come, what was found and done, and how it ended. */
export function FailureStory({ failure, allOpen }: { failure: Failure; allOpen: readonly Failure[] }) {
  const { logbook, assessments } = useLogbook();
  const failures = useFailures();
  const now = useNow(logbook);
  const { analyzerId, series, openedBy, ended } = failure;
  const label = logbook.analyzers.get(analyzerId)?.description.label ?? 'an unknown analyzer';
  const closing = useMemo(
    () => closingOf(failure, { logbook, assessments }),
    [failure, logbook, assessments],
  );
  const window = useMemo(
    () => closingWindow(failure, { logbook, assessments, now }),
    [failure, logbook, assessments, now],
  );
  const weighed = useMemo(() => {
    const inquiry = inquiryInto(logbook, failures, openedBy.id);
    return inquiry && weighInquiry(inquiry, { logbook, assessments, now: new Date(now).toISOString() });
  }, [logbook, assessments, failures, openedBy, now]);
  const checksMade = weighed?.inquiry.steps.filter((step) => !isVoided(step)).length ?? 0;
  const others = allOpen.filter(
    (other) => other.analyzerId === analyzerId && failureAddress(other) !== failureAddress(failure),
  );
  const mayBeStopped =
    ended === null &&
    logbook.analyzers.get(analyzerId)?.retired === null &&
    outOfService(logbook, analyzerId, new Date(now).toISOString()) === null;
  const parts = { failure, others, closing };
  // An event that an action was written down with says the same once more.
  const span = { analyzerId, from: openedBy.body.madeAt, until: endedAt(failure) };
  const events = eventsDuring(span, logbook).filter(
    ({ id }) => !closing.actions.some(({ body }) => body.eventId === id),
  );
  return (
    <article className="stack stack--loose">
      <header className="stack">
        <h1>
          {quantityWords[series.quantity]} of {label}
        </h1>
        <p className="quiet">
          {routeWords[series.route]}, opened by the run of{' '}
          <RunLink run={openedBy} technologists={logbook.technologists} />
        </p>
        <Reopened failure={failure} failures={failures} />
      </header>
      <div className="stack">
        <StepList steps={stepLines(failure, { closing, window, checksMade, logbook })} />
        <TermLine ids={['failure', 'proof', 'look-back']} />
        {mayBeStopped ? (
          <p>
            <Link href={`/equipment/analyzer/${analyzerId}`}>Take it out of service…</Link>{' '}
            <span className="quiet">
              No patients until the failure is closed: every test makes the look-back longer.
            </span>
          </p>
        ) : null}
      </div>
      <section className="stack">
        <h2>What opened it</h2>
        <Findings failure={failure} />
      </section>
      <section className="stack group">
        <h2>When it began</h2>
        {onsetSentences(window).map((sentence) => (
          <p key={sentence}>{sentence}</p>
        ))}
      </section>
      {weighed ? <LikelyCauses isOpen={ended === null} weighed={weighed} /> : null}
      <RunsMeanwhile failure={failure} />
      {events.length > 0 ? (
        <section className="stack group">
          <h2>Events meanwhile</h2>
          <FigureList rows={events.map(({ at, sentence }) => ({ name: dayAndTime(at), value: sentence }))} />
        </section>
      ) : null}
      <ActionSection {...parts} />
      <ProofSection closing={closing} failure={failure} />
      <LookBackSection {...parts} window={window} />
      <section className="stack group">
        {ended !== null ? (
          <Ended failure={failure} />
        ) : closing.missing.length > 0 ? (
          <StillMissing closing={closing} />
        ) : (
          <CloseForm analyzerLabel={label} {...parts} />
        )}
      </section>
    </article>
  );
}

function Findings({ failure: { openedBy, series } }: { failure: Failure }) {
  const { assessments } = useLogbook();
  return (assessments.get(openedBy.id)?.verdict.findings ?? [])
    .filter((finding) => opensFailure(finding) && finding.quantity === series.quantity)
    .map((finding) => {
      const sentence = findingSentence(finding);
      return <p key={sentence}>{sentence}</p>;
    });
}

/** A closure that did not hold is said above all else. */
function Reopened({ failure, failures }: { failure: Failure; failures: readonly Failure[] }) {
  const { logbook } = useLogbook();
  const before = reopens(failure, failures, logbook);
  if (before === null) return null;
  const { closure, former } = before;
  const closed = dayAndTime(closure.body.closedAt, closure.zone);
  const failed = dayAndTime(failure.openedBy.body.madeAt, failure.openedBy.entry.zone);
  return (
    <Notice title={`Reopened: closed on ${closed}, failed again on ${failed}.`} tone="warn">
      <p>
        The first run after that closure failed. <Link href={failureAddress(former)}>The story before</Link>
      </p>
    </Notice>
  );
}
