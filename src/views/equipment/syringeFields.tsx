import { IfKnown, InputField } from '../parts/field.tsx';
import type { FieldsProps } from '../parts/formReading.ts';
import { AttachmentRows } from './attachmentRows.tsx';
import type { SyringeDraft } from './readSyringe.ts';
import { SerialField } from './serialField.tsx';

export function SyringeFields({ draft, errors, onChange }: FieldsProps<SyringeDraft>) {
  return (
    <>
      <InputField
        data-long
        error={errors.label}
        label="Name"
        onText={(label) => onChange({ label })}
        placeholder="3 L syringe A"
        value={draft.label}
      />
      <SerialField onChange={onChange} serial={draft.serial} />
      <InputField
        after={<span className="unit">L</span>}
        error={errors.volumeL}
        inputMode="decimal"
        label="Nominal volume"
        onText={(volumeL) => onChange({ volumeL })}
        value={draft.volumeL}
      />
      <InputField
        after={<span className="unit">L</span>}
        error={errors.certifiedVolumeL}
        hint="A volume calibration check is expected to read this. The target of a run stays the nominal volume."
        inputMode="decimal"
        label={<IfKnown>Volume from certificate</IfKnown>}
        onText={(certifiedVolumeL) => onChange({ certifiedVolumeL })}
        value={draft.certifiedVolumeL}
      />
      <InputField
        after={<span className="unit">mL</span>}
        error={errors.deadSpaceMl}
        hint="What the plunger cannot expel, with the hose or filter that always stays on."
        inputMode="decimal"
        label="Dead space"
        onText={(deadSpaceMl) => onChange({ deadSpaceMl })}
        value={draft.deadSpaceMl}
      />
      <AttachmentRows
        areRead={errors.attachments !== undefined}
        onRows={(attachments) => onChange({ attachments })}
        rows={draft.attachments}
      />
      <InputField
        error={errors.calibrationDueOn}
        label={<IfKnown>Calibration due on</IfKnown>}
        onText={(calibrationDueOn) => onChange({ calibrationDueOn })}
        type="date"
        value={draft.calibrationDueOn}
      />
      <InputField
        error={errors.leakCheckDueOn}
        hint="Published: leak and stop at least once a year, and after any drop (ATS laboratory manual, 3rd ed.)."
        label={<IfKnown>Leak check due on</IfKnown>}
        onText={(leakCheckDueOn) => onChange({ leakCheckDueOn })}
        type="date"
        value={draft.leakCheckDueOn}
      />
    </>
  );
}
