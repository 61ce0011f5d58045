import type { LoggedControl } from '../../journal/logbook.ts';
import { judgedAsWritten } from '../controlAsWritten.ts';
import { TextAreaField } from '../parts/field.tsx';
import { dayAndTime } from '../parts/figures.ts';
import { Notice } from '../parts/notice.tsx';
import { RecordForm } from '../parts/recordForm.tsx';
import { SaveLine } from '../parts/saveLine.tsx';
import { Spread } from '../parts/spread.tsx';
import { VerdictBadge } from '../parts/verdictMark.tsx';
import { WhatChanges } from '../parts/whatChanges.tsx';
import { WrittenBy } from '../parts/writtenBy.tsx';
import { Questions } from '../runForm/questions.tsx';
import { controlTexts } from './controlTexts.ts';
import { ControlVerdict } from './controlVerdict.tsx';
import { FailureItOpened } from './failureOfControl.tsx';
import { FieldsOfControl } from './fieldsOfControl.tsx';
import { type ControlAmendment, useControlAmendment } from './useControlAmendment.ts';

/** A control is put right: its fields as they were typed on the left, what that changes on the right. */
export function AmendControl({
  logged,
  onSaved,
  onClose,
}: {
  logged: LoggedControl;
  onSaved: () => void;
  onClose: () => void;
}) {
  const amendment = useControlAmendment(logged, onSaved);
  return (
    <Spread
      left={<AmendForm amendment={amendment} logged={logged} onClose={onClose} />}
      right={<Preview amendment={amendment} logged={logged} />}
    />
  );
}

function AmendForm({
  logged,
  amendment,
  onClose,
}: {
  logged: LoggedControl;
  amendment: ControlAmendment;
  onClose: () => void;
}) {
  const { form, reason, setReason, amend, saving } = amendment;
  const { made } = controlTexts[logged.control.kind];
  const when = dayAndTime(logged.control.madeAt, logged.entry.zone);
  return (
    <RecordForm
      heading="h1"
      onSubmit={() => amend(false)}
      title={`Amend the ${made.toLowerCase()} of ${when}`}
    >
      {amendment.isOvertaken ? (
        <Notice title="It was amended elsewhere since the form was opened." tone="warn">
          <p>What you typed stays. See under “What changes” what it would do to it as it now stands.</p>
        </Notice>
      ) : null}
      <p>
        What it says now stays visible, struck through, and so does the verdict of its day. Those after it are
        judged again by the amended values; their own verdicts of the day stay.
      </p>
      <FieldsOfControl form={form} />
      <div className="stack group">
        <TextAreaField
          error={form.tried && reason.trim() === '' ? 'Say why it is amended.' : undefined}
          label="Reason for the amendment"
          onText={setReason}
          required
          value={reason}
        />
        <WrittenBy tried={form.tried} />
      </div>
      {form.asking.length > 0 ? (
        <Questions
          asking={form.asking}
          onBack={() => form.setAsking([])}
          onYes={() => void amend(true)}
          title="Before this is amended"
          yes="Yes, amend it"
        />
      ) : (
        <SaveLine
          action={`Amend ${made.toLowerCase()}`}
          onCancel={onClose}
          saving={saving}
          trouble={troubleWith(logged, amendment)}
        />
      )}
    </RecordForm>
  );
}

function troubleWith(
  { voided }: LoggedControl,
  { form, changes, isChanged, reason }: ControlAmendment,
): string | undefined {
  if (voided !== null) return 'It was voided meanwhile: what is voided cannot be amended.';
  if (!form.tried) return undefined;
  if (changes !== null && !isChanged) return 'Nothing is changed: there is nothing to amend.';
  const isIncomplete = form.reading.control === null || Object.keys(form.reading.missing).length > 0;
  return isIncomplete || reason.trim() === '' ? 'Nothing is written yet: see the marked fields.' : undefined;
}

function Preview({ logged, amendment }: { logged: LoggedControl; amendment: ControlAmendment }) {
  const { form, changes } = amendment;
  const { word, establishing } = judgedAsWritten(logged);
  return (
    <div className="stack stack--loose">
      <FailureItOpened controlId={logged.id} />
      <WhatChanges changes={changes} />
      <section aria-label="Verdict as amended" className="stack group">
        <p className="quiet">
          It stands as <VerdictBadge establishing={establishing} word={word} />. With what is typed, not
          written yet:
        </p>
        {form.assessment === null || form.reading.control === null ? (
          <p className="quiet">No verdict yet.</p>
        ) : (
          <ControlVerdict assessment={form.assessment} control={form.reading.control} logged={logged} />
        )}
      </section>
    </div>
  );
}
