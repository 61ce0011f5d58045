import { type ReactNode, useState } from 'react';
import type { EntryDraft } from '../../journal/entries.ts';
import { TextAreaField } from '../parts/field.tsx';
import type { FieldsProps, FormReading } from '../parts/formReading.ts';
import { Notice } from '../parts/notice.tsx';
import { RecordForm, type Submission } from '../parts/recordForm.tsx';
import { SaveLine } from '../parts/saveLine.tsx';
import { useSave } from '../parts/useSave.ts';
import { useWriter } from '../parts/useWriter.ts';
import { WrittenBy } from '../parts/writtenBy.tsx';

export interface SettingFormProps<T extends object, V> {
  title: string;
  /** What follows from a change. */
  explanation: ReactNode;
  action: string;
  initial: T;
  /** What the usual values are called, to fill them in at one press. */
  usual?: { name: string; draft: T };
  read: (draft: T) => FormReading<T, V>;
  fields: (props: FieldsProps<T>) => ReactNode;
  /** True for what is in force already: it is not written a second time. */
  isInForce: (value: V) => boolean;
  warningsAbout?: (value: V) => readonly string[];
  makeEntries: (value: V, by: string, reason: string) => readonly EntryDraft[];
  /** Changes with every entry that sets this: told where that happens while the form stands open. */
  setting: string | undefined;
}

/** One form for every setting: only a supervisor changes it, and never without a reason. */
export function SettingForm<T extends object, V>({
  title,
  explanation,
  action,
  initial,
  usual,
  read,
  fields,
  isInForce,
  warningsAbout,
  makeEntries,
  setting,
  onDone,
}: SettingFormProps<T, V> & { onDone: () => void }) {
  const [typed, setTyped] = useState({ draft: initial, reason: '' });
  const [tried, setTried] = useState(false);
  const [attempt, setAttempt] = useState<{ typed: unknown } | null>(null);
  const [settingAtFirst] = useState(setting);
  const { saving, save } = useSave();
  const { id: by, canWrite } = useWriter('supervisor');
  const reading = read(typed.draft);
  const reason = typed.reason.trim();
  // A save that was reported as failed may have reached the disk: it is then in force already, by itself.
  const isTriedAgain = attempt?.typed === typed;
  const isUnchanged = reading.ok && !isTriedAgain && isInForce(reading.description);
  const warnings = (reading.ok && warningsAbout?.(reading.description)) || [];
  const change = (changes: Partial<typeof typed>) => setTyped({ ...typed, ...changes });

  const submit = async (): Promise<Submission> => {
    setTried(true);
    if (!reading.ok || isUnchanged || reason === '' || !canWrite) return 'stopped';
    setAttempt({ typed });
    if (await save([typed, by], () => makeEntries(reading.description, by, reason))) onDone();
    return 'tried';
  };
  return (
    <RecordForm onSubmit={submit} title={title}>
      <p>{explanation}</p>
      {setting !== settingAtFirst && !isTriedAgain ? (
        <Notice title="It was set elsewhere while this form stood open." tone="warn">
          <p>The history below says to what. What is saved here comes after it.</p>
        </Notice>
      ) : null}
      {usual ? (
        <div>
          <button data-weight="line" onClick={() => change({ draft: usual.draft })} type="button">
            Fill in {usual.name}
          </button>
        </div>
      ) : null}
      {fields({
        draft: typed.draft,
        errors: !reading.ok && tried ? reading.errors : {},
        onChange: (changes) => change({ draft: { ...typed.draft, ...changes } }),
      })}
      {warnings.map((sentence) => (
        <Notice key={sentence} title={sentence} tone="warn" />
      ))}
      <TextAreaField
        error={tried && reason === '' ? 'Say why it is changed: an assessor will ask.' : undefined}
        label="Reason"
        onText={(text) => change({ reason: text })}
        required
        value={typed.reason}
      />
      <WrittenBy only="supervisor" tried={tried} />
      <SaveLine
        action={action}
        onCancel={onDone}
        saving={saving}
        trouble={
          !tried
            ? undefined
            : isUnchanged
              ? 'Nothing is changed: this is in force already.'
              : !reading.ok || reason === '' || !canWrite
                ? 'Nothing is written yet: see the marked fields.'
                : undefined
        }
      />
    </RecordForm>
  );
}
