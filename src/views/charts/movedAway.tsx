import type { Logbook, LoggedRun } from '../../journal/logbook.ts';
import { stagesOf } from '../amendments.ts';
import type { ChartSeries } from '../charting/runSeries.ts';
import { useLogbook } from '../logbookContext.tsx';
import { RunLink } from '../parts/runInTable.tsx';
import { Struck } from '../parts/struck.tsx';
import { routeWords } from '../parts/words.ts';

/** Runs that once stood in this series and that an amendment has put into another: gone from it, but not without a word. */
export function MovedAway({ series }: { series: ChartSeries }) {
  const { logbook } = useLogbook();
  const runs = runsMovedAway(logbook, series);
  if (runs.length === 0) return null;
  return (
    <section aria-label="Moved to another series" className="stack">
      <h2>Moved to another series by an amendment</h2>
      <ul className="moved-away">
        {runs.map((run) => (
          <li key={run.id}>
            <Struck>
              <RunLink run={run} technologists={logbook.technologists} />
            </Struck>{' '}
            now stands under {logbook.analyzers.get(run.body.analyzerId)?.description.label ?? 'unknown'},{' '}
            {routeWords[run.body.route].toLowerCase()}
          </li>
        ))}
      </ul>
    </section>
  );
}

export function runsMovedAway(
  { runs }: Pick<Logbook, 'runs'>,
  { analyzerId, method, route }: Pick<ChartSeries, 'analyzerId' | 'method' | 'route'>,
): LoggedRun[] {
  const isHere = (content: Pick<ChartSeries, 'analyzerId' | 'method' | 'route'>) =>
    content.analyzerId === analyzerId && content.method === method && content.route === route;
  return runs.filter(
    (run) =>
      run.amendments.length > 0 && !isHere(run.body) && stagesOf(run).some(({ content }) => isHere(content)),
  );
}
