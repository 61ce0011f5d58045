import { useEffect, useRef } from 'react';
import { Link } from 'wouter';
import type { LoggedControl } from '../../journal/logbook.ts';
import { formerTexts, initialsIn } from '../amendments.ts';
import { contentsOf } from '../controlAsWritten.ts';
import { subjectHref } from '../deskRoutes.ts';
import { useLogbook } from '../logbookContext.tsx';
import { SignOffOfControl } from '../parts/changedAfterSignOff.tsx';
import { FigureList } from '../parts/figureList.tsx';
import { dayAndTime } from '../parts/figures.ts';
import { Notice } from '../parts/notice.tsx';
import { Corrected, Struck } from '../parts/struck.tsx';
import { investigationHref } from '../routes.ts';
import { ChartLinks } from './chartLinks.tsx';
import { ControlActions } from './controlActions.tsx';
import { controlTexts } from './controlTexts.ts';
import { fieldsOfControl } from './describeControl.ts';
import { OpenFailuresOf } from './failureOfControl.tsx';

/** The left page: every field of the control, what was corrected struck through beside what stands, and what can be done. */
export function ControlAsItStands({
  logged,
  takesFocus,
  onAmend,
  onSaved,
}: {
  logged: LoggedControl;
  /** True where a form that was left stood in its place: the reader is taken back to what it was about. */
  takesFocus: boolean;
  onAmend: () => void;
  /** `done`: what became of it, in a sentence. */
  onSaved: (done: string) => void;
}) {
  const { logbook } = useLogbook();
  const { control, entry, voided, setAside } = logged;
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    if (takesFocus) heading.current?.focus();
  }, [takesFocus]);
  const analyzer = logbook.analyzers.get(control.analyzerId)?.description.label ?? 'an unknown analyzer';
  const by = (done: { by: string; at: string }) =>
    `${initialsIn(logbook.technologists, done.by)}, ${dayAndTime(done.at)}`;
  return (
    <article className="stack stack--loose">
      <header className="stack">
        <h1 ref={heading} tabIndex={-1}>
          {controlTexts[control.kind].title} of {dayAndTime(control.madeAt, entry.zone)}, {analyzer}
        </h1>
        <ChartLinks control={control} />
        <Belongings logged={logged} />
        <OpenFailuresOf controlId={logged.id} />
        <SignOffOfControl logged={logged} />
      </header>
      {voided === null && setAside !== null ? (
        <Notice title={`Set aside by ${by(setAside)}`} tone="warn">
          <p>{setAside.reason}</p>
          <p>It stands as it was written, and counts in no mean and no pattern.</p>
        </Notice>
      ) : null}
      {voided === null ? (
        <ControlActions
          logged={logged}
          onAmend={onAmend}
          onLeft={() => heading.current?.focus()}
          onSaved={onSaved}
        />
      ) : (
        <Notice title={`Voided by ${by(voided)}`} tone="warn">
          <p>{voided.reason}</p>
          <p>What is voided cannot be amended. If it counts after all, record it anew with its own date.</p>
        </Notice>
      )}
      <FigureList rows={rowsOf(logged, logbook)} />
    </article>
  );
}

function rowsOf(logged: LoggedControl, logbook: Parameters<typeof fieldsOfControl>[1]) {
  const contents = contentsOf(logged);
  const { control, amendments, voided, entry } = logged;
  return fieldsOfControl(control.kind, logbook, entry.zone)
    .filter(({ write }) => contents.some((content) => write(content) !== '–'))
    .map(({ name, write }) => ({
      name,
      value: (
        <Corrected former={formerTexts(amendments, logbook.technologists, contents.map(write))}>
          <Struck isStruck={voided !== null}>{write(control)}</Struck>
        </Corrected>
      ),
    }));
}

/** The person tested, and the run whose failure it looks into. */
function Belongings({ logged: { control } }: { logged: LoggedControl }) {
  const { logbook } = useLogbook();
  const subject = control.kind === 'biological' ? logbook.subjects.get(control.subjectId) : undefined;
  const { investigates } = control;
  const run = logbook.runs.find(({ id }) => id === investigates?.runId);
  return (
    <>
      {subject === undefined ? null : (
        <p className="quiet">
          Subject: <Link href={subjectHref(subject.id)}>{subject.description.code}</Link>
        </p>
      )}
      {run === undefined ? null : (
        <p>
          Part of the{' '}
          <Link href={investigationHref(run.id)}>
            investigation of {dayAndTime(run.body.madeAt, run.entry.zone)}
          </Link>
        </p>
      )}
    </>
  );
}
