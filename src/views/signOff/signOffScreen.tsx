import { useState } from 'react';
import { Link, useParams } from 'wouter';
import { reportOfPeriodHref } from '../deskRoutes.ts';
import { useLogbook } from '../logbookContext.tsx';
import { ChangedAfterSignOff } from '../parts/changedAfterSignOff.tsx';
import { Spread } from '../parts/spread.tsx';
import { useChosenInSight } from '../parts/useChosenInSight.ts';
import './signOff.css';
import { SignedList } from './signedList.tsx';
import { SignedPage } from './signedPage.tsx';
import { SignOffForm } from './signOffForm.tsx';
import { useSignOff } from './useSignOff.ts';
import { WorkPageView } from './workPage.tsx';

/** What is new since the last sign-off, to be looked through analyzer by analyzer and signed. */
export default function SignOffScreen() {
  const { logbook } = useLogbook();
  const [signedNow, setSignedNow] = useState<string | null>(null);
  // A new sign-off takes what was ticked and typed with it.
  return <OneSignOff key={logbook.signOffs.length} onSigned={setSignedNow} signedNow={signedNow} />;
}

function OneSignOff({
  signedNow,
  onSigned,
}: {
  signedNow: string | null;
  onSigned: (signOffId: string) => void;
}) {
  const { logbook } = useLogbook();
  const { '*': address = '' } = useParams();
  const inHand = useSignOff();
  const rightPage = useChosenInSight(address);
  const [what = '', which = ''] = address.split('/');
  const signed =
    what === 'signed' ? logbook.signOffs.find(({ body }) => body.signOffId === which) : undefined;
  const { worklist } = inHand;
  const pages = worklist === null || worklist.isNothingNew ? [] : worklist.pages;
  const page = pages.find(({ id }) => id === what) ?? pages[0];
  return (
    <Spread
      left={
        <div className="stack stack--loose">
          <header className="stack">
            <h1>Sign-off</h1>
            <p className="quiet">
              <Link href="/review">Back to Review</Link>, or{' '}
              <Link href={reportOfPeriodHref(inHand.period)}>print a report of the period</Link>
            </p>
          </header>
          <ChangedAfterSignOff isWorklistHere />
          <SignOffForm chosen={signed ? null : (page?.id ?? null)} inHand={inHand} onSigned={onSigned} />
          <SignedList chosen={signed?.body.signOffId ?? null} />
        </div>
      }
      right={
        <div ref={rightPage}>
          {signed ? (
            <SignedPage
              key={signed.body.signOffId}
              signOff={signed}
              takesFocus={signedNow === signed.body.signOffId}
            />
          ) : page ? (
            <WorkPageView inHand={inHand} key={page.id} page={page} />
          ) : (
            <p className="quiet">
              What is new about each analyzer stands here, a page for each, as soon as there is something.
            </p>
          )}
        </div>
      }
    />
  );
}
