import { useMemo } from 'react';
import { Link } from 'wouter';
import { controlHeading } from '../charting/controlHeading.ts';
import { controlsOfSeries } from '../charting/controlSeries.ts';
import type { ControlFailure } from '../controlAssessments.ts';
import { controlFailureHref, controlSeriesHref, newControlHref } from '../deskRoutes.ts';
import { useLogbook } from '../logbookContext.tsx';
import { ControlLink } from '../parts/controlInTable.tsx';
import { FigureList } from '../parts/figureList.tsx';
import { counted, dayAndTime } from '../parts/figures.ts';
import { TermLine } from '../parts/term.tsx';
import { useControlAssessments } from '../useControlAssessments.ts';
import { BesideSimulations } from './besideSimulations.tsx';
import { ControlCloseForm } from './controlCloseForm.tsx';
import { ControlEnded } from './controlEnded.tsx';
import {
  besideLines,
  formerFailures,
  formerSentence,
  itemsOf,
  nouns,
  openingSentences,
  passingSince,
} from './controlFailureWords.ts';
import { ControlsMeanwhile } from './controlsMeanwhile.tsx';
import { eventsDuring } from './eventsDuring.ts';

/** One failure of a person's or a simulator's series: what opened it, what the syringe said on those days, and how it ends. */
export function ControlFailureStory({
  failure,
  failures,
}: {
  failure: ControlFailure;
  failures: readonly ControlFailure[];
}) {
  const { logbook, assessments } = useLogbook();
  const controls = useControlAssessments();
  const { analyzerId, series, openedBy, ended } = failure;
  const { items, scale } = useMemo(
    () => controlsOfSeries(logbook, controls, { analyzerId, series }),
    [logbook, controls, analyzerId, series],
  );
  const beside = useMemo(
    () => besideLines(failure, { logbook, assessments, controls }),
    [failure, logbook, assessments, controls],
  );
  const lying = itemsOf(failure, items);
  const passing = passingSince(lying);
  const [opening] = lying;
  const { one, many } = nouns[series.kind];
  const former = formerFailures(failure, failures);
  const until = ended === null ? null : ended.by === 'closure' ? ended.closure.body.closedAt : ended.from;
  const events = eventsDuring({ analyzerId, from: openedBy.control.madeAt, until }, logbook);
  return (
    <article className="stack stack--loose">
      <header className="stack">
        <h1>{controlHeading(failure, logbook)}</h1>
        <p className="quiet">
          Opened by the {one} of <ControlLink logged={openedBy} />.{' '}
          <Link href={controlSeriesHref(analyzerId, series)}>Its chart</Link>
        </p>
        <TermLine ids={['failure']} />
      </header>
      <section className="stack">
        <h2>What opened it</h2>
        {opening === undefined ? (
          <p className="quiet">Its numbers cannot be: see Records.</p>
        ) : (
          openingSentences(opening, series, scale).map((sentence) => <p key={sentence}>{sentence}</p>)
        )}
      </section>
      <BesideSimulations isOfPerson={series.kind === 'biological'} lines={beside} />
      <ControlsMeanwhile items={lying} noun={many} scale={scale} />
      {events.length > 0 ? (
        <section className="stack group">
          <h2>Events meanwhile</h2>
          <FigureList rows={events.map(({ at, sentence }) => ({ name: dayAndTime(at), value: sentence }))} />
        </section>
      ) : null}
      {former.length > 0 ? (
        <section className="stack group">
          <h2>Earlier failures of this series</h2>
          <ul className="plain-list">
            {former.map((other) => (
              <li key={other.openedBy.id}>
                <Link href={controlFailureHref(other.openedBy.id, other.series)}>
                  {formerSentence(other)}
                </Link>
              </li>
            ))}
          </ul>
        </section>
      ) : null}
      {ended === null || passing.length > 0 ? (
        <section className="stack group">
          <h2>Proof</h2>
          <p>
            {passing.length === 0
              ? `No ${one} has passed since the last that failed.`
              : `${counted(passing.length, `passing ${one}`, `passing ${many}`)} since the last that failed.`}
          </p>
          {ended === null ? (
            <p>
              <Link href={newControlHref(series.kind, analyzerId)}>
                {series.kind === 'biological' ? 'Enter a biological control' : 'Enter a simulator session'}
              </Link>
            </p>
          ) : null}
        </section>
      ) : null}
      <section className="stack group">
        {ended === null ? (
          <ControlCloseForm failure={failure} failures={failures} />
        ) : (
          <ControlEnded ended={ended} />
        )}
      </section>
    </article>
  );
}
