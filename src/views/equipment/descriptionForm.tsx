import { type ComponentType, type ReactNode, useState } from 'react';
import type { EntryDraft, Role } from '../../journal/entries.ts';
import { TextAreaField } from '../parts/field.tsx';
import type { Errors, FormReading } from '../parts/formReading.ts';
import { Notice } from '../parts/notice.tsx';
import { RecordForm, type Submission } from '../parts/recordForm.tsx';
import { useSave } from '../parts/useSave.ts';
import { useWriter } from '../parts/useWriter.ts';
import { WrittenBy } from '../parts/writtenBy.tsx';
import { AskOrSave } from './askOrSave.tsx';

/** What a description would do beyond describing, and what follows: a notice, who alone may, or that it may not be. */
export interface Consequence {
  notice: string;
  only: Role;
  refused: boolean;
  /** What is to be decided with it. */
  fields?: ReactNode;
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
  consequenceOf,
  questionsAbout,
  decided,
  newest,
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
  /** What is asked before it is written. */
  questionsAbout?: (description: D) => readonly string[];
  /** What was decided in the consequence's fields, on which the entries rest too. */
  decided?: unknown;
  /** The record's newest entry: told where another comes while the form stands open, which it would undo unseen. */
  newest?: string | undefined;
}) {
  const [typed, setTyped] = useState({ draft: initial, reason: '' });
  const [tried, setTried] = useState(false);
  const [asking, setAsking] = useState<readonly string[]>([]);
  const [attempt, setAttempt] = useState<{ typed: unknown; description: D } | null>(null);
  const [newestAtFirst] = useState(newest);
  const { saving, save } = useSave();
  // A save that was reported as failed may have reached the disk: its own name is then taken, by itself.
  const reading: FormReading<T, D> =
    attempt?.typed === typed ? { ok: true, description: attempt.description } : read(typed.draft);
  const consequence = (reading.ok && consequenceOf?.(reading.description)) || null;
  const only = consequence?.only;
  const { id: by, canWrite } = useWriter(only);
  const errors = !reading.ok && tried ? reading.errors : {};
  const isWhoMissing = asksWho && !canWrite;
  const isReasonMissing = asksReason && typed.reason.trim() === '';

  const submit = async (isSure: boolean): Promise<Submission> => {
    setTried(true);
    if (!reading.ok || isWhoMissing || isReasonMissing || consequence?.refused) return 'stopped';
    const { description } = reading;
    const questions = isSure ? [] : (questionsAbout?.(description) ?? []);
    setAsking(questions);
    if (questions.length > 0) return 'tried';
    setAttempt({ typed, description });
    const entries = await save([typed, by, decided], () => makeEntries(description, by, typed.reason.trim()));
    if (entries) onDone(entries);
    return 'tried';
  };
  const change = (changes: Partial<typeof typed>) => {
    setTyped({ ...typed, ...changes });
    setAsking([]);
  };

  return (
    <RecordForm onSubmit={() => submit(false)} opens={onCancel !== undefined} title={title}>
      {newest !== newestAtFirst && attempt?.typed !== typed ? (
        <Notice title="It was changed elsewhere while this form stood open." tone="warn">
          <p>The history below says to what. What is saved here takes its place, field by field.</p>
        </Notice>
      ) : null}
      <Fields
        draft={typed.draft}
        errors={errors}
        onChange={(changes) => change({ draft: { ...typed.draft, ...changes } })}
      />
      {asksReason ? (
        <TextAreaField
          error={tried && isReasonMissing ? 'Say why it is changed.' : undefined}
          label="Reason"
          onText={(reason) => change({ reason })}
          value={typed.reason}
        />
      ) : null}
      {consequence ? <Notice title={consequence.notice} tone="warn" /> : null}
      {consequence?.fields}
      {asksWho ? <WrittenBy only={only} tried={tried} /> : null}
      <AskOrSave
        action={action}
        asking={asking}
        onBack={() => setAsking([])}
        onCancel={onCancel}
        onYes={() => void submit(true)}
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
