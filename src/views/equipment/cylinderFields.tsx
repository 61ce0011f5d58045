import { balancePercent } from '../gases.ts';
import { gasWords } from '../gasNames.ts';
import { IfKnown, InputField } from '../parts/field.tsx';
import { plain } from '../parts/figures.ts';
import type { FieldsProps } from '../parts/formReading.ts';
import { type CylinderDraft, gases, readCylinder } from './readCylinder.ts';
import { SerialField } from './serialField.tsx';

export function CylinderFields({ draft, errors, onChange }: FieldsProps<CylinderDraft>) {
  const reading = readCylinder({ ...draft, label: '–' });
  return (
    <>
      <InputField
        data-long
        error={errors.label}
        hint="What is written on the cylinder, so that it is told from the next one."
        label="Name"
        onText={(label) => onChange({ label })}
        placeholder="Test gas 4"
        value={draft.label}
      />
      <SerialField onChange={onChange} serial={draft.serial} />
      <fieldset className="stack">
        <legend>Contents</legend>
        <p className="quiet small">
          As the certificate says. Leave empty what it does not hold; the rest is whatever balances it.
        </p>
        {gases.map((gas) => (
          <InputField
            after={<span className="unit">%</span>}
            error={errors[gas]}
            inputMode="decimal"
            key={gas}
            label={gasWords[gas]}
            onText={(text) => onChange({ [gas]: text })}
            value={draft[gas]}
          />
        ))}
        <p className="quiet">
          {reading.ok
            ? `Balance: ${plain(balancePercent(reading.description))} %.`
            : 'Balance: not known yet.'}
        </p>
      </fieldset>
      <InputField
        error={errors.expiresOn}
        hint="The last day on which its concentrations are certified."
        label={<IfKnown>Certified until</IfKnown>}
        onText={(expiresOn) => onChange({ expiresOn })}
        type="date"
        value={draft.expiresOn}
      />
    </>
  );
}
