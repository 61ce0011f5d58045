import { LeftOn } from '../runForm/leftOn.tsx';
import { MeasuredField } from '../runForm/measuredField.tsx';
import type { RunForm } from '../runForm/runForm.ts';
import {
  AnalyzerField,
  ReasonField,
  RouteField,
  SyringeField,
  TechnologistField,
} from '../runForm/whoFields.tsx';

export function SetUpFields({ form }: { form: RunForm }) {
  return (
    <fieldset className="stack">
      <legend className="for-readers">Person, analyzer and syringe</legend>
      <TechnologistField form={form} />
      <AnalyzerField form={form} />
      <SyringeField form={form} />
      <LeftOn form={form} />
      <RouteField form={form} />
      <ReasonField form={form} />
    </fieldset>
  );
}

export function RoomFields({ form }: { form: RunForm }) {
  return (
    <fieldset className="stack">
      <legend className="for-readers">The room</legend>
      <MeasuredField field="temperature" form={form} />
      <MeasuredField field="pressure" form={form} />
      <MeasuredField field="humidity" form={form} />
    </fieldset>
  );
}

export function ReadingFields({ form }: { form: RunForm }) {
  return (
    <fieldset className="stack">
      <legend className="for-readers">The analyzer reports</legend>
      <MeasuredField field="va" form={form} />
      <MeasuredField field="dlco" form={form} />
      <MeasuredField field="inspiredVolume" form={form} />
      <MeasuredField field="breathHold" form={form} />
    </fieldset>
  );
}
