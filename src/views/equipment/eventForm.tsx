import { format } from 'date-fns';
import { type FormEvent, useState } from 'react';
import type { EventType } from '../../journal/entries.ts';
import type { Analyzer } from '../../journal/logbook.ts';
import { ChoiceField, choicesOf, InputField, TextAreaField, TickField } from '../parts/field.tsx';
import { SaveLine } from '../parts/saveLine.tsx';
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
    happenedAt: format(Date.now(), "yyyy-MM-dd'T'HH:mm"),
    description: '',
    startsBaseline: false,
  }));
  const [tried, setTried] = useState(false);
  const { saving, save } = useSave();
  const happenedAt = new Date(typed.happenedAt);
  const isTimeWrong = Number.isNaN(happenedAt.getTime());
  const description = typed.description.trim();
  const startsBaseline = typed.startsBaseline && !hasOpenFailure;
  const only = startsBaseline ? 'supervisor' : undefined;
  const { id: by, canWrite } = useWriter(only);

  const submit = async (event: FormEvent) => {
    event.preventDefault();
    setTried(true);
    if (isTimeWrong || description === '' || !canWrite) return;
    const what = {
      analyzerId: analyzer.id,
      happenedAt: happenedAt.toISOString(),
      type: typed.type,
      description,
    };
    if (await save([typed, by], () => recordEvent(what, startsBaseline, by))) onDone();
  };

  return (
    <form className="stack" noValidate onSubmit={(event) => void submit(event)}>
      <h2>Record an event on {analyzer.description.label}</h2>
      <ChoiceField
        choices={eventTypes}
        label="What"
        onChoice={(type) => setTyped({ ...typed, type })}
        value={typed.type}
      />
      <InputField
        error={tried && isTimeWrong ? 'Type the day and the time.' : undefined}
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
            : 'This changes the mean: start a new baseline from this moment.'
        }
        onTick={(ticked) => setTyped({ ...typed, startsBaseline: ticked })}
      />
      <WrittenBy only={only} tried={tried} />
      <SaveLine action="Record event" onCancel={onDone} saving={saving} />
    </form>
  );
}
