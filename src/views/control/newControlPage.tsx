import { LooksInto } from '../parts/looksInto.tsx';
import { RecordForm } from '../parts/recordForm.tsx';
import { SaveLine } from '../parts/saveLine.tsx';
import { Spread } from '../parts/spread.tsx';
import { Questions } from '../runForm/questions.tsx';
import type { AskedControl } from './controlAddress.ts';
import { controlTexts } from './controlTexts.ts';
import { FieldsOfControl } from './fieldsOfControl.tsx';
import { LivePage } from './livePage.tsx';
import { SavedControl } from './savedControl.tsx';
import { type NewControl, useNewControl } from './useNewControl.ts';

/** A control is typed on the left page; on the right stands what it means, and what was found before. */
export function NewControlPage({ asked }: { asked: AskedControl }) {
  const entry = useNewControl(asked);
  if (entry.recorded !== undefined) {
    return <SavedControl asked={asked} logged={entry.recorded} onAnother={entry.another} />;
  }
  const { title, what, cautions } = controlTexts[asked.kind];
  return (
    <Spread
      left={
        <div className="stack stack--loose">
          <div className="stack">
            <h1>
              {title}, {asked.analyzer.description.label}
            </h1>
            <p>{what}</p>
            <p className="quiet small">{cautions.join(' ')}</p>
          </div>
          <LooksInto investigates={asked.investigates} isWritten="written down" lacksRun={asked.lacksRun} />
          <ControlForm asked={asked} entry={entry} />
        </div>
      }
      right={<LivePage form={entry.form} />}
    />
  );
}

function ControlForm({ asked: { kind }, entry }: { asked: AskedControl; entry: NewControl }) {
  const { form, saving, record } = entry;
  const { record: action, title } = controlTexts[kind];
  const { errors, missing } = form.reading;
  const isIncomplete = Object.keys(errors).length > 0 || Object.keys(missing).length > 0;
  return (
    <RecordForm
      onSubmit={() => record(false)}
      opens={false}
      title={<span className="for-readers">{title}</span>}
    >
      <FieldsOfControl form={form} />
      {form.asking.length > 0 ? (
        <Questions
          asking={form.asking}
          onBack={() => form.setAsking([])}
          onYes={() => void record(true)}
          title="Before this is recorded"
          yes="Yes, record it"
        />
      ) : (
        <SaveLine
          action={action}
          saving={saving}
          trouble={form.tried && isIncomplete ? 'Nothing is written yet: see the marked fields.' : undefined}
        />
      )}
    </RecordForm>
  );
}
