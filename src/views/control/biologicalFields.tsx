import { IfKnown, InlineChoice, plainChoices } from '../parts/field.tsx';
import { dlcoUnits } from '../parts/words.ts';
import type { BiologicalDraft } from './controlDraft.ts';
import { AnalyzerChoice, Comment, MadeAt, NumberField, Technologist } from './controlField.tsx';
import { haemoglobinUnits } from './controlNumbers.ts';
import { inOtherDlcoUnit } from './inOtherUnit.ts';
import { Absent, SubjectField } from './subjectField.tsx';
import type { ControlForm } from './useControlForm.ts';

const dlcoChoices = plainChoices(dlcoUnits);
const haemoglobinChoices = plainChoices(haemoglobinUnits);

/** A person's test, in the order in which an analyzer reports it. */
export function BiologicalFields({ form, draft }: { form: ControlForm; draft: BiologicalDraft }) {
  const { change } = form;
  return (
    <>
      <fieldset className="stack">
        <legend className="for-readers">Subject, analyzer and person</legend>
        <Absent form={form} subjectId={draft.subjectId} />
        <div className="pairs">
          <SubjectField form={form} subjectId={draft.subjectId} />
          <AnalyzerChoice form={form} />
          <Technologist form={form} />
          <MadeAt form={form} />
        </div>
      </fieldset>
      <fieldset className="stack group">
        <legend>The analyzer reports</legend>
        <NumberField
          after={
            <InlineChoice
              choices={dlcoChoices}
              name="Unit of DLCO"
              onChoice={(dlcoUnit) => change({ dlcoUnit })}
              value={draft.dlcoUnit}
            />
          }
          beside={inOtherDlcoUnit(draft.dlco, draft.dlcoUnit)}
          field="dlco"
          form={form}
          label="DLCO"
          onText={(dlco) => change({ dlco })}
          value={draft.dlco}
        />
        <NumberField
          after={<span className="unit">L BTPS</span>}
          field="va"
          form={form}
          label="Alveolar volume, VA"
          onText={(va) => change({ va })}
          value={draft.va}
        />
        <NumberField
          after={<span className="unit">L BTPS</span>}
          field="inspiredVolume"
          form={form}
          label={<IfKnown>Inspired volume</IfKnown>}
          onText={(inspiredVolume) => change({ inspiredVolume })}
          value={draft.inspiredVolume}
        />
      </fieldset>
      <fieldset className="stack group">
        <legend>The person, that day</legend>
        <NumberField
          after={
            <InlineChoice
              choices={haemoglobinChoices}
              name="Unit of haemoglobin"
              onChoice={(haemoglobinUnit) => change({ haemoglobinUnit })}
              value={draft.haemoglobinUnit}
            />
          }
          field="haemoglobin"
          form={form}
          hint="It explains a change and corrects none of the numbers."
          label={<IfKnown>Haemoglobin</IfKnown>}
          onText={(haemoglobin) => change({ haemoglobin })}
          onUnit={(unit) => {
            const chosen = haemoglobinUnits.find((one) => one === unit);
            if (chosen !== undefined) change({ haemoglobinUnit: chosen });
          }}
          value={draft.haemoglobin}
        />
        <Comment
          form={form}
          hint="Never a name, a date of birth or a number of a record: this logbook holds no patient data."
        />
      </fieldset>
    </>
  );
}
