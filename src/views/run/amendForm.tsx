import { type FormEvent, useId, useRef } from 'react';
import type { LoggedRun } from '../../journal/logbook.ts';
import { TextAreaField } from '../parts/field.tsx';
import { dayAndTime } from '../parts/figures.ts';
import { focusFirstInvalid, useFocusWhenOpened } from '../parts/formFocus.ts';
import { Notice } from '../parts/notice.tsx';
import { ReadOnlyNote } from '../parts/readOnlyNote.tsx';
import { SaveLine } from '../parts/saveLine.tsx';
import { WrittenBy } from '../parts/writtenBy.tsx';
import { Questions } from '../runForm/questions.tsx';
import { RunFields } from '../runForm/runFields.tsx';
import type { Amendment } from './useAmendment.ts';

/** The left page while a run is amended: its fields as they were typed, why they are put right, and by whom. */
export function AmendForm({
  run,
  amendment,
  onClose,
}: {
  run: LoggedRun;
  amendment: Amendment;
  onClose: () => void;
}) {
  const { form: fields, reason, setReason, tried, amend } = amendment;
  const titleId = useId();
  const form = useRef<HTMLFormElement>(null);
  useFocusWhenOpened(form);

  const submit = (event: FormEvent) => {
    event.preventDefault();
    void amend(false).then(() => focusFirstInvalid(form.current));
  };

  return (
    <form
      aria-labelledby={titleId}
      className="stack stack--loose run-form focus-stop"
      noValidate
      onSubmit={submit}
      ref={form}
      tabIndex={-1}
    >
      <h1 id={titleId}>Amend the run of {dayAndTime(run.body.madeAt, run.entry.zone)}</h1>
      <ReadOnlyNote />
      {amendment.isOvertaken ? (
        <Notice title="This run was amended elsewhere since the form was opened." tone="warn">
          <p>What you typed stays. See under “What changes” what it would do to the run as it now stands.</p>
        </Notice>
      ) : null}
      <p>
        What it says now stays visible, struck through, and so does the verdict of its day. The runs after it
        are judged again by the amended values; their own verdicts of the day stay.
      </p>
      <RunFields form={fields} />
      <div className="stack group">
        <TextAreaField
          error={tried && reason.trim() === '' ? 'Say why it is amended.' : undefined}
          label="Reason for the amendment"
          onText={setReason}
          required
          value={reason}
        />
        <WrittenBy tried={tried} />
      </div>
      <Foot amendment={amendment} onClose={onClose} run={run} />
    </form>
  );
}

function Foot({ run, amendment, onClose }: { run: LoggedRun; amendment: Amendment; onClose: () => void }) {
  const { asking, stopAsking, amend, saving } = amendment;
  if (asking.length > 0) {
    return (
      <Questions
        asking={asking}
        onBack={stopAsking}
        onYes={() => void amend(true)}
        title="Before this is amended"
        yes="Yes, amend it"
      />
    );
  }
  return (
    <SaveLine action="Amend run" onCancel={onClose} saving={saving} trouble={troubleWith(run, amendment)} />
  );
}

function troubleWith(run: LoggedRun, { tried, isReady, changes, isChanged }: Amendment): string | undefined {
  if (run.voided !== null) return 'It was voided meanwhile: a voided run cannot be amended.';
  if (!tried || isReady) return undefined;
  return changes !== null && !isChanged
    ? 'Nothing is changed: there is nothing to amend.'
    : 'Nothing is written yet: see the marked fields.';
}
