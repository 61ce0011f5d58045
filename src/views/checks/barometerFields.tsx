import type { AgainstReference, PressureUnit } from '../../core/index.ts';
import { InlineChoice, InputField, plainChoices } from '../parts/field.tsx';
import { pressureUnits } from '../parts/words.ts';
import type { BarometerDraft } from './checkDraft.ts';
import { JudgedLine } from './judgedLine.tsx';
import { againstLimit } from './judgedWords.ts';
import type { BarometerErrors } from './readBarometer.ts';

const units = plainChoices<PressureUnit>(pressureUnits);

/** The laboratory's barometer and the one it is compared with, read at the same place and time. */
export function BarometerFields({
  draft,
  errors,
  judged,
  limitFraction,
  tried,
  onChange,
}: {
  draft: BarometerDraft;
  errors: BarometerErrors;
  judged: AgainstReference | null;
  limitFraction: number;
  tried: boolean;
  onChange: (barometer: BarometerDraft) => void;
}) {
  return (
    <>
      <InputField
        after={
          <InlineChoice
            choices={units}
            name="Unit of both pressures"
            onChoice={(unit) => onChange({ ...draft, unit })}
            value={draft.unit}
          />
        }
        error={tried ? errors.read : undefined}
        inputMode="decimal"
        label="Laboratory’s barometer"
        onText={(read) => onChange({ ...draft, read })}
        value={draft.read}
      />
      <InputField
        after={<span className="unit">{draft.unit}</span>}
        error={tried ? errors.reference : undefined}
        hint="At the height of the laboratory: a weather service names the pressure at sea level."
        inputMode="decimal"
        label="Reference"
        onText={(reference) => onChange({ ...draft, reference })}
        value={draft.reference}
      />
      <JudgedLine
        sentence={judged === null ? '' : againstLimit(judged, limitFraction, 'the reference')}
        within={judged?.within ?? null}
      />
    </>
  );
}
