import { Link } from 'wouter';
import { LineState } from '../charting/lineState.tsx';
import { fleetHref } from '../deskRoutes.ts';
import type { AnalyzerLines, SeriesLine } from './buildSeriesList.ts';

/** The left page: analyzers, and under each its series with the state of the last run. */
export function SeriesList({
  groups,
  shown,
}: {
  groups: readonly AnalyzerLines[];
  shown: SeriesLine | undefined;
}) {
  const inUse = groups.filter(({ retired }) => !retired);
  const retired = groups.filter((group) => group.retired);
  return (
    <nav aria-label="Series" className="stack stack--loose">
      <div className="line line--baseline line--apart">
        <h2>Analyzers</h2>
        {groups.length === 0 ? null : <Link href={fleetHref}>All on one page</Link>}
      </div>
      {groups.length === 0 ? <p className="quiet">Here will stand each analyzer with its last run.</p> : null}
      {inUse.map((group) => (
        <AnalyzerGroup group={group} key={group.analyzerId} shown={shown} />
      ))}
      {retired.length > 0 ? (
        <div className="group stack stack--loose">
          <h2>Retired</h2>
          {retired.map((group) => (
            <AnalyzerGroup group={group} key={group.analyzerId} shown={shown} />
          ))}
        </div>
      ) : null}
    </nav>
  );
}

function AnalyzerGroup({ group, shown }: { group: AnalyzerLines; shown: SeriesLine | undefined }) {
  return (
    <section className="stack series-group">
      <h3>{group.label}</h3>
      <ul className="choose-list">
        {group.lines.map((line) => (
          <li key={line.path}>
            <Link aria-current={line.path === shown?.path ? 'true' : undefined} href={line.path}>
              <LineState
                below={line.since}
                figure={<span className="series-line__z">{line.z}</span>}
                line={line}
              />
            </Link>
          </li>
        ))}
      </ul>
    </section>
  );
}
