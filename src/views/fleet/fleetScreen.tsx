import { useMemo, useState } from 'react';
import { Link } from 'wouter';
import { commonHref } from '../deskRoutes.ts';
import { openFailures } from '../failures.ts';
import { useLogbook } from '../logbookContext.tsx';
import { counted } from '../parts/figures.ts';
import { localZone } from '../parts/localTime.ts';
import { OnePage } from '../parts/onePage.tsx';
import { useNow } from '../parts/useNow.ts';
import { useFailures } from '../useFailures.ts';
import { buildFleet } from './buildFleet.ts';
import './fleet.css';
import { TermLine } from '../parts/term.tsx';
import { FleetTable } from './fleetTable.tsx';
import { type FleetColumn, type Sorting, sortFleet } from './sortFleet.ts';

const columnWords: Record<FleetColumn, string> = {
  analyzer: 'analyzer',
  verdict: 'the verdict of the last run',
  z: 'the size of z',
  drift: 'the size of the drift',
  failure: 'how long a failure has been open',
  last: 'days since the last run',
  due: 'the date of the next run',
};

/** Every analyzer on one page, for whoever looks after all of them. */
export default function FleetScreen() {
  const { logbook, assessments } = useLogbook();
  const failures = useFailures();
  const now = useNow(logbook);
  const zone = localZone();
  const [sorting, setSorting] = useState<Sorting | null>(null);
  const page = useMemo(
    () => buildFleet(logbook, assessments, openFailures(failures), now, zone),
    [logbook, assessments, failures, now, zone],
  );
  const rows = useMemo(() => sortFleet(page.rows, sorting), [page, sorting]);
  return (
    <OnePage>
      <div className="stack stack--loose">
        <div className="stack">
          <div className="line line--baseline">
            <h1>Fleet</h1>
            <Link href={commonHref()}>Days and technologists compared</Link>
          </div>
          <p>{page.summary}</p>
        </div>
        {page.rows.length === 0 ? (
          <p>
            Here will stand every analyzer with its last runs.{' '}
            <Link href="/equipment">Add an analyzer under Equipment</Link>
          </p>
        ) : (
          <div className="stack">
            <p aria-live="polite" className="line line--baseline small">
              <span>
                Sorted by {sorting === null ? 'what needs attention' : columnWords[sorting.column]}.
              </span>
              {sorting === null ? null : (
                <button data-weight="line" onClick={() => setSorting(null)} type="button">
                  Sort by what needs attention
                </button>
              )}
            </p>
            <FleetTable onSort={setSorting} rows={rows} sorting={sorting} />
            <p className="small quiet">
              Each chart: the z that a run had on its day. Pale band: own ±2 SD; thin edges: ±3 SD. A run
              beyond 4 SD stands at the edge, one without own limits under the band; a line is broken where a
              new baseline began. Drift: the weighted average of the runs, with the weight of the policy in
              force; it leans from half of its limit on and has moved beyond it.
            </p>
            <TermLine ids={['z', 'own-limits', 'rule EWMA', 'failure']} />
          </div>
        )}
        {page.retired > 0 ? (
          <p className="small quiet">
            {counted(page.retired, 'retired analyzer', 'retired analyzers')} left out:{' '}
            <Link href="/charts">under Charts</Link> their runs are still to be seen.
          </p>
        ) : null}
      </div>
    </OnePage>
  );
}
