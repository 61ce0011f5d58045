import { type ReactNode, useRef, useState } from 'react';
import { initialsIn } from '../amendments.ts';
import type { Closing } from '../closing.ts';
import type { ClosingWindow } from '../closingWindow.ts';
import type { Failure } from '../failures.ts';
import { useLogbook } from '../logbookContext.tsx';
import { FigureList } from '../parts/figureList.tsx';
import { counted, dayAndTime } from '../parts/figures.ts';
import { Notice } from '../parts/notice.tsx';
import { RunLink } from '../parts/runInTable.tsx';
import { outcomeWords, uncoveredSentence, windowRows } from '../windowWords.ts';
import { ActionForm } from './actionForm.tsx';
import { forgivenSentence, proofSentence } from './closingSteps.ts';
import { LookBackForm } from './lookBackForm.tsx';

/** A part of the story with the form that writes its next entry, which opens in place of its button. */
function Written({
  title,
  action,
  form,
  children,
}: {
  title: string;
  action: string;
  /** Null where nothing is written any more. */
  form: ((onDone: () => void) => ReactNode) | null;
  children: ReactNode;
}) {
  const [isOpen, setOpen] = useState(false);
  const heading = useRef<HTMLHeadingElement>(null);
  const close = () => {
    setOpen(false);
    // The form that had the focus goes: reading goes on with what now stands here.
    heading.current?.focus();
  };
  return (
    <section className="stack group">
      <h2 className="focus-stop" ref={heading} tabIndex={-1}>
        {title}
      </h2>
      {children}
      {form === null ? null : isOpen ? (
        form(close)
      ) : (
        <div className="line">
          <button onClick={() => setOpen(true)} type="button">
            {action}
          </button>
        </div>
      )}
    </section>
  );
}

interface Props {
  failure: Failure;
  /** The other open failures of the analyzer. */
  others: readonly Failure[];
  closing: Closing;
}

export function ActionSection({ failure, others, closing: { actions } }: Props) {
  const { logbook } = useLogbook();
  return (
    <Written
      action="Write down an action…"
      form={
        failure.ended === null
          ? (onDone) => <ActionForm failure={failure} onDone={onDone} others={others} />
          : null
      }
      title="Corrective action"
    >
      {actions.length === 0 ? <p className="quiet">Nothing is written down.</p> : null}
      {actions.map(({ id, body, zone }) => (
        <p key={id}>
          {body.what}{' '}
          <span className="quiet small">
            {dayAndTime(body.doneAt, zone)},{' '}
            {body.technologistId === null
              ? 'by somebody else'
              : `by ${initialsIn(logbook.technologists, body.technologistId)}`}
            {body.part === '' ? '' : `, part ${body.part}`}
          </span>
        </p>
      ))}
    </Written>
  );
}

export function ProofSection({ failure, closing: { proof } }: Omit<Props, 'others'>) {
  const { logbook, assessments } = useLogbook();
  return (
    <section className="stack group">
      <h2>Proof</h2>
      <p>{proofSentence(proof)}</p>
      <p className="quiet small">
        A run counts that lies inside the published limits and own 2 SD and breaks no action rule. What a rule
        says with the help of runs from before the action is no fault of the repair.
      </p>
      {proof.runs.length === 0 ? null : (
        <ul className="proof-list">
          {proof.runs.map((run) => (
            <li key={run.id}>
              <RunLink run={run} technologists={logbook.technologists} />{' '}
              <span className="quiet small">
                {forgivenSentence(assessments.get(run.id), failure.series.quantity)}
              </span>
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}

export function LookBackSection({
  failure,
  others,
  closing: { lookBacks },
  window,
}: Props & { window: ClosingWindow }) {
  const { logbook } = useLogbook();
  const uncovered = uncoveredSentence(
    window,
    lookBacks.map(({ body }) => body),
  );
  return (
    <Written
      action="Write down the review…"
      form={
        failure.ended === null
          ? (onDone) => <LookBackForm failure={failure} onDone={onDone} others={others} window={window} />
          : null
      }
      title="Patient look-back"
    >
      <FigureList rows={windowRows(window, failure.ended === null)} />
      {lookBacks.map(({ id, body, at, zone }) => (
        <p key={id}>
          <strong>{outcomeWords[body.outcome]}</strong>: {dayAndTime(body.from)} to {dayAndTime(body.to)}
          {body.testedCount === null ? '' : `, ${counted(body.testedCount, 'patient')} tested`}
          {body.affectedCount === null ? '' : `, ${body.affectedCount} affected`}.{' '}
          {body.note === '' ? null : `${body.note} `}
          <span className="quiet small">
            Reviewed by {initialsIn(logbook.technologists, body.reviewerId)}, written {dayAndTime(at, zone)}
          </span>
        </p>
      ))}
      {uncovered === null ? null : <Notice title={uncovered} tone="warn" />}
    </Written>
  );
}
