import { IfKnown, InputField } from '../parts/field.tsx';
import { inField } from '../parts/figures.ts';
import { type FlowName, flowNames, type VolumeDraft } from './checkDraft.ts';
import { JudgedLine } from './judgedLine.tsx';
import { offInWords, volumeSentence } from './judgedWords.ts';
import type { JudgedVolume, VolumeErrors } from './readVolume.ts';

const names: Record<FlowName, string> = { slow: 'Slow', middle: 'Middle', fast: 'Fast' };

/** Three strokes against the volume that should be read, each judged while it is typed. */
export function VolumeFields({
  draft,
  errors,
  judged,
  tried,
  onChange,
}: {
  draft: VolumeDraft;
  errors: VolumeErrors;
  judged: JudgedVolume | null;
  tried: boolean;
  onChange: (volume: VolumeDraft) => void;
}) {
  return (
    <>
      <InputField
        after={<span className="unit">L</span>}
        error={tried ? errors.expected : undefined}
        hint={`The syringe’s own volume where the analyzer shows it as drawn; about ${inField(3.3)} L for a 3 L syringe where it shows BTPS.`}
        inputMode="decimal"
        label="Should read"
        onText={(expected) => onChange({ ...draft, expected })}
        value={draft.expected}
      />
      {flowNames.map((name) => {
        const stroke = judged?.byFlow[name];
        return (
          <div className="pairs" key={name}>
            <InputField
              after={<span className="unit">L</span>}
              beside={stroke === undefined ? undefined : offInWords(stroke)}
              error={tried ? errors.readings[name] : undefined}
              inputMode="decimal"
              label={`${names[name]} flow`}
              onText={(text) => onChange({ ...draft, readings: { ...draft.readings, [name]: text } })}
              value={draft.readings[name]}
            />
            <InputField
              after={<span className="unit">L/s</span>}
              error={tried ? errors.flows[name] : undefined}
              inputMode="decimal"
              label={
                <IfKnown>
                  Rate<span className="for-readers"> of the {name} stroke</span>
                </IfKnown>
              }
              onText={(text) => onChange({ ...draft, flows: { ...draft.flows, [name]: text } })}
              value={draft.flows[name]}
            />
          </div>
        );
      })}
      <JudgedLine
        sentence={judged === null ? '' : volumeSentence(judged)}
        within={judged?.calibration.within ?? null}
      />
    </>
  );
}
