import { useState } from 'react';
import type { ClosingWindow } from '../closingWindow.ts';
import type { Failure } from '../failures.ts';
import { useLogbook } from '../logbookContext.tsx';
import { ChoiceField, choicesOf, IfKnown, InputField, TextAreaField } from '../parts/field.tsx';
import { localMinute } from '../parts/localTime.ts';
import { PersonField } from '../parts/personField.tsx';
import { RecordForm, type Submission } from '../parts/recordForm.tsx';
import { SaveLine } from '../parts/saveLine.tsx';
import { useNow } from '../parts/useNow.ts';
import { useSave } from '../parts/useSave.ts';
import { useWriter } from '../parts/useWriter.ts';
import { WrittenBy } from '../parts/writtenBy.tsx';
import { outcomeWords, uncoveredSentence } from '../windowWords.ts';
import { type LookBackDraft, lookBackEntries, readLookBack } from './readLookBack.ts';
import { keyOf, WithOthers } from './withOthers.tsx';

/** Which results were looked at again, by whom, and what came of it: counts, and no patient. */
export function LookBackForm({
  failure,
  others,
  window,
  onDone,
}: {
  failure: Failure;
  others: readonly Failure[];
  window: ClosingWindow;
  onDone: () => void;
}) {
  const { logbook } = useLogbook();
  const now = useNow(logbook);
  const { id: by, canWrite } = useWriter('supervisor');
  const [draft, setDraft] = useState<LookBackDraft>(() => ({
    from: window.from === null ? '' : localMinute(window.from),
    to: localMinute(window.to),
    reviewerId: '',
    outcome: '',
    tested: '',
    affected: '',
    note: '',
  }));
  const [ticked, setTicked] = useState<readonly string[]>([]);
  const [tried, setTried] = useState(false);
  const { saving, save } = useSave();
  const change = (changes: Partial<LookBackDraft>) => setDraft({ ...draft, ...changes });
  // Whoever writes has usually looked: until somebody else is chosen.
  const typed = { ...draft, reviewerId: draft.reviewerId || (canWrite ? by : '') };
  const reading = readLookBack(typed, now);
  const errors = tried && !reading.ok ? reading.errors : {};
  const uncovered = reading.ok ? uncoveredSentence(window, [reading.description]) : null;

  const submit = async (): Promise<Submission> => {
    setTried(true);
    if (!reading.ok || !canWrite) return 'stopped';
    const about = [failure, ...others.filter((other) => ticked.includes(keyOf(other)))];
    if (await save([draft, ticked, by], () => lookBackEntries(reading.description, about, by))) onDone();
    return 'tried';
  };
  return (
    <RecordForm heading="h3" onSubmit={submit} title="Write down the review">
      <p>
        <strong>No names, numbers or dates of birth here.</strong> How many there were, and what came of it;
        who they are stays in the patients’ own records.
      </p>
      <InputField
        error={errors.from}
        label="Looked at from"
        onText={(from) => change({ from })}
        type="datetime-local"
        value={draft.from}
      />
      <InputField
        error={errors.to}
        label="Up to"
        onText={(to) => change({ to })}
        type="datetime-local"
        value={draft.to}
        warning={uncovered}
      />
      <ChoiceField
        choices={choicesOf(outcomeWords)}
        error={errors.outcome}
        label="Outcome"
        onChoice={(outcome) => change({ outcome })}
        value={draft.outcome}
      />
      {draft.outcome === 'nobody-tested' ? null : (
        <>
          <CountField
            error={errors.tested}
            label="Patients tested"
            onText={(tested) => change({ tested })}
            value={draft.tested}
          />
          <CountField
            error={errors.affected}
            label="Results affected"
            onText={(affected) => change({ affected })}
            value={draft.affected}
          />
        </>
      )}
      <TextAreaField
        hint="How it was done, without anything by which a patient could be known."
        label={<IfKnown>Note</IfKnown>}
        onText={(note) => change({ note })}
        value={draft.note}
      />
      <WithOthers
        label={(name) => `The same tests were looked at for ${name}`}
        onTicked={setTicked}
        others={others.map((other) => ({ failure: other }))}
        ticked={ticked}
      />
      <PersonField
        error={errors.reviewerId}
        label="Reviewed by"
        onChoice={(reviewerId) => change({ reviewerId })}
        value={typed.reviewerId}
      />
      <WrittenBy only="supervisor" tried={tried} />
      <SaveLine
        action="Write it down"
        onCancel={onDone}
        saving={saving}
        trouble={
          tried && (!reading.ok || !canWrite) ? 'Nothing is written yet: see the marked fields.' : undefined
        }
      />
    </RecordForm>
  );
}

function CountField({
  label,
  value,
  error,
  onText,
}: {
  label: string;
  value: string;
  error: string | undefined;
  onText: (text: string) => void;
}) {
  return (
    <InputField
      error={error}
      inputMode="decimal"
      label={<IfKnown>{label}</IfKnown>}
      onText={onText}
      value={value}
    />
  );
}
