/** The fields of a run, filled in at the bench and when a run is amended, in the order in which an analyzer shows its numbers. */
import { InputField, TextAreaField } from '../parts/field.tsx';
import { localMinute } from '../parts/localTime.ts';
import { LeftOn } from './leftOn.tsx';
import { MeasuredField } from './measuredField.tsx';
import type { RunForm } from './runForm.ts';
import { troubleOf } from './trouble.tsx';
import { AnalyzerField, ReasonField, RouteField, SyringeField, TechnologistField } from './whoFields.tsx';
import './runForm.css';

export function RunFields({ form }: { form: RunForm }) {
  const { draft, change } = form;
  return (
    <>
      <div className="stack">
        <WhoAndWhat form={form} />
        <LeftOn form={form} />
      </div>
      <fieldset className="stack group">
        <legend>The room</legend>
        <MeasuredField field="temperature" form={form} />
        <MeasuredField field="pressure" form={form} />
        <MeasuredField field="humidity" form={form} />
      </fieldset>
      <fieldset className="stack group">
        <legend>The analyzer reports</legend>
        <MeasuredField field="va" form={form} />
        <MeasuredField field="dlco" form={form} />
        <MeasuredField field="inspiredVolume" form={form} />
        <MeasuredField field="breathHold" form={form} />
        <MeasuredField field="volumeCheck" form={form} />
      </fieldset>
      <TextAreaField label="Comment" onText={(comment) => change({ comment })} value={draft.comment} />
    </>
  );
}

function WhoAndWhat({ form }: { form: RunForm }) {
  const { draft, change, unlessTyped, hints } = form;
  return (
    <fieldset className="pairs run-form__who">
      <legend className="for-readers">Analyzer, syringe and person</legend>
      <AnalyzerField form={form} />
      <SyringeField form={form} />
      <TechnologistField form={form} />
      <RouteField form={form} />
      <ReasonField form={form} />
      <InputField
        data-field="madeAt"
        error={troubleOf(form, 'madeAt')}
        hint={hints.madeAt}
        label="Made at"
        onBlur={() => form.leaveField('madeAt')}
        onText={(madeAt) => change({ madeAt })}
        type="datetime-local"
        value={draft.madeAt === '' ? localMinute(unlessTyped) : draft.madeAt}
      />
    </fieldset>
  );
}
