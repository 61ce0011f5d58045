import type { CheckLimits } from '../../core/index.ts';
import { BarometerFields } from './barometerFields.tsx';
import { CertificateFields, MeasuredVolume } from './certificateFields.tsx';
import type { AskedCheck } from './checkAddress.ts';
import type { CheckDraft } from './checkDraft.ts';
import { LinearityFields } from './linearityFields.tsx';
import type { ReadFigures } from './readCheck.ts';
import { VolumeFields } from './volumeFields.tsx';

/** The fields of the figures that the check at hand has. */
export function FigureFields({
  asked: { check, about },
  draft,
  figures,
  limits,
  tried,
  onRecord,
  onChange,
}: {
  asked: Pick<AskedCheck, 'check' | 'about'>;
  draft: CheckDraft;
  figures: ReadFigures;
  limits: CheckLimits;
  tried: boolean;
  /** Of a syringe's calibration: see `CertificateFields`. */
  onRecord: { isTicked: boolean; stands: number | undefined } | null;
  onChange: (changed: Partial<CheckDraft>) => void;
}) {
  switch (figures.of) {
    case 'none':
      return null;
    case 'volume':
      return (
        <VolumeFields
          draft={draft.volume}
          errors={figures.errors}
          judged={figures.judged}
          onChange={(volume) => onChange({ volume })}
          tried={tried}
        />
      );
    case 'linearity':
      return (
        <LinearityFields
          analyzerId={about.analyzerId}
          gases={draft.linearity}
          limitFraction={limits.linearity.fraction}
          onChange={(linearity) => onChange({ linearity })}
          read={figures.gases}
          tried={tried}
        />
      );
    case 'barometer':
      return (
        <BarometerFields
          draft={draft.barometer}
          errors={figures.errors}
          judged={figures.judged}
          limitFraction={limits.barometer.fraction}
          onChange={(barometer) => onChange({ barometer })}
          tried={tried}
        />
      );
    case 'syringe': {
      const fields = {
        draft: draft.syringe,
        errors: figures.errors,
        judged: figures.judged,
        limitFraction: limits.syringe.fraction,
        onChange: (syringe: CheckDraft['syringe']) => onChange({ syringe }),
        tried,
      };
      return check === 'syringe-leak' ? (
        <MeasuredVolume {...fields} isOptional label="Measured volume" />
      ) : (
        <CertificateFields {...fields} onRecord={onRecord} />
      );
    }
  }
}
