import { IfKnown, InputField } from '../parts/field.tsx';

/** The maker's number of an analyzer, a syringe or a cylinder. */
export function SerialField({
  serial,
  onChange,
}: {
  serial: string;
  onChange: (changes: { serial: string }) => void;
}) {
  return (
    <InputField
      data-long
      label={<IfKnown>Serial number</IfKnown>}
      onText={(text) => onChange({ serial: text })}
      value={serial}
    />
  );
}
