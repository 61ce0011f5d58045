import { type ComponentType, type FormEvent, useState } from 'react';
import type { EntryDraft } from '../../journal/entries.ts';
import { TextAreaField } from '../parts/field.tsx';
import { SaveLine } from '../parts/saveLine.tsx';
import { useSave } from '../parts/useSave.ts';
import { useWriter } from '../parts/useWriter.ts';
import { WrittenBy } from '../parts/writtenBy.tsx';
import type { Errors, FormReading } from './readForms.ts';

/** One form for adding and changing a piece of equipment or a person; what differs comes in as fields and readings. */
export function DescriptionForm<T extends object, D>({
  title,
  action,
  initial,
  read,
  Fields,
  makeEntries,
  onDone,
  onCancel,
  asksReason = false,
  asksWho = true,
}: {
  title: string;
  action: string;
  initial: T;
  read: (draft: T) => FormReading<T, D>;
  Fields: ComponentType<{ draft: T; errors: Errors<T>; onChange: (changes: Partial<T>) => void }>;
  makeEntries: (description: D, by: string, reason: string) => readonly EntryDraft[];
  onDone: (entries: readonly EntryDraft[]) => void;
  onCancel?: () => void;
  /** A change needs a reason; an addition speaks for itself. */
  asksReason?: boolean;
  /** False only for the very first person, who adds themself. */
  asksWho?: boolean;
}) {
  const { id: by, canWrite } = useWriter();
  const [typed, setTyped] = useState({ draft: initial, reason: '' });
  const [tried, setTried] = useState(false);
  const { saving, save } = useSave();
  const reading = read(typed.draft);
  const errors = !reading.ok && tried ? reading.errors : {};
  const isWhoMissing = asksWho && !canWrite;
  const isReasonMissing = asksReason && typed.reason.trim() === '';

  const submit = async (event: FormEvent) => {
    event.preventDefault();
    setTried(true);
    if (!reading.ok || isWhoMissing || isReasonMissing) return;
    const entries = await save([typed, by], () => makeEntries(reading.description, by, typed.reason.trim()));
    if (entries) onDone(entries);
  };

  return (
    <form className="stack" noValidate onSubmit={(event) => void submit(event)}>
      <h2>{title}</h2>
      <Fields
        draft={typed.draft}
        errors={errors}
        onChange={(changes) => setTyped({ ...typed, draft: { ...typed.draft, ...changes } })}
      />
      {asksReason ? (
        <TextAreaField
          error={tried && isReasonMissing ? 'Say why it is changed.' : undefined}
          label="Reason"
          onText={(reason) => setTyped({ ...typed, reason })}
          value={typed.reason}
        />
      ) : null}
      {asksWho ? <WrittenBy tried={tried} /> : null}
      <SaveLine
        action={action}
        onCancel={onCancel}
        saving={saving}
        trouble={
          tried && (!reading.ok || isWhoMissing || isReasonMissing)
            ? 'Nothing is written yet: see the marked fields.'
            : undefined
        }
      />
    </form>
  );
}
