import { useId, useState } from 'react';
import { Link, useLocation } from 'wouter';
import { type Closing, closingOf } from '../closing.ts';
import { closedFrom, type Failure } from '../failures.ts';
import { useLogbook } from '../logbookContext.tsx';
import { TextAreaField } from '../parts/field.tsx';
import { RecordForm, type Submission } from '../parts/recordForm.tsx';
import { SaveLine } from '../parts/saveLine.tsx';
import { SigningFields } from '../parts/signing.tsx';
import { useSave } from '../parts/useSave.ts';
import { useSigning } from '../parts/useSigning.ts';
import { useWriter } from '../parts/useWriter.ts';
import { WrittenBy } from '../parts/writtenBy.tsx';
import { type ClosedTogether, closingEntry } from './closingEntry.ts';
import { missingSentences } from './closingSteps.ts';
import { failureAddress } from './failureAddress.ts';
import { keyOf, nameOf, WithOthers } from './withOthers.tsx';

/** As long as a step is missing there is nothing to fill in: what is missing stands in its place. */
export function StillMissing({ closing }: { closing: Closing }) {
  const listId = useId();
  return (
    <>
      <h2>Close it</h2>
      <div className="stack" id={listId}>
        <p>It cannot be closed yet:</p>
        <ul className="missing-list">
          {missingSentences(closing).map((sentence) => (
            <li key={sentence}>{sentence}</li>
          ))}
        </ul>
      </div>
      <div className="line">
        <button aria-describedby={listId} data-weight="main" disabled type="button">
          Close failure
        </button>
      </div>
      <p className="quiet small">
        <Link href="/laboratory/closing">What a closure needs</Link> is set under Laboratory.
      </p>
    </>
  );
}

/** A supervisor closes a failure, and with it any other of the analyzer that has come as far. */
export function CloseForm({
  failure,
  closing,
  others,
  analyzerLabel,
}: {
  failure: Failure;
  closing: Closing;
  /** The other open failures of the analyzer. */
  others: readonly Failure[];
  analyzerLabel: string;
}) {
  const [, goTo] = useLocation();
  const { logbook, assessments } = useLogbook();
  const { id: by, canWrite } = useWriter('supervisor');
  const signing = useSigning(by, canWrite);
  const [typed, setTyped] = useState({ cause: '', reason: '', withThese: [] as readonly string[] });
  const [tried, setTried] = useState(false);
  const { saving, save } = useSave();
  const reason = typed.reason.trim();
  const cause = typed.cause.trim();
  const companions = others.map((other) => ({
    failure: other,
    closing: closingOf(other, { logbook, assessments }),
  }));
  const closed: readonly ClosedTogether[] = [
    { failure, closing },
    ...companions.filter(
      (other) => other.closing.missing.length === 0 && typed.withThese.includes(keyOf(other.failure)),
    ),
  ];
  const isWhole = reason !== '' && cause !== '';

  const submit = async (): Promise<Submission> => {
    setTried(true);
    const sign = signing.take();
    if (!isWhole || sign === null) return 'stopped';
    // The bare address shows the first failure that is open: another one, as soon as this one is closed.
    goTo(failureAddress(failure), { replace: true });
    // Not before the runs that prove it, which a clock or a slip may have dated ahead.
    const provenAt = closed.flatMap((one) => one.closing.proof.runs.map(({ body }) => body.madeAt));
    const closedAt = closedFrom(
      closed.map((one) => one.failure),
      [new Date().toISOString(), ...provenAt].sort().at(-1) ?? '',
    );
    const written = await save([typed, by, signing.revision], () =>
      sign([closingEntry(closed, { cause, reason, closedAt, by })]),
    );
    if (written) signing.clear();
    return 'tried';
  };

  return (
    <RecordForm onSubmit={submit} opens={false} title="Close it">
      <p>
        From then on the runs of {analyzerLabel} are judged afresh: patterns start anew, the baseline stays.
        The failure and all its runs stay in the logbook.
      </p>
      <TextAreaField
        error={tried && cause === '' ? 'Say what the cause was, or that none was found.' : undefined}
        label="What the cause was"
        onText={(text) => setTyped({ ...typed, cause: text })}
        required
        value={typed.cause}
      />
      <TextAreaField
        error={
          tried && reason === ''
            ? 'Say why the analyzer can be trusted again: the run that proves it, for example.'
            : undefined
        }
        label="Why it may be closed"
        onText={(text) => setTyped({ ...typed, reason: text })}
        required
        value={typed.reason}
      />
      <WithOthers
        label={(name) => `Close ${name}, with it`}
        onTicked={(withThese) => setTyped({ ...typed, withThese })}
        others={companions.map((other) =>
          other.closing.missing.length === 0
            ? { failure: other.failure }
            : {
                failure: other.failure,
                refused: `Not yet, ${nameOf(other.failure)}: ${missingSentences(other.closing).join(' ')}`,
              },
        )}
        ticked={typed.withThese}
      />
      <WrittenBy only="supervisor" tried={tried} />
      <SigningFields signing={signing} />
      <SaveLine
        action="Close failure"
        saving={saving}
        trouble={
          tried && (!isWhole || !canWrite || signing.isMarked)
            ? 'Not closed yet: see the marked fields.'
            : undefined
        }
      />
    </RecordForm>
  );
}
