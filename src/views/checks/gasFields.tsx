import { gasFormulas, gasWords } from '../gasNames.ts';
import { lineSentences } from '../linearityWords.ts';
import { InlineChoice, InputField, plainChoices } from '../parts/field.tsx';
import type { GasDraft } from './checkDraft.ts';
import { JudgedLine } from './judgedLine.tsx';
import { linearitySentence } from './judgedWords.ts';
import { PointTable } from './pointTable.tsx';
import type { ReadGas } from './readLinearity.ts';

const units = plainChoices<GasDraft['unit']>(['%', 'ppm']);

/** One gas: its full scale, its dilutions with what was read, and what the line through them says. */
export function GasFields({
  gas,
  read,
  limitFraction,
  tried,
  onChange,
  onRemove,
}: {
  gas: GasDraft;
  read: ReadGas;
  limitFraction: number;
  tried: boolean;
  onChange: (gas: GasDraft) => void;
  /** Null for the only one. */
  onRemove: (() => void) | null;
}) {
  const { judged } = read;
  return (
    <fieldset className="stack group">
      <legend>{gasWords[gas.gas]}</legend>
      <InputField
        after={
          <InlineChoice
            choices={units}
            name={`Unit of ${gasFormulas[gas.gas]}`}
            onChoice={(unit) => onChange({ ...gas, unit })}
            value={gas.unit}
          />
        }
        error={tried ? read.errors.fullScale : undefined}
        inputMode="decimal"
        label={
          <>
            Full scale<span className="for-readers"> of {gasFormulas[gas.gas]}</span>
          </>
        }
        onText={(fullScale) => onChange({ ...gas, fullScale })}
        value={gas.fullScale}
      />
      <PointTable gas={gas} onPoints={(points) => onChange({ ...gas, points })} read={read} tried={tried} />
      <JudgedLine
        sentence={judged === null ? '' : linearitySentence(judged, limitFraction, gas.unit)}
        within={judged?.within ?? null}
      />
      {judged === null ? null : <p className="quiet small">{lineSentences(judged, gas.unit).join(' ')}</p>}
      {onRemove === null ? null : (
        <div>
          <button data-weight="line" onClick={onRemove} type="button">
            Leave out {gasFormulas[gas.gas]}
          </button>
        </div>
      )}
    </fieldset>
  );
}
