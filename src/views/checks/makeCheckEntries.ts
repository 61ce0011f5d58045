/** What the form of a check writes. Ids are drawn here, when the button is pressed. */
import type { EntryDraft } from '../../journal/entries.ts';
import type { Syringe } from '../../journal/logbook.ts';
import type { AskedCheck } from './checkAddress.ts';
import type { CheckContent } from './readCheck.ts';

const newId = () => crypto.randomUUID();

export function noteCheck(
  { check, about, investigates }: Pick<AskedCheck, 'check' | 'about' | 'investigates'>,
  content: CheckContent,
  by: string,
): EntryDraft {
  return {
    id: newId(),
    by,
    kind: 'check-done',
    body: { checkId: newId(), check, ...about, technologistId: by, ...content, investigates },
  };
}

/**
 * The volume of its certificate on the syringe's own record: what a volume calibration check is then expected to read. No
 * target of a run rests on it, so that no baseline follows.
 */
export function writeCertifiedVolume(
  { id, description }: Pick<Syringe, 'id' | 'description'>,
  { measuredL, certificate }: NonNullable<CheckContent['syringe']>,
  by: string,
): EntryDraft {
  return {
    id: newId(),
    by,
    kind: 'syringe-changed',
    body: {
      ...description,
      certifiedVolumeL: measuredL,
      syringeId: id,
      reason:
        certificate === '' ? 'From its calibration.' : `From its calibration, certificate ${certificate}.`,
    },
  };
}

/** Offered where it says something new; ticked by itself where the volume is within its limit. */
export function recordTick(
  syringe: Pick<Syringe, 'description'> | undefined,
  measuredL: number | undefined,
  within: boolean,
  chosen: boolean | null,
): { isOffered: boolean; isTicked: boolean } {
  const isOffered =
    syringe !== undefined && measuredL !== undefined && measuredL !== syringe.description.certifiedVolumeL;
  return { isOffered, isTicked: isOffered && (chosen ?? within) };
}
