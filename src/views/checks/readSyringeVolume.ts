/** A syringe's volume as somebody certified or measured it, against its nominal volume. Pure. */
import { type AgainstReference, syringeVolumeCheck } from '../../core/index.ts';
import type { EntryBody } from '../../journal/entries.ts';
import { readNumber } from '../parts/readNumber.ts';
import type { SyringeDraft } from './checkDraft.ts';
import { type FiguresRead, isBlank, syringeVolumeSpec, wrongMessage } from './readFigures.ts';

type SyringeVolume = NonNullable<EntryBody<'check-done'>['syringe']>;

export interface SyringeErrors {
  measured?: string;
}

export function readSyringeVolume(
  draft: SyringeDraft,
  nominalL: number,
  limitFraction: number,
): FiguresRead<SyringeVolume, AgainstReference, SyringeErrors> {
  const certificate = draft.certificate.trim();
  const issuedBy = draft.issuedBy.trim();
  const measured = readNumber(draft.measured, syringeVolumeSpec);
  const wrong = wrongMessage(measured);
  if (measured.state !== 'number') {
    const missing =
      measured.state === 'empty' && (!isBlank(certificate) || !isBlank(issuedBy))
        ? 'Type the volume that the certificate names, or write its number into the note.'
        : undefined;
    const message = wrong ?? missing;
    return {
      figures: null,
      judged: null,
      errors: message === undefined ? {} : { measured: message },
      isWhole: message === undefined,
    };
  }
  const measuredL = measured.value;
  return {
    figures: { nominalL, measuredL, limitFraction, certificate, issuedBy },
    judged: syringeVolumeCheck({ nominalL, measuredL, limitFraction }),
    errors: {},
    isWhole: true,
  };
}
