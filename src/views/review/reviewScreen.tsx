import { useMemo } from 'react';
import { Link, useParams } from 'wouter';
import type { LoggedRun } from '../../journal/logbook.ts';
import { fleetHref, signOffHref } from '../deskRoutes.ts';
import type { Failure } from '../failures.ts';
import { useLogbook } from '../logbookContext.tsx';
import { ChangedAfterSignOff } from '../parts/changedAfterSignOff.tsx';
import { CloseTogether } from '../parts/closeTogether.tsx';
import { counted, day } from '../parts/figures.ts';
import { Spread } from '../parts/spread.tsx';
import { useChosenInSight } from '../parts/useChosenInSight.ts';
import { VerdictMark } from '../parts/verdictMark.tsx';
import { quantityWords, routeWords } from '../parts/words.ts';
import { runHref } from '../routes.ts';
import { useFailures } from '../useFailures.ts';
import { failureAddress } from './failureAddress.ts';
import { FailureStory } from './failureStory.tsx';
import './review.css';
import { withdrawnFailures } from './withdrawnFailures.ts';

export default function ReviewScreen() {
  const { logbook } = useLogbook();
  const oldestFirst = useFailures();
  const { '*': address = '' } = useParams();
  const failures = useMemo(() => oldestFirst.toReversed(), [oldestFirst]);
  const open = failures.filter(({ ended }) => ended === null);
  const ended = failures.filter((failure) => failure.ended !== null);
  const withdrawn = useMemo(() => withdrawnFailures(logbook.runs, failures), [logbook.runs, failures]);
  const rightPage = useChosenInSight(address);
  const imported = open.filter(({ openedBy }) => openedBy.body.origin.kind === 'import');
  const chosen =
    failures.find((failure) => failureAddress(failure) === `/review/${address}`) ?? open[0] ?? ended[0];
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
          </header>
          <ChangedAfterSignOff />
          <section className="stack">
            <h2>Open failures</h2>
            {open.length === 0 ? (
              <p className="quiet">None. A failure opens by itself at a breached limit or an action rule.</p>
            ) : (
              <FailureList chosen={chosen} failures={open} />
            )}
          </section>
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
              <FailureList chosen={chosen} failures={ended} />
            </section>
          ) : null}
          {withdrawn.length > 0 ? <Withdrawn runs={withdrawn} /> : null}
        </div>
      }
      right={
        <div ref={rightPage}>
          {chosen ? (
            <FailureStory allOpen={open} failure={chosen} key={failureAddress(chosen)} />
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

/** What failed on its day and opens no failure any more stays in the supervisor's sight, with the way to the whole story. */
function Withdrawn({ runs }: { runs: readonly LoggedRun[] }) {
  const { logbook } = useLogbook();
  return (
    <section className="stack group">
      <h2>Failed on their day, put right since</h2>
      <ul className="choose-list">
        {runs.map(({ id, body, voided, setAside }) => (
          <li key={id}>
            <Link href={runHref(id)}>
              <span>{logbook.analyzers.get(body.analyzerId)?.description.label}</span>{' '}
              <span className="quiet small">
                {day(body.madeAt)}, {voided ? 'voided' : setAside ? 'set aside' : 'amended'}
              </span>
            </Link>
          </li>
        ))}
      </ul>
    </section>
  );
}

function FailureList({ failures, chosen }: { failures: readonly Failure[]; chosen: Failure | undefined }) {
  const { logbook } = useLogbook();
  return (
    <ul className="choose-list">
      {failures.map((failure) => {
        const { analyzerId, series, openedBy, runs, ended } = failure;
        return (
          <li key={failureAddress(failure)}>
            <Link aria-current={failure === chosen ? 'true' : undefined} href={failureAddress(failure)}>
              <span className="line failure-name">
                <span data-shape={ended === null ? 'fail' : 'establishing'}>
                  <VerdictMark shape={ended === null ? 'fail' : 'pass'} size={14} />
                </span>
                {logbook.analyzers.get(analyzerId)?.description.label}, {quantityWords[series.quantity]}
              </span>{' '}
              <span className="quiet small">
                {day(openedBy.body.madeAt)}, {routeWords[series.route].toLowerCase()},{' '}
                {counted(runs.length, 'run')}
              </span>
            </Link>
          </li>
        );
      })}
    </ul>
  );
}
