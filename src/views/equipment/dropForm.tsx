import { useState } from 'react';
import type { Syringe } from '../../journal/logbook.ts';
import { TextAreaField } from '../parts/field.tsx';
import { HappeningForm } from './happeningForm.tsx';
import { dropSyringe } from './makeEntries.ts';

/** A fall or a knock of a syringe: from then on its leak and stop check is due at once. */
export function DropForm({ syringe, onDone }: { syringe: Syringe; onDone: () => void }) {
  const [text, setText] = useState('');
  const description = text.trim();
  return (
    <HappeningForm
      action="Record the drop"
      fields={(tried) => (
        <TextAreaField
          error={tried && description === '' ? 'Say what happened.' : undefined}
          label="What happened"
          onText={setText}
          required
          value={text}
        />
      )}
      intro={
        <p>
          Published: leak and stop are checked after any drop before it is used again (ATS laboratory manual,
          3rd ed.). From then on the check is due at once, and the bench says so.
        </p>
      }
      isWhole={description !== ''}
      makeEntries={(droppedAt, by) => dropSyringe({ syringeId: syringe.id, droppedAt, description }, by)}
      onDone={onDone}
      title={`${syringe.description.label} was dropped`}
      typed={[description]}
    />
  );
}
