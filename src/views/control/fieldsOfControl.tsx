import { BiologicalFields } from './biologicalFields.tsx';
import { SimulatorFields } from './simulatorFields.tsx';
import type { ControlForm } from './useControlForm.ts';

/** The fields of either kind of control, as it is typed and as it is put right. */
export function FieldsOfControl({ form }: { form: ControlForm }) {
  const { draft } = form;
  return draft.kind === 'biological' ? (
    <BiologicalFields draft={draft} form={form} />
  ) : (
    <SimulatorFields draft={draft} form={form} />
  );
}
