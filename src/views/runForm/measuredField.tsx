/** One number of a run: what stands before, after, beside and under it. */
import type { ReactNode } from 'react';
import { useLogbook } from '../logbookContext.tsx';
import { IfKnown, InlineChoice, InputField, plainChoices } from '../parts/field.tsx';
import { dlcoUnits, gasConditions, pressureUnits, temperatureUnits } from '../parts/words.ts';
import type { FieldWithOrigin, NumberFieldName } from './benchDraft.ts';
import { originWords } from './origins.ts';
import { inOtherUnit } from './otherUnits.ts';
import type { RunForm } from './runForm.ts';
import { Trouble, troubleOf } from './trouble.tsx';

const labels: Record<NumberFieldName, ReactNode> = {
  temperature: 'Temperature',
  pressure: 'Barometric pressure',
  humidity: <IfKnown>Relative humidity</IfKnown>,
  va: 'Alveolar volume, VA',
  dlco: 'DLCO',
  inspiredVolume: <IfKnown>Inspired volume</IfKnown>,
  breathHold: <IfKnown>Breath-hold time</IfKnown>,
  volumeCheck: <IfKnown>Volume check</IfKnown>,
};

const temperatureChoices = plainChoices(temperatureUnits);
const pressureChoices = plainChoices(pressureUnits);
const conditions = plainChoices(gasConditions);
const dlcoChoices = plainChoices(dlcoUnits);

interface Props {
  form: RunForm;
  field: NumberFieldName;
}

export function MeasuredField({ form, field }: Props) {
  const { draft, reading, change, leaveField } = form;
  const origin = useOriginWords(form, field);
  const beside = [inOtherUnit(draft, field), origin].filter((words) => words !== null).join(' · ');
  return (
    <InputField
      after={<UnitOf field={field} form={form} />}
      beside={beside}
      data-field={field}
      error={troubleOf(form, field) ? <Trouble field={field} form={form} /> : undefined}
      inputMode="decimal"
      isTakenOver={origin !== null}
      label={labels[field]}
      onBlur={() => leaveField(field)}
      onText={(text) => change({ [field]: text })}
      value={draft[field]}
      warning={reading.warnings[field]}
    />
  );
}

/** Where a field's value comes from, in words; null where it was typed here. */
export function useOriginWords({ draft, unlessTyped }: RunForm, field: FieldWithOrigin): string | null {
  const { logbook } = useLogbook();
  const origin = draft.origins[field];
  return origin === undefined ? null : originWords(origin, logbook, unlessTyped);
}

function UnitOf({ form: { draft, change }, field }: Props) {
  switch (field) {
    case 'temperature':
      return (
        <InlineChoice
          choices={temperatureChoices}
          name="Thermometer scale"
          onChoice={(temperatureUnit) => change({ temperatureUnit })}
          value={draft.temperatureUnit}
        />
      );
    case 'pressure':
      return (
        <InlineChoice
          choices={pressureChoices}
          name="Unit of pressure"
          onChoice={(pressureUnit) => change({ pressureUnit })}
          value={draft.pressureUnit}
        />
      );
    case 'humidity':
      return <span className="unit">%</span>;
    case 'va':
      return (
        <>
          <span className="unit">L</span>
          <InlineChoice
            choices={conditions}
            name="Condition of VA"
            onChoice={(vaReportedAs) => change({ vaReportedAs })}
            value={draft.vaReportedAs}
          />
        </>
      );
    case 'dlco':
      return (
        <InlineChoice
          choices={dlcoChoices}
          name="Unit of DLCO"
          onChoice={(dlcoUnit) => change({ dlcoUnit })}
          value={draft.dlcoUnit}
        />
      );
    case 'inspiredVolume':
      return <span className="unit">L {draft.vaReportedAs}</span>;
    case 'volumeCheck':
      return <span className="unit">L BTPS</span>;
    case 'breathHold':
      return <span className="unit">s</span>;
  }
}
