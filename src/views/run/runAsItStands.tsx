import { useEffect, useRef, useState } from 'react';
import { Link } from 'wouter';
import type { LoggedRun } from '../../journal/logbook.ts';
import { formerValues, initialsIn } from '../amendments.ts';
import { baselineHref } from '../deskRoutes.ts';
import { quantities } from '../failures.ts';
import { useLogbook } from '../logbookContext.tsx';
import { SignOffOfRun } from '../parts/changedAfterSignOff.tsx';
import { FigureList } from '../parts/figureList.tsx';
import { dayAndTime } from '../parts/figures.ts';
import { Notice } from '../parts/notice.tsx';
import { Corrected, Struck } from '../parts/struck.tsx';
import { TermLine } from '../parts/term.tsx';
import { VoidRun } from '../parts/voidRun.tsx';
import { quantityWords } from '../parts/words.ts';
import { seriesPath } from '../routes.ts';
import { useRepeatRun } from '../startRun.ts';
import { fieldsOf } from './describeRun.ts';
import { InvestigationOfRun } from './investigationOfRun.tsx';

/** The left page: every field of the run, what was corrected struck through beside what stands, and what can be done. */
export function RunAsItStands({
  run,
  takesFocus,
  onAmend,
  onVoided,
}: {
  run: LoggedRun;
  /** True where a form that was left stood in its place: the reader is taken back to what it was about. */
  takesFocus: boolean;
  onAmend: () => void;
  onVoided: () => void;
}) {
  const { logbook } = useLogbook();
  const { body, entry, voided } = run;
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    if (takesFocus) heading.current?.focus();
  }, [takesFocus]);
  const when = dayAndTime(body.madeAt, entry.zone);
  const analyzer = logbook.analyzers.get(body.analyzerId)?.description.label ?? 'an unknown analyzer';
  return (
    <article className="stack stack--loose">
      <header className="stack">
        <h1 ref={heading} tabIndex={-1}>
          Run of {when}, {analyzer}
        </h1>
        <p className="quiet">
          Its charts:{' '}
          {quantities.map((quantity) => (
            <span key={quantity}>
              <Link href={seriesPath({ ...body, quantity })}>{quantityWords[quantity]}</Link>{' '}
            </span>
          ))}
        </p>
        <InvestigationOfRun run={run} />
        <SignOffOfRun run={run} />
      </header>
      {voided === null && run.setAside !== null ? <IsSetAside run={run} setAside={run.setAside} /> : null}
      {voided ? (
        <Notice
          title={`Voided by ${initialsIn(logbook.technologists, voided.by)}, ${dayAndTime(voided.at)}`}
          tone="warn"
        >
          <p>{voided.reason}</p>
          <p>A voided run cannot be amended. If it counts after all, record it anew with its own date.</p>
        </Notice>
      ) : (
        <Actions
          onAmend={onAmend}
          onLeft={() => heading.current?.focus()}
          onVoided={onVoided}
          run={run}
          when={when}
        />
      )}
      <FigureList rows={rowsOf(run, logbook)} />
      <TermLine ids={['route', 'conversion', 'dead-space']} />
    </article>
  );
}

/** It stands as it is, and no mean or pattern holds it. */
function IsSetAside({ run, setAside }: { run: LoggedRun; setAside: NonNullable<LoggedRun['setAside']> }) {
  const { logbook } = useLogbook();
  return (
    <Notice
      title={`Set aside by ${initialsIn(logbook.technologists, setAside.by)}, ${dayAndTime(setAside.at)}`}
      tone="warn"
    >
      <p>{setAside.reason}</p>
      <p>
        It counts in no mean and no pattern. A supervisor takes it back in where its baseline is looked at:{' '}
        {quantities.map((quantity) => (
          <span key={quantity}>
            <Link href={baselineHref({ ...run.body, quantity })}>{quantityWords[quantity]}</Link>{' '}
          </span>
        ))}
      </p>
    </Notice>
  );
}

function rowsOf(run: LoggedRun, logbook: Parameters<typeof fieldsOf>[0]) {
  return fieldsOf(logbook, run.entry.zone).map(({ name, write }) => ({
    name,
    value: (
      <Corrected former={formerValues(run, logbook.technologists, ({ content }) => write(content))}>
        <Struck isStruck={run.voided !== null}>{write(run.body)}</Struck>
      </Corrected>
    ),
  }));
}

function Actions({
  run,
  when,
  onAmend,
  onLeft,
  onVoided,
}: {
  run: LoggedRun;
  when: string;
  onAmend: () => void;
  onLeft: () => void;
  onVoided: () => void;
}) {
  const [isVoiding, setVoiding] = useState(false);
  const repeat = useRepeatRun();
  if (isVoiding) {
    return (
      <div className="group">
        <VoidRun
          onClose={() => {
            setVoiding(false);
            onLeft();
          }}
          onSaved={onVoided}
          runId={run.id}
          when={when}
        />
      </div>
    );
  }
  return (
    <div className="line">
      <button onClick={onAmend} type="button">
        Amend…
      </button>
      <button onClick={() => repeat(run)} type="button">
        Repeat this run
      </button>
      <button onClick={() => setVoiding(true)} type="button">
        Void…
      </button>
    </div>
  );
}
