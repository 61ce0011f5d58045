import type { RefObject } from 'react';
import { Link } from 'wouter';
import { useLogbook } from '../logbookContext.tsx';
import { RunLink, RunVerdict, TechnologistOf } from '../parts/runInTable.tsx';
import { investigationHref, todayHref } from '../routes.ts';
import type { RunStart } from '../startRun.ts';
import type { TodayLine } from './buildToday.ts';
import type { ControlFailureLine } from './controlFailureLines.ts';
import { SharedLines } from './sharedLines.tsx';
import { StateMark } from './stateMark.tsx';

/** One analyzer: what it is in, since or by when, how the last run came out, and what to do. */
export function AnalyzerLine({
  line,
  isChosen,
  keysAreOn,
  startRef,
  onStart,
}: {
  line: TodayLine;
  /** Its checks stand on the right page. */
  isChosen: boolean;
  keysAreOn: boolean;
  /** The button that takes the focus, on the line that has it. */
  startRef: RefObject<HTMLButtonElement | null> | undefined;
  onStart: (run: RunStart) => void;
}) {
  const { analyzerId, name, place, state, sentences, start, digit, isOutOfService, failedRunId, others } =
    line;
  const key = keysAreOn && digit !== null ? String(digit) : undefined;
  return (
    <li className="ledger__line" data-state={state}>
      <div className="ledger__key">{key ? <kbd>{key}</kbd> : null}</div>
      <div className="ledger__state">
        <StateMark size={18} state={state} />
      </div>
      <div className="ledger__what">
        <h2 className="ledger__name">
          <Link aria-current={isChosen ? 'true' : undefined} href={todayHref(analyzerId)}>
            {name}
          </Link>{' '}
          {place === '' ? null : <span className="quiet small">{place}</span>}
        </h2>
        {sentences.map((sentence) => (
          <p key={sentence}>{sentence}</p>
        ))}
        {line.lacksPatientTest ? <p>Four weeks without the patient test: only the built-in routine</p> : null}
        <LastRun line={line} />
      </div>
      <div className="ledger__do">
        {start ? (
          <button
            aria-keyshortcuts={key}
            data-weight={state === 'later' || state === 'soon' ? undefined : 'main'}
            onClick={() => onStart(start.run)}
            ref={startRef}
            type="button"
          >
            {start.words}
            {state === 'failing' ? (
              <>
                {' '}
                <span className="for-readers">on {name}</span>
              </>
            ) : null}
          </button>
        ) : null}
        {failedRunId ? <Link href={investigationHref(failedRunId)}>Look into it</Link> : null}
        {isOutOfService ? <Link href={`/equipment/analyzer/${analyzerId}`}>Put back in service…</Link> : null}
      </div>
      <ControlFailures lines={line.controlFailures} />
      <SharedLines lines={others} />
    </li>
  );
}

function ControlFailures({ lines }: { lines: readonly ControlFailureLine[] }) {
  if (lines.length === 0) return null;
  return (
    <ul className="check-list check-list--plain">
      {lines.map(({ key, sentence, href, enterHref }) => (
        <li key={key}>
          <StateMark state="failing" />
          <span>
            {sentence} <Link href={enterHref}>Enter another</Link>
          </span>
          <Link href={href}>
            Look into it<span className="for-readers">: {sentence}</span>
          </Link>
        </li>
      ))}
    </ul>
  );
}

function LastRun({ line: { lastRun } }: { line: TodayLine }) {
  const { logbook, assessments } = useLogbook();
  if (lastRun === null) return <p className="quiet">No run yet</p>;
  const { technologists } = logbook;
  return (
    <p className="quiet ledger__last">
      Last run <RunLink run={lastRun} technologists={technologists} />
      {', '}
      <TechnologistOf run={lastRun} technologists={technologists} />{' '}
      <RunVerdict assessments={assessments} run={lastRun} />
    </p>
  );
}
