import { type LimitedCheck, limitedChecks } from '../checkLimitWords.ts';
import { InputField, TextAreaField } from '../parts/field.tsx';
import type { FieldsProps } from '../parts/formReading.ts';
import type { CheckLimitsDraft, SourceField } from './adoptCheckLimits.ts';

type Figure = {
  field: Exclude<keyof CheckLimitsDraft, SourceField>;
  label: string;
  unit: string;
  hint?: string;
};

const figuresOf: Record<LimitedCheck, readonly Figure[]> = {
  biological: [
    {
      field: 'biologicalPercent',
      label: 'DLCO within ±',
      unit: '%',
      hint: 'Of the mean of the first tests. Beyond this or the next, whichever is reached first, a test is out.',
    },
    { field: 'biologicalMl', label: 'DLCO within ±', unit: 'mL/min/mmHg' },
    {
      field: 'biologicalCv',
      label: 'Variation that can be reached',
      unit: '%',
      hint: 'The coefficient of variation of a person’s tests. It is shown beside them and fails none.',
    },
  ],
  simulator: [{ field: 'simulatorMl', label: 'DLCO within ±', unit: 'mL/min/mmHg', hint: 'Of its target.' }],
  volumeCalibration: [
    {
      field: 'volumePercent',
      label: 'Each flow within ±',
      unit: '%',
      hint: 'Of what should be read. Not the one stroke before a run: that limit stands under Published limits.',
    },
  ],
  linearity: [{ field: 'linearityPercent', label: 'Each point within ±', unit: '%', hint: 'Of full scale.' }],
  syringe: [{ field: 'syringePercent', label: 'Volume within ±', unit: '%', hint: 'Of the nominal volume.' }],
  barometer: [
    { field: 'barometerPercent', label: 'Pressure within ±', unit: '%', hint: 'Of the reference.' },
  ],
};

const checks = Object.keys(limitedChecks) as readonly LimitedCheck[];

export function CheckLimitsFields({ draft, errors, onChange }: FieldsProps<CheckLimitsDraft>) {
  return (
    <>
      <InputField
        data-long
        error={errors.edition}
        label="Edition"
        onText={(edition) => onChange({ edition })}
        value={draft.edition}
      />
      {checks.map((check) => (
        <fieldset className="stack" key={check}>
          <legend>{limitedChecks[check]}</legend>
          {figuresOf[check].map(({ field, label, unit, hint }) => (
            <InputField
              after={<span className="unit">{unit}</span>}
              error={errors[field]}
              hint={hint}
              inputMode="decimal"
              key={field}
              label={
                <>
                  {label}
                  <span className="for-readers"> in {unit}</span>
                </>
              }
              onText={(text) => onChange({ [field]: text })}
              value={draft[field]}
            />
          ))}
          <TextAreaField
            error={errors[`${check}Source`]}
            label="Source"
            onText={(text) => onChange({ [`${check}Source`]: text })}
            value={draft[`${check}Source`]}
          />
        </fieldset>
      ))}
    </>
  );
}
