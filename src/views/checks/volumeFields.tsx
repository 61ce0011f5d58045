import { publishedVolumeCalibration, type VolumeCalibration } from '../../core/index.ts';
import { InputField } from '../parts/field.tsx';
import { inField, percent, signedPercent } from '../parts/figures.ts';
import { VerdictBadge } from '../parts/verdictMark.tsx';
import type { CheckDraft, CheckErrors } from './readCheck.ts';

const flows = ['Slow flow', 'Middle flow', 'Fast flow'] as const;

/** Up to three readings against the volume that should be read, judged while they are typed. */
export function VolumeFields({
  draft,
  errors,
  judged,
  tried,
  onChange,
}: {
  draft: CheckDraft;
  errors: CheckErrors;
  judged: VolumeCalibration | null;
  tried: boolean;
  onChange: (changed: Partial<CheckDraft>) => void;
}) {
  const [slow, middle, fast] = draft.readings;
  const withReading = (index: number, text: string): CheckDraft['readings'] => [
    index === 0 ? text : slow,
    index === 1 ? text : middle,
    index === 2 ? text : fast,
  ];
  return (
    <>
      <InputField
        after={<span className="unit">L</span>}
        error={tried ? errors.expected : undefined}
        hint={`The syringe’s own volume where the analyzer shows it as drawn; about ${inField(3.3)} L for a 3 L syringe where it shows BTPS.`}
        inputMode="decimal"
        label="Should read"
        onText={(expected) => onChange({ expected })}
        value={draft.expected}
      />
      {flows.map((flow, index) => (
        <InputField
          after={<span className="unit">L</span>}
          error={tried ? errors.readings[index] : undefined}
          inputMode="decimal"
          key={flow}
          label={flow}
          onText={(text) => onChange({ readings: withReading(index, text) })}
          value={draft.readings[index] ?? ''}
        />
      ))}
      <div className="line line--baseline" role="status">
        {judged === null ? null : (
          <>
            <VerdictBadge word={judged.within ? 'pass' : 'fail'} />
            <span>{judgedSentence(judged)}</span>
          </>
        )}
      </div>
    </>
  );
}

/** `Furthest +2.7 %, outside ±2.5 %`. */
function judgedSentence({ worstFraction, within }: VolumeCalibration): string {
  const limit = percent(publishedVolumeCalibration.limitFraction);
  return `Furthest ${signedPercent(worstFraction ?? 0)} %, ${within ? 'inside' : 'outside'} ±${limit} %.`;
}
