import { useRef } from 'react';
import { gasWords } from '../gasNames.ts';
import { useLogbook } from '../logbookContext.tsx';
import { ChoiceField } from '../parts/field.tsx';
import { dayAndTime } from '../parts/figures.ts';
import { dilutionsOf, emptyGas, type GasDraft, mostGases, offeredGases } from './checkDraft.ts';
import { GasFields } from './gasFields.tsx';
import type { ReadGas } from './readLinearity.ts';

/** One gas analyzer beside the other, each against its own dilutions. */
export function LinearityFields({
  analyzerId,
  gases,
  read,
  limitFraction,
  tried,
  onChange,
}: {
  analyzerId: string | null;
  gases: readonly GasDraft[];
  read: readonly ReadGas[];
  limitFraction: number;
  tried: boolean;
  onChange: (gases: readonly GasDraft[]) => void;
}) {
  const { logbook } = useLogbook();
  const frame = useRef<HTMLDivElement>(null);
  const before = dilutionsOf(logbook, analyzerId);
  const isUntouched =
    read.every((gas) => gas.isUntouched) && gases.every(({ fullScale }) => fullScale === '');
  const unused = offeredGases.filter((gas) => !gases.some((one) => one.gas === gas));
  return (
    <div className="stack" ref={frame}>
      {before !== null && isUntouched ? (
        <div>
          <button onClick={() => onChange(before.gases)} type="button">
            Take the dilutions of {dayAndTime(before.doneAt, before.zone)}
          </button>
        </div>
      ) : null}
      {gases.map((gas, index) => {
        const reading = read[index];
        return reading === undefined ? null : (
          <GasFields
            gas={gas}
            key={gas.key}
            limitFraction={limitFraction}
            onChange={(changed) => onChange(gases.map((one) => (one.key === gas.key ? changed : one)))}
            onRemove={
              gases.length > 1
                ? () => {
                    onChange(gases.filter(({ key }) => key !== gas.key));
                    // The button that was pressed goes with its gas.
                    frame.current?.querySelector<HTMLElement>('input, select')?.focus();
                  }
                : null
            }
            read={reading}
            tried={tried}
          />
        );
      })}
      {gases.length < mostGases && unused.length > 0 ? (
        <ChoiceField
          choices={unused.map((gas) => ({ value: gas, label: gasWords[gas] }))}
          label="Another gas"
          onChoice={(gas) => onChange([...gases, emptyGas(gas)])}
          placeholder="Add one…"
          value=""
        />
      ) : null}
    </div>
  );
}
