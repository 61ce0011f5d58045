import { type ReactNode, useState } from 'react';
import type { EntryDraft, Role } from '../../journal/entries.ts';
import { InputField } from '../parts/field.tsx';
import { localMinute } from '../parts/localTime.ts';
import { readHappened } from '../parts/readHappened.ts';
import { RecordForm, type Submission } from '../parts/recordForm.tsx';
import { useNow } from '../parts/useNow.ts';
import { isSame, useSave } from '../parts/useSave.ts';
import { useWriter } from '../parts/useWriter.ts';
import { WrittenBy } from '../parts/writtenBy.tsx';
import { AskOrSave } from './askOrSave.tsx';

/** One form for what happened to a piece of equipment at a moment; what happened comes in as fields. */
export function HappeningForm({
  title,
  intro,
  action,
  when = 'When',
  first,
  fields,
  typed,
  isWhole,
  only,
  refused,
  questionsAbout,
  makeEntries,
  onDone,
}: {
  title: string;
  intro?: ReactNode;
  action: string;
  /** The label of the moment. */
  when?: string;
  /** What stands above the moment. */
  first?: (tried: boolean) => ReactNode;
  fields: (tried: boolean) => ReactNode;
  /** What the entries rest on beside the moment and the writer, value by value. */
  typed: readonly unknown[];
  /** Every field of the caller's is as it must be. */
  isWhole: boolean;
  only?: Role | undefined;
  /** Why it may not be written at all. */
  refused?: string | undefined;
  /** What is asked before it is written. `at`: ISO 8601 instant. */
  questionsAbout?: (at: string) => readonly string[];
  makeEntries: (at: string, by: string) => readonly EntryDraft[];
  onDone: () => void;
}) {
  const [moment, setMoment] = useState(() => localMinute(Date.now()));
  const [tried, setTried] = useState(false);
  const [asked, setAsked] = useState<{ about: readonly unknown[]; questions: readonly string[] } | null>(
    null,
  );
  const [attempt, setAttempt] = useState<readonly unknown[] | null>(null);
  const { saving, save } = useSave();
  const now = useNow();
  const happened = readHappened(moment, now);
  const { id: by, canWrite } = useWriter(only);
  const content = [...typed, moment, by];
  // What was asked about something else is asked anew.
  const asking = asked !== null && isSame(asked.about, content) ? asked.questions : [];
  // A save that was reported as failed may have reached the disk: what it wrote must not stand in its own way.
  const inTheWay = attempt !== null && isSame(attempt, content) ? undefined : refused;

  const submit = async (isSure: boolean): Promise<Submission> => {
    setTried(true);
    if ('problem' in happened || !isWhole || !canWrite || inTheWay !== undefined) return 'stopped';
    const questions = isSure ? [] : (questionsAbout?.(happened.at) ?? []);
    setAsked({ about: content, questions });
    if (questions.length > 0) return 'tried';
    setAttempt(content);
    if (await save(content, () => makeEntries(happened.at, by))) onDone();
    return 'tried';
  };

  return (
    <RecordForm onSubmit={() => submit(false)} title={title}>
      {intro}
      {first?.(tried)}
      <InputField
        error={tried && 'problem' in happened ? happened.problem : undefined}
        label={when}
        onText={setMoment}
        type="datetime-local"
        value={moment}
      />
      {fields(tried)}
      <WrittenBy only={only} tried={tried} />
      <AskOrSave
        action={action}
        asking={asking}
        onBack={() => setAsked(null)}
        onCancel={onDone}
        onYes={() => void submit(true)}
        saving={saving}
        trouble={
          tried && inTheWay !== undefined
            ? inTheWay
            : tried && ('problem' in happened || !isWhole || !canWrite)
              ? 'Nothing is written yet: see the marked fields.'
              : undefined
        }
      />
    </RecordForm>
  );
}
