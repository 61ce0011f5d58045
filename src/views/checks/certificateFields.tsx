import type { AgainstReference } from '../../core/index.ts';
import { IfKnown, InputField, TickField } from '../parts/field.tsx';
import { litresAsTyped } from '../parts/figures.ts';
import type { SyringeDraft } from './checkDraft.ts';
import { JudgedLine } from './judgedLine.tsx';
import { syringeSentence } from './judgedWords.ts';
import type { SyringeErrors } from './readSyringeVolume.ts';

interface SyringeFieldsProps {
  draft: SyringeDraft;
  errors: SyringeErrors;
  judged: AgainstReference | null;
  limitFraction: number;
  tried: boolean;
  onChange: (syringe: SyringeDraft) => void;
}

/** What a certificate says of a syringe, and whether its volume goes to the syringe's record. */
export function CertificateFields({
  onRecord,
  ...fields
}: SyringeFieldsProps & {
  /** What stands on the syringe's record, and the tick; null where there is nothing to write there. */
  onRecord: { isTicked: boolean; stands: number | undefined } | null;
}) {
  const { draft, onChange } = fields;
  return (
    <>
      <MeasuredVolume {...fields} label="Certified volume" />
      <InputField
        data-long
        label={<IfKnown>Certificate</IfKnown>}
        onText={(certificate) => onChange({ ...draft, certificate })}
        placeholder="Its number"
        value={draft.certificate}
      />
      <InputField
        data-long
        label={<IfKnown>Issued by</IfKnown>}
        onText={(issuedBy) => onChange({ ...draft, issuedBy })}
        value={draft.issuedBy}
      />
      {onRecord === null ? null : (
        <div>
          <TickField
            checked={onRecord.isTicked}
            label="Write this volume on the syringe’s record."
            onTick={(writesRecord) => onChange({ ...draft, writesRecord })}
          />
          <p className="quiet small check-tick-note">
            {onRecord.stands === undefined
              ? 'No certified volume stands there yet.'
              : `${litresAsTyped(onRecord.stands)} L stands there.`}{' '}
            A volume calibration check is then expected to read it. The target of a run stays the nominal
            volume, so no baseline changes.
          </p>
        </div>
      )}
    </>
  );
}

/** A volume against the syringe's nominal one, judged while it is typed. */
export function MeasuredVolume({
  draft,
  errors,
  judged,
  limitFraction,
  tried,
  onChange,
  label,
  isOptional = false,
}: SyringeFieldsProps & { label: string; isOptional?: boolean }) {
  return (
    <>
      <InputField
        after={<span className="unit">L</span>}
        error={tried ? errors.measured : undefined}
        inputMode="decimal"
        label={
          isOptional ? (
            <>
              {label} <span className="field__optional">if measured</span>
            </>
          ) : (
            label
          )
        }
        onText={(measured) => onChange({ ...draft, measured })}
        value={draft.measured}
      />
      <JudgedLine
        sentence={judged === null ? '' : syringeSentence(judged, limitFraction)}
        within={judged?.within ?? null}
      />
    </>
  );
}
