import { useState } from 'react';
import type { Analyzer } from '../../journal/logbook.ts';
import { outOfService } from '../../journal/standing.ts';
import { useLogbook } from '../logbookContext.tsx';
import { TextAreaField } from '../parts/field.tsx';
import { askAboutService } from './askAboutService.ts';
import { HappeningForm } from './happeningForm.tsx';
import { setService } from './makeEntries.ts';

/** Takes an analyzer out of service, which anyone may, or puts it back, which a supervisor does. */
export function ServiceForm({
  analyzer,
  inService,
  onDone,
}: {
  analyzer: Analyzer;
  /** What it is to be from then on. */
  inService: boolean;
  onDone: () => void;
}) {
  const { logbook } = useLogbook();
  const [text, setText] = useState('');
  const reason = text.trim();
  const { id, description } = analyzer;
  const { label } = description;
  const isOut = outOfService(logbook, id, new Date().toISOString()) !== null;
  const refused = inService
    ? isOut
      ? undefined
      : `${label} is in service already.`
    : isOut
      ? `${label} is out of service already.`
      : undefined;
  return (
    <HappeningForm
      action={inService ? 'Put back in service' : 'Take out of service'}
      fields={(tried) => (
        <TextAreaField
          error={tried && reason === '' ? 'Say why.' : undefined}
          hint={inService ? 'What was done and what shows that it is in order again.' : undefined}
          label="Reason"
          onText={setText}
          required
          value={text}
        />
      )}
      intro={
        <p>
          {inService
            ? 'What fell due while it was out of service is due from then on. A failure that is open stays open: it is closed under Review.'
            : 'No patients are tested on it from then on, and nothing falls due. The bench asks before a run is recorded on it. A supervisor puts it back in service.'}
        </p>
      }
      isWhole={reason !== ''}
      makeEntries={(from, by) => setService({ analyzerId: id, inService, from, reason }, by)}
      onDone={onDone}
      only={inService ? 'supervisor' : undefined}
      questionsAbout={(from) => askAboutService(logbook, analyzer, inService, from)}
      refused={refused}
      title={inService ? `Put ${label} back in service` : `Take ${label} out of service`}
      typed={[reason]}
      when="From when"
    />
  );
}
