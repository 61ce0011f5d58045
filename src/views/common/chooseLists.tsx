import { useMemo, useState } from 'react';
import { Link } from 'wouter';
import { commonHref, technologistsHref } from '../deskRoutes.ts';
import { useLogbook } from '../logbookContext.tsx';
import { civilDay, counted } from '../parts/figures.ts';
import { routeWords } from '../parts/words.ts';
import { dayInShort, labelOf, syringeOf } from './describeDay.ts';
import { sharedDays } from './sharedDays.ts';
import { splitDay } from './splitDay.ts';
import { isComparable, practisedSeries } from './technologists.ts';

const daysAtATime = 12;

/** `chosen`: what follows the page's own path in its address. */
export function Days({ chosen }: { chosen: string }) {
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

/** `chosen`: as for the days. */
export function Practised({ chosen }: { chosen: string }) {
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
