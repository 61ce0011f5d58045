import { useState } from 'react';
import type { EventType } from '../../journal/entries.ts';
import type { Failure } from '../failures.ts';
import { useLogbook } from '../logbookContext.tsx';
import { ChoiceField, choicesOf, IfKnown, InputField, TextAreaField, TickField } from '../parts/field.tsx';
import { localMinute } from '../parts/localTime.ts';
import { RecordForm, type Submission } from '../parts/recordForm.tsx';
import { SaveLine } from '../parts/saveLine.tsx';
import { useNow } from '../parts/useNow.ts';
import { useSave } from '../parts/useSave.ts';
import { useWriter } from '../parts/useWriter.ts';
import { eventWords } from '../parts/words.ts';
import { WrittenBy } from '../parts/writtenBy.tsx';
import { type ActionDraft, actionEntries, readAction, somebodyElse } from './readAction.ts';
import { keyOf, WithOthers } from './withOthers.tsx';

/** What was done about a failure, by whom; with the event that stands on the charts, in one save. */
export function ActionForm({
  failure,
  others,
  onDone,
}: {
  failure: Failure;
  /** The other open failures of the analyzer. */
  others: readonly Failure[];
  onDone: () => void;
}) {
  const { logbook } = useLogbook();
  const now = useNow(logbook);
  const { id: by, canWrite } = useWriter();
  const [draft, setDraft] = useState<ActionDraft>(() => ({
    what: '',
    doneAt: localMinute(Date.now()),
    who: by,
    part: '',
    type: 'service',
    isEvent: true,
  }));
  const [ticked, setTicked] = useState<readonly string[]>(() => others.map(keyOf));
  const [tried, setTried] = useState(false);
  const { saving, save } = useSave();
  const change = (changes: Partial<ActionDraft>) => setDraft({ ...draft, ...changes });
  const about = [failure, ...others.filter((other) => ticked.includes(keyOf(other)))];
  const reading = readAction(draft, { failures: about, now });
  const errors = tried && !reading.ok ? reading.errors : {};
  const people = [...logbook.technologists.values()].filter(({ retired }) => retired === null);

  const submit = async (): Promise<Submission> => {
    setTried(true);
    if (!reading.ok || !canWrite) return 'stopped';
    if (await save([draft, ticked, by], () => actionEntries(reading.description, about, by))) onDone();
    return 'tried';
  };
  return (
    <RecordForm heading="h3" onSubmit={submit} title="Write down what was done">
      <TextAreaField
        error={errors.what}
        label="What was done"
        onText={(what) => change({ what })}
        required
        value={draft.what}
      />
      <InputField
        error={errors.doneAt}
        label="When"
        onText={(doneAt) => change({ doneAt })}
        type="datetime-local"
        value={draft.doneAt}
      />
      <ChoiceField
        choices={[
          ...people.map(({ id, initials, name }) => ({ value: id, label: `${initials}  ${name}` })),
          { value: somebodyElse, label: 'Somebody else, such as service' },
        ]}
        error={errors.who}
        label="Done by"
        onChoice={(who) => change({ who })}
        value={draft.who === somebodyElse || people.some(({ id }) => id === draft.who) ? draft.who : ''}
      />
      <InputField
        data-long
        label={<IfKnown>Part</IfKnown>}
        onText={(part) => change({ part })}
        value={draft.part}
      />
      <TickField
        checked={draft.isEvent}
        label="Record it as an event too, so that the charts show it. Untick it where it is recorded already."
        onTick={(isEvent) => change({ isEvent })}
      />
      {draft.isEvent ? (
        <ChoiceField
          choices={choicesOf<EventType>(eventWords)}
          label="Kind of event"
          onChoice={(type) => change({ type })}
          value={draft.type}
        />
      ) : null}
      <WithOthers
        label={(name) => `It was done about ${name}, as well`}
        onTicked={setTicked}
        others={others.map((other) => ({ failure: other }))}
        ticked={ticked}
      />
      <WrittenBy tried={tried} />
      <SaveLine
        action="Write it down"
        onCancel={onDone}
        saving={saving}
        trouble={
          tried && (!reading.ok || !canWrite) ? 'Nothing is written yet: see the marked fields.' : undefined
        }
      />
      <p className="quiet small">
        It closes nothing. Passing runs have to come after it. Where it moves the mean, a new baseline is
        started under Equipment once the failure is closed, not before.
      </p>
    </RecordForm>
  );
}
