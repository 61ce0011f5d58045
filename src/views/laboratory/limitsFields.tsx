import { InputField, TextAreaField } from '../parts/field.tsx';
import type { FieldsProps } from '../parts/formReading.ts';
import type { LimitsDraft } from './adoptLimits.ts';

export function LimitsFields({ draft, errors, onChange }: FieldsProps<LimitsDraft>) {
  const figure = (field: keyof LimitsDraft, label: string, unit: string, hint?: string) => (
    <InputField
      after={<span className="unit">{unit}</span>}
      error={errors[field]}
      hint={hint}
      inputMode="decimal"
      label={
        <>
          {label}
          <span className="for-readers"> in {unit}</span>
        </>
      }
      onText={(text) => onChange({ [field]: text })}
      value={draft[field]}
    />
  );
  return (
    <>
      <InputField
        data-long
        error={errors.edition}
        label="Edition"
        onText={(edition) => onChange({ edition })}
        value={draft.edition}
      />
      <TextAreaField
        error={errors.source}
        label="Source"
        onText={(source) => onChange({ source })}
        value={draft.source}
      />
      {figure('vaMl', 'VA within ±', 'mL', 'Of its target; both ends are inside.')}
      {figure('dlcoMl', 'DLCO below', 'mL/min/mmHg', 'On either side of zero; the limit itself is outside.')}
      {figure(
        'dlcoMmol',
        'DLCO below',
        'mmol/min/kPa',
        'A limit of its own: neither is converted into the other.',
      )}
      {figure(
        'volumePercent',
        'Volume check within ±',
        '%',
        'The one stroke read before a run, of what is expected in the room. Not the volume calibration check.',
      )}
      {figure('holdS', 'Breath-hold', 's')}
      {figure('holdToleranceS', 'Breath-hold within ±', 's')}
    </>
  );
}
