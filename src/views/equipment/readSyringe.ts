/** From the typed syringe form to the description that goes into the journal, and what is asked about it. Pure. */
import { withoutBinaryNoise } from '../../journal/binaryNoise.ts';
import type { Attachment, SyringeDescription } from '../../journal/entries.ts';
import { litresAsTyped, litresTyped, signedPercent } from '../parts/figures.ts';
import { type Errors, type FormReading, finish } from '../parts/formReading.ts';
import { type NumberSpec, readNumber } from '../parts/readNumber.ts';
import {
  litresInField,
  millilitresInField,
  readDay,
  readDeadSpaceMl,
  readLabel,
  readMillilitres,
} from './formReading.ts';
import { nameKey } from './namesTaken.ts';

/** The `key` tells the rows apart while they are typed; it goes nowhere. */
export interface AttachmentDraft {
  key: string;
  name: string;
  volumeMl: string;
}

export interface SyringeDraft {
  label: string;
  serial: string;
  volumeL: string;
  certifiedVolumeL: string;
  deadSpaceMl: string;
  attachments: readonly AttachmentDraft[];
  calibrationDueOn: string;
  leakCheckDueOn: string;
}

export const emptySyringe: SyringeDraft = {
  label: '',
  serial: '',
  get volumeL() {
    return litresTyped(3);
  },
  certifiedVolumeL: '',
  deadSpaceMl: '',
  attachments: [],
  calibrationDueOn: '',
  leakCheckDueOn: '',
};

/** As many as the journal takes. */
export const mostAttachments = 6;

export const syringeDraftOf = (description: SyringeDescription): SyringeDraft => ({
  label: description.label,
  serial: description.serial,
  volumeL: litresInField(description.volumeL),
  certifiedVolumeL:
    description.certifiedVolumeL === undefined ? '' : litresInField(description.certifiedVolumeL),
  deadSpaceMl: millilitresInField(description.deadSpaceL),
  attachments: (description.attachments ?? []).map(({ name, volumeL }, index) => ({
    key: `attachment ${index}`,
    name,
    volumeMl: millilitresInField(volumeL),
  })),
  calibrationDueOn: description.calibrationDueOn ?? '',
  leakCheckDueOn: description.leakCheckDueOn ?? '',
});

const volumeSpec: NumberSpec = {
  name: 'volume',
  unit: 'L',
  lowest: 1,
  highest: 7,
  example: '3.00',
  otherUnits: [
    {
      unit: 'mL',
      lowest: 1000,
      highest: 7000,
      inThisUnit: (millilitres) => millilitres / 1000,
      canBeChosen: false,
    },
  ],
};

export function readSyringe(draft: SyringeDraft): FormReading<SyringeDraft, SyringeDescription> {
  const errors: Errors<SyringeDraft> = {};
  const label = readLabel(draft.label, errors);
  const volume = readNumber(draft.volumeL, volumeSpec);
  if (volume.state === 'wrong') errors.volumeL = volume.message;
  if (volume.state === 'empty')
    errors.volumeL = `Type the nominal volume, ${litresTyped(3)} L for a 3-litre syringe.`;
  const certified = readNumber(draft.certifiedVolumeL, volumeSpec);
  if (certified.state === 'wrong') errors.certifiedVolumeL = certified.message;
  const deadSpace = readDeadSpaceMl(draft.deadSpaceMl);
  if (deadSpace.message) errors.deadSpaceMl = deadSpace.message;
  const attachments = readAttachments(draft.attachments);
  if (attachments === null) errors.attachments = 'Look at the hoses and filters.';
  const calibration = readDay(draft.calibrationDueOn);
  if (calibration.message) errors.calibrationDueOn = calibration.message;
  const leakCheck = readDay(draft.leakCheckDueOn);
  if (leakCheck.message) errors.leakCheckDueOn = leakCheck.message;
  return finish(errors, {
    label,
    serial: draft.serial.trim(),
    volumeL: volume.state === 'number' ? volume.value : 0,
    deadSpaceL: deadSpace.litres,
    calibrationDueOn: calibration.date,
    leakCheckDueOn: leakCheck.date,
    ...(certified.state === 'number' && { certifiedVolumeL: certified.value }),
    ...(attachments !== null && attachments.length > 0 && { attachments }),
  });
}

const isBlank = ({ name, volumeMl }: AttachmentDraft) => name.trim() === '' && volumeMl.trim() === '';

/** One row: what stands in it, or what is wrong beside each of its fields. A row left blank is neither. */
export function readAttachment(
  row: AttachmentDraft,
  rows: readonly AttachmentDraft[],
): { attachment: Attachment | null; name?: string; volumeMl?: string } {
  if (isBlank(row)) return { attachment: null };
  const name = row.name.trim();
  const { litres, message } = readMillilitres(
    row.volumeMl,
    { name: 'volume', example: '50' },
    'Type the volume that it holds, in mL.',
  );
  const namesake = rows.find((other) => nameKey(other.name) === nameKey(name));
  const wrongName =
    name === ''
      ? 'Name it, for example “Hose” or “Filter”.'
      : namesake !== undefined && namesake.key !== row.key
        ? 'Another one here has this name. At the bench nobody could tell them apart.'
        : undefined;
  return {
    attachment: wrongName || message ? null : { name, volumeL: litres },
    ...(wrongName && { name: wrongName }),
    ...(message && { volumeMl: message }),
  };
}

/** Null where a row is wrong. */
function readAttachments(rows: readonly AttachmentDraft[]): Attachment[] | null {
  const read = rows.filter((row) => !isBlank(row)).map((row) => readAttachment(row, rows).attachment);
  return read.every((attachment) => attachment !== null) ? read : null;
}

/** Common practice, no source: a 3 L syringe with its connector holds some 50 to 150 mL that the plunger cannot expel. */
const largeDeadSpaceL = 0.3;
/** Common practice, no source. A syringe is held to ±0.5 % (ATS laboratory manual, 3rd ed.): four times that is likelier a slip. */
const farFromNominal = 0.02;

/** What may be so and is more often a slip; not asked again about what stood there `before`. */
export function askAboutSyringe(
  { volumeL, certifiedVolumeL, deadSpaceL }: SyringeDescription,
  before?: SyringeDescription,
): string[] {
  const questions: string[] = [];
  if (deadSpaceL > largeDeadSpaceL && deadSpaceL !== before?.deadSpaceL) {
    questions.push(
      `A dead space of ${millilitresInField(deadSpaceL)} mL is large: 50 to 150 mL is common. Is it right?`,
    );
  }
  const isNew = certifiedVolumeL !== before?.certifiedVolumeL || volumeL !== before?.volumeL;
  if (certifiedVolumeL !== undefined && isNew) {
    const off = withoutBinaryNoise(certifiedVolumeL / volumeL - 1);
    if (Math.abs(off) > farFromNominal) {
      questions.push(
        `The certificate says ${litresAsTyped(certifiedVolumeL)} L, ${signedPercent(off)} % of the nominal ` +
          `${litresAsTyped(volumeL)} L. A syringe is held to ±0.5 % (ATS laboratory manual, 3rd ed.). Are both right?`,
      );
    }
  }
  return questions;
}
