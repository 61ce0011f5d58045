import { useLogbook } from '../logbookContext.tsx';
import { RunLink, RunVerdict } from '../parts/runInTable.tsx';
import { routeWords } from '../parts/words.ts';
import type { BesideLine } from './controlFailureWords.ts';

/** The syringe on the same days, and what a person and a syringe say together: the first thing to look at. */
export function BesideSimulations({
  lines,
  isOfPerson,
}: {
  lines: readonly BesideLine[];
  isOfPerson: boolean;
}) {
  const { logbook, assessments } = useLogbook();
  const newest = lines.findLast(({ says }) => says !== '');
  return (
    <section className="stack group">
      <h2>Beside the simulations</h2>
      {lines.length === 0 ? (
        <p className="quiet">
          No simulation was made on any of these days. Run the syringe and enter{' '}
          {isOfPerson ? 'a control' : 'a session'} on one day: together they tell more than each alone.
        </p>
      ) : null}
      {newest === undefined ? null : (
        <>
          <p>{newest.says}</p>
          {newest.next === '' ? null : <p>{newest.next}</p>}
        </>
      )}
      <ul className="proof-list">
        {lines.map(({ key, run, says }) => (
          <li className="line line--baseline" key={key}>
            <RunVerdict assessments={assessments} run={run} />
            <span>
              {routeWords[run.body.route]}, <RunLink run={run} technologists={logbook.technologists} />{' '}
              {says === '' || says === newest?.says ? null : <span className="quiet small">{says}</span>}
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}
