import { useState } from 'react';
import type { EventType } from '../../journal/entries.ts';
import type { Analyzer } from '../../journal/logbook.ts';
import { isRecordableYear, isStillToCome } from '../../journal/plausible.ts';
import { ChoiceField, choicesOf, InputField, TextAreaField, TickField } from '../parts/field.tsx';
import { localMinute } from '../parts/localTime.ts';
import { RecordForm, type Submission } from '../parts/recordForm.tsx';
import { SaveLine } from '../parts/saveLine.tsx';
import { useNow } from '../parts/useNow.ts';
import { useSave } from '../parts/useSave.ts';
import { useWriter } from '../parts/useWriter.ts';
import { eventWords } from '../parts/words.ts';
import { WrittenBy } from '../parts/writtenBy.tsx';
import { recordEvent } from './makeEntries.ts';

const eventTypes = choicesOf<EventType>(eventWords);

/** What was done to an analyzer, and whether it moves the mean. */
export function EventForm({
  analyzer,
  hasOpenFailure,
  onDone,
}: {
  analyzer: Analyzer;
  hasOpenFailure: boolean;
  onDone: () => void;
}) {
  const [typed, setTyped] = useState(() => ({
    type: 'service' as EventType,
    happenedAt: localMinute(Date.now()),
    description: '',
    startsBaseline: false,
  }));
  const [tried, setTried] = useState(false);
  const { saving, save } = useSave();
  const now = useNow();
  const happenedAt = new Date(typed.happenedAt);
  const timeProblem = timeProblemOf(happenedAt, now);
  const description = typed.description.trim();
  const startsBaseline = typed.startsBaseline && !hasOpenFailure;
  const only = startsBaseline ? 'supervisor' : undefined;
  const { id: by, canWrite } = useWriter(only);

  const submit = async (): Promise<Submission> => {
    setTried(true);
    if (timeProblem || description === '' || !canWrite) return 'stopped';
    const what = {
      analyzerId: analyzer.id,
      happenedAt: happenedAt.toISOString(),
      type: typed.type,
      description,
    };
    if (await save([typed, by], () => recordEvent(what, startsBaseline, by))) onDone();
    return 'tried';
  };

  return (
    <RecordForm onSubmit={submit} title={`Record an event on ${analyzer.description.label}`}>
      <ChoiceField
        choices={eventTypes}
        label="What"
        onChoice={(type) => setTyped({ ...typed, type })}
        value={typed.type}
      />
      <InputField
        error={tried ? timeProblem : undefined}
        label="When"
        onText={(text) => setTyped({ ...typed, happenedAt: text })}
        type="datetime-local"
        value={typed.happenedAt}
      />
      <TextAreaField
        error={tried && description === '' ? 'Say what was done.' : undefined}
        label="What was done"
        onText={(text) => setTyped({ ...typed, description: text })}
        value={typed.description}
      />
      <TickField
        checked={startsBaseline}
        disabled={hasOpenFailure}
        label={
          hasOpenFailure
            ? 'This changes the mean: start a new baseline. Not while a failure is open: close it under Review first, then start the baseline.'
            : 'This changes the mean: start a new baseline from that time on.'
        }
        onTick={(ticked) => setTyped({ ...typed, startsBaseline: ticked })}
      />
      <WrittenBy only={only} tried={tried} />
      <SaveLine action="Record event" onCancel={onDone} saving={saving} />
    </RecordForm>
  );
}

/** An event may be written down late, never ahead: a baseline that starts tomorrow would judge today's runs by none. */
function timeProblemOf(happenedAt: Date, now: number): string | undefined {
  if (!isRecordableYear(happenedAt.getFullYear())) return 'Type the day, the time and a year of four digits.';
  return isStillToCome(happenedAt.getTime(), now)
    ? 'This is still to come. Type when it was done.'
    : undefined;
}
