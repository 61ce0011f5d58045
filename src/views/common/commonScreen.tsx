import { useMemo } from 'react';
import { Link, useParams } from 'wouter';
import type { CivilDate } from '../../core/index.ts';
import { decodedPart, fleetHref } from '../deskRoutes.ts';
import { useLogbook } from '../logbookContext.tsx';
import { civilDay } from '../parts/figures.ts';
import { Spread } from '../parts/spread.tsx';
import { useChosenInSight } from '../parts/useChosenInSight.ts';
import './common.css';
import { Days, Practised } from './chooseLists.tsx';
import { DayPage } from './dayPage.tsx';
import { sharedDays, sharedDaysOn } from './sharedDays.ts';
import { TechniquePage } from './techniquePage.tsx';

/** Left: the days that several analyzers share, and the analyzers that several technologists run. Right: the one chosen. */
export default function CommonScreen() {
  const { '*': address = '' } = useParams();
  const rightPage = useChosenInSight(address);
  return (
    <Spread
      left={
        <div className="stack stack--loose">
          <div className="stack">
            <h1>Common cause</h1>
            <p>
              What moves every analyzer on one day is not the analyzers. What differs from hand to hand is
              technique.
            </p>
            <p>
              <Link href={fleetHref}>The fleet on one page</Link>
            </p>
          </div>
          <Days chosen={address} />
          <Practised chosen={address} />
        </div>
      }
      right={
        <div ref={rightPage}>
          <Chosen address={address} />
        </div>
      }
      wide="right"
    />
  );
}

function Chosen({ address }: { address: string }) {
  const { logbook, assessments } = useLogbook();
  const newest = useMemo(() => sharedDays(logbook, assessments, 1).days[0]?.date, [logbook, assessments]);
  const technologists = /^technologists\/(.+)\/(patient-test|built-in)$/.exec(address);
  if (technologists !== null) {
    const [, analyzerId = '', route] = technologists;
    return (
      <TechniquePage
        analyzerId={decodedPart(analyzerId)}
        route={route === 'built-in' ? 'built-in' : 'patient-test'}
      />
    );
  }
  if (address !== '') return <DayOrNone date={address} />;
  return newest === undefined ? (
    <p className="quiet">
      The shift of a day stands here, split into what the analyzers have in common and what each has of its
      own.
    </p>
  ) : (
    <DayOrNone date={newest} />
  );
}

const isDate = (text: string) => /^\d{4}-\d\d-\d\d$/.test(text) && !Number.isNaN(Date.parse(text));

function DayOrNone({ date }: { date: CivilDate }) {
  const { logbook, assessments } = useLogbook();
  const days = useMemo(
    () => (isDate(date) ? sharedDaysOn(logbook, assessments, date) : []),
    [logbook, assessments, date],
  );
  if (days.length === 0) {
    return (
      <p>
        On the day of this address no two analyzers were run with the same syringe. Choose a day from the
        list.
      </p>
    );
  }
  return (
    <div className="stack stack--loose">
      <h2 className="common-title">{civilDay(date)}</h2>
      {days.map((day) => (
        <DayPage day={day} key={day.syringeId} />
      ))}
    </div>
  );
}
