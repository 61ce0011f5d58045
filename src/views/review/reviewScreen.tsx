import { useMemo } from 'react';
import { Link, useParams } from 'wouter';
import { completenessHref, fleetHref, signOffHref } from '../deskRoutes.ts';
import { useLogbook } from '../logbookContext.tsx';
import { ChangedAfterSignOff } from '../parts/changedAfterSignOff.tsx';
import { CloseTogether } from '../parts/closeTogether.tsx';
import { Spread } from '../parts/spread.tsx';
import { useChosenInSight } from '../parts/useChosenInSight.ts';
import { useControlFailures } from '../useControlAssessments.ts';
import { useFailures } from '../useFailures.ts';
import { ControlFailureStory } from './controlFailureStory.tsx';
import { failureAddress } from './failureAddress.ts';
import { ControlFailureList, controlFailureAddress, FailureList } from './failureLists.tsx';
import { FailureStory } from './failureStory.tsx';
import './review.css';
import { Withdrawn, withdrawnLines } from './withdrawn.tsx';

export default function ReviewScreen() {
  const { logbook } = useLogbook();
  const oldestFirst = useFailures();
  const { '*': address = '' } = useParams();
  const failures = useMemo(() => oldestFirst.toReversed(), [oldestFirst]);
  const open = failures.filter(({ ended }) => ended === null);
  const ended = failures.filter((failure) => failure.ended !== null);
  const rightPage = useChosenInSight(address);
  const imported = open.filter(({ openedBy }) => openedBy.body.origin.kind === 'import');
  const ofControls = useControlFailures();
  const withdrawn = useMemo(
    () => withdrawnLines(logbook, failures, ofControls),
    [logbook, failures, ofControls],
  );
  const openOfControls = ofControls.filter(({ ended: end }) => end === null).reverse();
  const endedOfControls = ofControls.filter(({ ended: end }) => end !== null).reverse();
  const asked = ofControls.find((failure) => controlFailureAddress(failure) === `/review/${address}`);
  const chosen =
    failures.find((failure) => failureAddress(failure) === `/review/${address}`) ??
    open[0] ??
    (openOfControls.length > 0 ? undefined : ended[0]);
  const chosenOfControls =
    asked ?? (chosen === undefined ? (openOfControls[0] ?? endedOfControls[0]) : undefined);
  const chosenOfRuns = chosenOfControls === undefined ? chosen : undefined;
  return (
    <Spread
      left={
        <div className="stack stack--loose">
          <header className="stack">
            <h1>Review</h1>
            <p>
              <Link href={signOffHref()}>What is new since the last sign-off, to be signed</Link>
            </p>
            <p>
              <Link href={fleetHref}>The fleet on one page</Link>
            </p>
            <p>
              <Link href={completenessHref()}>Weeks with and without a run</Link>
            </p>
          </header>
          <ChangedAfterSignOff />
          <section className="stack">
            <h2>Open failures</h2>
            {open.length === 0 ? (
              <p className="quiet">None. A failure opens by itself at a breached limit or an action rule.</p>
            ) : (
              <FailureList chosen={chosenOfRuns} failures={open} />
            )}
          </section>
          {openOfControls.length > 0 ? (
            <section className="stack">
              <h2>Open failures of controls</h2>
              <ControlFailureList chosen={chosenOfControls} failures={openOfControls} />
            </section>
          ) : null}
          {imported.length > 0 ? (
            <details className="group">
              <summary>
                {imported.length === 1
                  ? 'Close the failure of an imported run'
                  : `Close ${imported.length} failures of imported runs together`}
              </summary>
              <CloseTogether
                failures={imported}
                key={imported.map(({ openedBy }) => openedBy.id).join(' ')}
              />
            </details>
          ) : null}
          {ended.length > 0 ? (
            <section className="stack group">
              <h2>Ended</h2>
              <FailureList chosen={chosenOfRuns} failures={ended} />
            </section>
          ) : null}
          {endedOfControls.length > 0 ? (
            <section className="stack group">
              <h2>Ended, of controls</h2>
              <ControlFailureList chosen={chosenOfControls} failures={endedOfControls} />
            </section>
          ) : null}
          {withdrawn.length > 0 ? <Withdrawn lines={withdrawn} /> : null}
        </div>
      }
      right={
        <div ref={rightPage}>
          {chosenOfControls ? (
            <ControlFailureStory
              failure={chosenOfControls}
              failures={ofControls}
              key={controlFailureAddress(chosenOfControls)}
            />
          ) : chosenOfRuns ? (
            <FailureStory allOpen={open} failure={chosenOfRuns} key={failureAddress(chosenOfRuns)} />
          ) : (
            <p className="quiet">
              The story of a failure stands here: what opened it, the runs made meanwhile, and how it was
              closed.
            </p>
          )}
        </div>
      }
      wide="right"
    />
  );
}
