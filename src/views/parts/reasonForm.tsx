import { type ReactNode, useState } from 'react';
import type { EntryDraft, Role } from '../../journal/entries.ts';
import { TextAreaField } from './field.tsx';
import { RecordForm, type Submission } from './recordForm.tsx';
import { SaveLine } from './saveLine.tsx';
import { useSave } from './useSave.ts';
import { useWriter } from './useWriter.ts';
import { WrittenBy } from './writtenBy.tsx';

/** A form that asks only for a reason and who says so: to void a run, to retire something, to start a new baseline. */
export function ReasonForm({
  title,
  explanation,
  warning,
  action,
  only,
  makeEntries,
  onSaved,
  onCancel,
}: {
  title: string;
  explanation: ReactNode;
  /** What whoever writes it should know first. */
  warning?: ReactNode;
  action: string;
  only?: Role;
  makeEntries: (by: string, reason: string) => readonly EntryDraft[];
  onSaved: () => void;
  onCancel: () => void;
}) {
  const { id: by, canWrite } = useWriter(only);
  const [text, setText] = useState('');
  const [tried, setTried] = useState(false);
  const { saving, save } = useSave();
  const reason = text.trim();

  const submit = async (): Promise<Submission> => {
    setTried(true);
    if (reason === '' || !canWrite) return 'stopped';
    if (await save([reason, by], () => makeEntries(by, reason))) onSaved();
    return 'tried';
  };
  return (
    <RecordForm onSubmit={submit} title={title}>
      <p>{explanation}</p>
      {warning}
      <TextAreaField
        error={tried && reason === '' ? 'Say why.' : undefined}
        label="Reason"
        onText={setText}
        required
        value={text}
      />
      <WrittenBy only={only} tried={tried} />
      <SaveLine action={action} onCancel={onCancel} saving={saving} />
    </RecordForm>
  );
}
