import { useMemo, useState } from 'react';
import { Link, useParams } from 'wouter';
import type { CivilDate } from '../../core/index.ts';
import { useLogbook } from '../logbookContext.tsx';
import { civilDay, counted } from '../parts/figures.ts';
import { Spread } from '../parts/spread.tsx';
import { useChosenInSight } from '../parts/useChosenInSight.ts';
import { routeWords } from '../parts/words.ts';
import { commonHref, fleetHref, technologistsHref } from '../routes.ts';
import './common.css';
import { DayPage } from './dayPage.tsx';
import { dayInShort, labelOf, syringeOf } from './describeDay.ts';
import { sharedDays, sharedDaysOn } from './sharedDays.ts';
import { splitDay } from './splitDay.ts';
import { TechniquePage } from './techniquePage.tsx';
import { isComparable, practisedSeries } from './technologists.ts';

const daysAtATime = 12;

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

function Days({ chosen }: { chosen: string }) {
  const { logbook, assessments } = useLogbook();
  const [most, setMost] = useState(daysAtATime);
  const { days, hasEarlier } = useMemo(
    () => sharedDays(logbook, assessments, most),
    [logbook, assessments, most],
  );
  const lines = useMemo(
    () => days.map((day) => ({ day, short: dayInShort(splitDay(day, logbook, assessments)) })),
    [days, logbook, assessments],
  );
  return (
    <nav aria-label="Days" className="stack">
      <h2>Days with the same syringe</h2>
      {lines.length === 0 ? (
        <p className="quiet">
          None yet. It takes a day on which two analyzers are run with the same syringe.
        </p>
      ) : (
        <ul className="choose-list">
          {lines.map(({ day: { date, syringeId, analyzers }, short }) => (
            <li key={`${date} ${syringeId}`}>
              <Link aria-current={date === chosen ? 'true' : undefined} href={commonHref(date)}>
                <span>{civilDay(date)}</span>{' '}
                <span className="small quiet">
                  {counted(analyzers.size, 'analyzer')}, <bdi>{syringeOf(logbook, syringeId)}</bdi>
                </span>
                {short === '' ? null : <span className="small common-short">{short}</span>}
              </Link>
            </li>
          ))}
        </ul>
      )}
      {hasEarlier ? (
        <div>
          <button onClick={() => setMost(most + daysAtATime)} type="button">
            Show {daysAtATime} earlier days
          </button>
        </div>
      ) : null}
    </nav>
  );
}

function Practised({ chosen }: { chosen: string }) {
  const { logbook, assessments } = useLogbook();
  const series = useMemo(
    () => practisedSeries(logbook, assessments).filter(isComparable),
    [logbook, assessments],
  );
  return (
    <nav aria-label="Technologists" className="stack group">
      <h2>Technologists</h2>
      {series.length === 0 ? (
        <p className="quiet">
          Here will stand each analyzer that two technologists have run, with five accepted runs each.
        </p>
      ) : (
        <ul className="choose-list">
          {series.map(({ analyzerId, route }) => {
            const href = technologistsHref(analyzerId, route);
            return (
              <li key={href}>
                <Link aria-current={href === `${commonHref()}/${chosen}` ? 'true' : undefined} href={href}>
                  <bdi>{labelOf(logbook, analyzerId)}</bdi>{' '}
                  <span className="small quiet">{routeWords[route].toLowerCase()}</span>
                </Link>
              </li>
            );
          })}
        </ul>
      )}
    </nav>
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
        analyzerId={decodeURIComponent(analyzerId)}
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
