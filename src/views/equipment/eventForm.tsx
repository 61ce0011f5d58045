import { useState } from 'react';
import type { EventType } from '../../journal/entries.ts';
import type { Analyzer } from '../../journal/logbook.ts';
import { ChoiceField, choicesOf, TextAreaField } from '../parts/field.tsx';
import { eventWords } from '../parts/words.ts';
import { BaselineTick } from './baselineTick.tsx';
import { HappeningForm } from './happeningForm.tsx';
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
  const [type, setType] = useState<EventType>('service');
  const [text, setText] = useState('');
  const [isTicked, setTicked] = useState(false);
  const description = text.trim();
  const startsBaseline = isTicked && !hasOpenFailure;
  return (
    <HappeningForm
      action="Record event"
      fields={(tried) => (
        <>
          <TextAreaField
            error={tried && description === '' ? 'Say what was done.' : undefined}
            label="What was done"
            onText={setText}
            value={text}
          />
          <BaselineTick
            analyzerId={analyzer.id}
            checked={isTicked}
            hasOpenFailure={hasOpenFailure}
            onTick={setTicked}
          />
        </>
      )}
      first={() => (
        <ChoiceField
          choices={eventTypes}
          hint={
            type === 'cylinder'
              ? 'A cylinder of the list is fitted with “Fit a cylinder…”, which records this event as well.'
              : undefined
          }
          label="What"
          onChoice={setType}
          value={type}
        />
      )}
      isWhole={description !== ''}
      makeEntries={(happenedAt, by) =>
        recordEvent({ analyzerId: analyzer.id, happenedAt, type, description }, startsBaseline, by)
      }
      onDone={onDone}
      only={startsBaseline ? 'supervisor' : undefined}
      title={`Record an event on ${analyzer.description.label}`}
      typed={[type, description, startsBaseline]}
    />
  );
}
