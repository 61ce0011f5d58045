import { type ComponentType, useState } from 'react';
import type { EntryDraft, Role } from '../../journal/entries.ts';
import { TextAreaField } from '../parts/field.tsx';
import { Notice } from '../parts/notice.tsx';
import { RecordForm, type Submission } from '../parts/recordForm.tsx';
import { SaveLine } from '../parts/saveLine.tsx';
import { useSave } from '../parts/useSave.ts';
import { useWriter } from '../parts/useWriter.ts';
import { WrittenBy } from '../parts/writtenBy.tsx';
import type { Errors, FormReading } from './readForms.ts';

/** What a description would do beyond describing, and what follows: a notice, who alone may, or that it may not be. */
export interface Consequence {
  notice: string;
  only: Role;
  refused: boolean;
}

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
  consequenceOf = noConsequence,
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
  consequenceOf?: (description: D) => Consequence | null;
}) {
  const [typed, setTyped] = useState({ draft: initial, reason: '' });
  const [tried, setTried] = useState(false);
  const { saving, save } = useSave();
  const reading = read(typed.draft);
  const consequence = reading.ok ? consequenceOf(reading.description) : null;
  const only = consequence?.only;
  const { id: by, canWrite } = useWriter(only);
  const errors = !reading.ok && tried ? reading.errors : {};
  const isWhoMissing = asksWho && !canWrite;
  const isReasonMissing = asksReason && typed.reason.trim() === '';

  const submit = async (): Promise<Submission> => {
    setTried(true);
    if (!reading.ok || isWhoMissing || isReasonMissing || consequence?.refused) return 'stopped';
    const entries = await save([typed, by], () => makeEntries(reading.description, by, typed.reason.trim()));
    if (entries) onDone(entries);
    return 'tried';
  };

  return (
    <RecordForm onSubmit={submit} opens={onCancel !== undefined} title={title}>
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
      {consequence ? <Notice title={consequence.notice} tone="warn" /> : null}
      {asksWho ? <WrittenBy only={only} tried={tried} /> : null}
      <SaveLine
        action={action}
        onCancel={onCancel}
        saving={saving}
        trouble={
          tried && (!reading.ok || isWhoMissing || isReasonMissing)
            ? 'Nothing is written yet: see the marked fields.'
            : tried && consequence?.refused
              ? 'Nothing is written yet: see above.'
              : undefined
        }
      />
    </RecordForm>
  );
}

function noConsequence(): null {
  return null;
}
