import { useState } from 'react';
import type { CivilDate } from '../../core/index.ts';
import type { Analyzer } from '../../journal/logbook.ts';
import { analyzerChecks } from '../completenessOf.ts';
import { ChoiceField, InputField, TextAreaField } from '../parts/field.tsx';
import { RecordForm, type Submission } from '../parts/recordForm.tsx';
import { SaveLine } from '../parts/saveLine.tsx';
import { useSave } from '../parts/useSave.ts';
import { useWriter } from '../parts/useWriter.ts';
import { WrittenBy } from '../parts/writtenBy.tsx';
import { checkWords } from '../scheduleWords.ts';
import { type GapDraft, readGap } from './readGap.ts';

const choices = analyzerChecks.map((check) => ({ value: check, label: checkWords[check] }));

/** Why a check was not made between two days. Anyone may say it; the weeks stay missed or late. */
export function GapForm({
  analyzer,
  from,
  to,
  onClose,
}: {
  analyzer: Analyzer;
  from: CivilDate;
  to: CivilDate;
  onClose: () => void;
}) {
  const { id: by, canWrite } = useWriter();
  const [draft, setDraft] = useState<GapDraft>({ check: 'simulation', from, to, reason: '' });
  const [tried, setTried] = useState(false);
  const { saving, save } = useSave();
  const reading = readGap(draft);
  const errors = tried && !reading.ok ? reading.errors : {};
  const change = (changes: Partial<GapDraft>) => setDraft({ ...draft, ...changes });

  const submit = async (): Promise<Submission> => {
    setTried(true);
    if (!reading.ok || !canWrite) return 'stopped';
    const { description } = reading;
    const written = await save([draft.check, draft.from, draft.to, description.reason, by], () => [
      {
        id: crypto.randomUUID(),
        by,
        kind: 'gap-explained',
        body: { gapId: crypto.randomUUID(), analyzerId: analyzer.id, ...description },
      },
    ]);
    if (written) onClose();
    return 'tried';
  };

  return (
    <RecordForm heading="h3" onSubmit={submit} title={`Why it was not made on ${analyzer.description.label}`}>
      <p className="quiet">
        The reason stands beside the weeks from then on, here, in the sign-off and in the report. They stay
        missed or late: a reason makes no run.
      </p>
      <ChoiceField
        choices={choices}
        label="Check"
        onChoice={(check) => change({ check })}
        value={draft.check}
      />
      <div className="pairs">
        <InputField
          error={errors.from}
          label="First day"
          onText={(text) => change({ from: text })}
          type="date"
          value={draft.from}
        />
        <InputField
          error={errors.to}
          label="Last day"
          onText={(text) => change({ to: text })}
          type="date"
          value={draft.to}
        />
      </div>
      <TextAreaField
        error={errors.reason}
        label="Reason"
        onText={(text) => change({ reason: text })}
        required
        value={draft.reason}
      />
      <WrittenBy tried={tried} />
      <SaveLine
        action="Write the reason down"
        onCancel={onClose}
        saving={saving}
        trouble={tried && (!reading.ok || !canWrite) ? 'Not written yet: see the marked fields.' : undefined}
      />
    </RecordForm>
  );
}
