import { Link } from 'wouter';
import { controlHref } from '../deskRoutes.ts';
import { counted, day } from '../parts/figures.ts';
import { runHref } from '../routes.ts';
import type { ReadTogether } from './sameDays.ts';

const shownDays = 12;

/** What the tests and the same days' simulations say together, where that is more than that all is as usual. */
export function BesideSimulations({ together: { groups, usual, judged } }: { together: ReadTogether }) {
  return (
    <section aria-labelledby="beside-the-simulations" className="stack group">
      <h2 id="beside-the-simulations">Beside the simulations</h2>
      <p>
        {judged === 0
          ? 'No test could be held against a simulation of its day yet: both must have own limits, or lie beyond a published one.'
          : `Person and syringe were both as usual on ${usual} of the ${counted(judged, 'day')} on which both could be judged.`}
      </p>
      {groups.map(({ id, says, next, days }) => (
        <div className="stack" key={id}>
          <p>
            <strong>{says}</strong> {next}
          </p>
          <ul className="beside__days">
            {days.slice(0, shownDays).map(({ logged, run }) => (
              <li key={logged.id}>
                <Link href={controlHref(logged.id)}>{day(logged.at, logged.entry.zone)}</Link> (
                <Link href={runHref(run.id)}>simulation</Link>)
              </li>
            ))}
          </ul>
          {days.length > shownDays ? (
            <p className="quiet">And {counted(days.length - shownDays, 'day')} before.</p>
          ) : null}
        </div>
      ))}
    </section>
  );
}
