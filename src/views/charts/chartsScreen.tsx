import { useMemo } from 'react';
import { Link, useLocation } from 'wouter';
import { addressOf, readAddress } from '../charting/chartWindow.ts';
import { useLogbook } from '../logbookContext.tsx';
import { Spread } from '../parts/spread.tsx';
import { useChosenInSight } from '../parts/useChosenInSight.ts';
import { useScreenState } from '../screenState.ts';
import { useFailures } from '../useFailures.ts';
import { type AnalyzerLines, buildSeriesList, firstToLookAt, type SeriesLine } from './buildSeriesList.ts';
import './charts.css';
import { SeriesList } from './seriesList.tsx';
import { SeriesPage } from './seriesPage.tsx';

export default function ChartsScreen() {
  const [location, navigate] = useLocation();
  const { logbook, assessments } = useLogbook();
  const failures = useFailures();
  const groups = useMemo(
    () => buildSeriesList(logbook, assessments, failures, Date.now()),
    [logbook, assessments, failures],
  );
  const inHand = useScreenState(({ benchDraft }) => benchDraft.analyzerId);
  const { path, days } = useMemo(() => readAddress(location), [location]);
  const addressed = atAddress(groups, path);
  const shown = addressed ?? (isBare(path) ? firstToLookAt(groups, inHand) : undefined);
  const rightPage = useChosenInSight(isBare(path) ? '' : path);
  return (
    <Spread
      left={<SeriesList groups={groups} shown={shown} />}
      right={
        <div ref={rightPage}>
          {shown ? (
            <SeriesPage
              days={days}
              failures={failures}
              key={shown.path}
              onShow={(part) => navigate(addressOf(shown.path, part), { replace: true })}
              series={shown.series}
            />
          ) : (
            <NothingHere empty={groups.length === 0} />
          )}
        </div>
      }
      wide="right"
    />
  );
}

const isBare = (location: string) => /^\/charts\/?$/.test(location);

function atAddress(groups: readonly AnalyzerLines[], location: string): SeriesLine | undefined {
  return groups
    .flatMap(({ lines }) => lines)
    .find(({ path }) => path === location || decoded(path) === location);
}

/** The router hands over the address with its escapes undone. */
const decoded = (path: string) => decodeURI(path);

function NothingHere({ empty }: { empty: boolean }) {
  return empty ? (
    <div className="stack">
      <h1>No runs yet</h1>
      <p>
        Here will stand a control chart for each analyzer and route, VA and DLCO apart, with the limits in
        force on each day and the table of the same runs.
      </p>
      <p>
        <Link href="/bench">Record the first run at the bench</Link>
      </p>
    </div>
  ) : (
    <div className="stack">
      <h1>No such series</h1>
      <p>The address names an analyzer, route or quantity that has no runs. Choose a series from the list.</p>
    </div>
  );
}
