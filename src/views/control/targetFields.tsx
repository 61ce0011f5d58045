import { Fragment } from 'react';
import type { SimulatorLevel } from '../../journal/entries.ts';
import { useLogbook } from '../logbookContext.tsx';
import { ChoiceField, choicesOf, IfKnown, InlineChoice, plainChoices } from '../parts/field.tsx';
import { dlcoUnits, pressureUnits } from '../parts/words.ts';
import '../runForm/judged.css';
import type { LevelDraft } from './controlDraft.ts';
import { NumberField } from './controlField.tsx';
import type { ControlForm } from './useControlForm.ts';

const bases = choicesOf<LevelDraft['basis']>({
  certificate: 'Typed from the certificate',
  computed: 'Computed from the gases',
});
const dlcoChoices = plainChoices(dlcoUnits);
const pressureChoices = plainChoices(pressureUnits);
const noCylinder = 'none';

/** What the gases hold: breathed in, and held as the lung's. */
const fractions = [
  { field: 'inspiredCo', label: 'Inspired CO' },
  { field: 'inspiredTracer', label: 'Inspired tracer' },
  { field: 'alveolarCo', label: 'Alveolar CO' },
  { field: 'alveolarTracer', label: 'Alveolar tracer' },
] as const;

/** How a level's target is known: from its certificate, or from gas fractions, volume and time. */
export function TargetFields({
  form,
  level,
  name,
  change,
}: {
  form: ControlForm;
  level: LevelDraft;
  name: SimulatorLevel;
  change: (changes: Partial<LevelDraft>) => void;
}) {
  const isTakenOver = level.carriedFrom !== null;
  return (
    <>
      <ChoiceField
        choices={bases}
        isTakenOver={isTakenOver}
        label="Target"
        onChoice={(basis) => change({ basis })}
        value={level.basis}
      />
      {level.basis === 'certificate' ? (
        <NumberField
          after={
            <InlineChoice
              choices={dlcoChoices}
              name={`Unit of the target, ${name} level`}
              onChoice={(targetUnit) => change({ targetUnit })}
              value={level.targetUnit}
            />
          }
          field={`${name}.target`}
          form={form}
          isTakenOver={isTakenOver}
          label="Target DLCO"
          onText={(target) => change({ target })}
          value={level.target}
        />
      ) : (
        <Computed change={change} form={form} isTakenOver={isTakenOver} level={level} name={name} />
      )}
      <CylinderOf change={change} form={form} level={level} name={name} />
    </>
  );
}

function Computed({
  form,
  level,
  name,
  change,
  isTakenOver,
}: Parameters<typeof TargetFields>[0] & { isTakenOver: boolean }) {
  return (
    // What was carried needs a look at its result; whoever changes it opens it.
    <details className="why" open={!isTakenOver}>
      <summary>What it is computed from</summary>
      <div className="stack">
        {fractions.map(({ field, label }) => (
          <Fragment key={field}>
            <NumberField
              after={<span className="unit">%</span>}
              field={`${name}.${field}`}
              form={form}
              isTakenOver={isTakenOver}
              label={label}
              onText={(text) => change({ [field]: text })}
              value={level[field]}
            />
          </Fragment>
        ))}
        <NumberField
          after={<span className="unit">L BTPS</span>}
          field={`${name}.targetVa`}
          form={form}
          isTakenOver={isTakenOver}
          label="Simulated VA"
          onText={(targetVa) => change({ targetVa })}
          value={level.targetVa}
        />
        <NumberField
          after={<span className="unit">s</span>}
          field={`${name}.targetBreathHold`}
          form={form}
          isTakenOver={isTakenOver}
          label="Breath-hold time"
          onText={(targetBreathHold) => change({ targetBreathHold })}
          value={level.targetBreathHold}
        />
        <NumberField
          after={
            <InlineChoice
              choices={pressureChoices}
              name={`Unit of pressure, ${name} level`}
              onChoice={(pressureUnit) => change({ pressureUnit })}
              value={level.pressureUnit}
            />
          }
          field={`${name}.pressure`}
          form={form}
          isTakenOver={isTakenOver}
          label="Barometric pressure"
          onText={(pressure) => change({ pressure })}
          onUnit={(unit) => {
            const chosen = pressureUnits.find((one) => one === unit);
            if (chosen !== undefined) change({ pressureUnit: chosen });
          }}
          value={level.pressure}
        />
      </div>
    </details>
  );
}

/** Which of the logbook's cylinders the level's gas came from. */
function CylinderOf({ form, level, name, change }: Parameters<typeof TargetFields>[0]) {
  const { logbook } = useLogbook();
  const cylinders = [...logbook.cylinders.values()].filter(
    ({ id, retired }) => retired === null || id === level.cylinderId,
  );
  if (cylinders.length === 0) return null;
  return (
    <ChoiceField
      choices={[
        { value: noCylinder, label: 'Not said' },
        ...cylinders.map(({ id, description }) => ({ value: id, label: description.label })),
      ]}
      label={<IfKnown>Cylinder</IfKnown>}
      onChoice={(chosen) => change({ cylinderId: chosen === noCylinder ? '' : chosen })}
      value={level.cylinderId === '' ? noCylinder : level.cylinderId}
      warning={form.reading.warnings[`${name}.cylinderId`]}
    />
  );
}
