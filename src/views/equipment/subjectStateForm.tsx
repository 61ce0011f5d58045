import { useState } from 'react';
import type { SubjectState } from '../../journal/entries.ts';
import type { Subject } from '../../journal/logbook.ts';
import { useLogbook } from '../logbookContext.tsx';
import { TextAreaField } from '../parts/field.tsx';
import { HappeningForm } from './happeningForm.tsx';
import { setSubjectState } from './makeEntries.ts';
import { askAboutState, refusedBecause, settings } from './subjectStates.ts';

/** Pauses a biological control, which anyone may, or excludes it or goes on with it, which a supervisor does. */
export function SubjectStateForm({
  subject,
  state,
  onDone,
}: {
  subject: Subject;
  /** What it is to be from then on. */
  state: SubjectState;
  onDone: () => void;
}) {
  const { logbook } = useLogbook();
  const [text, setText] = useState('');
  const reason = text.trim();
  const { action, title, what, reasonHint, only } = settings[state];
  return (
    <HappeningForm
      action={action}
      fields={(tried) => (
        <TextAreaField
          error={tried && reason === '' ? 'Say why.' : undefined}
          hint={reasonHint}
          label="Reason"
          onText={setText}
          required
          value={text}
        />
      )}
      intro={<p>{what}</p>}
      isWhole={reason !== ''}
      makeEntries={(from, by) => setSubjectState({ subjectId: subject.id, state, from, reason }, by)}
      onDone={onDone}
      only={only}
      questionsAbout={(from) => askAboutState(logbook, subject, state, from)}
      refused={refusedBecause(logbook, subject, state, new Date().toISOString())}
      title={title(subject.description.code)}
      typed={[state, reason]}
      when="From when"
    />
  );
}
