/** From the typed cylinder form to the description that goes into the journal, and what is asked about it. Pure. */

import { withoutBinaryNoise } from '../../journal/binaryNoise.ts';
import type { CylinderDescription, Gas } from '../../journal/entries.ts';
import { percentOf, usualPercent } from '../gases.ts';
import { gasWords } from '../gasNames.ts';
import { civilDay, inField, plain } from '../parts/figures.ts';
import { type Errors, type FormReading, finish } from '../parts/formReading.ts';
import { type NumberSpec, readNumber } from '../parts/readNumber.ts';
import { readDay, readLabel } from './formReading.ts';

/** Each gas in % as it was typed, empty where the cylinder holds none of it. */
export type CylinderDraft = { label: string; serial: string; expiresOn: string } & Record<Gas, string>;

/** In the order of the certificate: what is measured first, then what it is made up with. */
export const gases: readonly Gas[] = ['CO', 'CH4', 'He', 'Ne', 'C2H2', 'O2', 'N2'];

export const emptyCylinder: CylinderDraft = {
  label: '',
  serial: '',
  expiresOn: '',
  CO: '',
  CH4: '',
  He: '',
  Ne: '',
  C2H2: '',
  O2: '',
  N2: '',
};

export function cylinderDraftOf({ label, serial, contents, expiresOn }: CylinderDescription): CylinderDraft {
  const draft = { ...emptyCylinder, label, serial, expiresOn: expiresOn ?? '' };
  for (const { gas, fraction } of contents) draft[gas] = inField(percentOf(fraction));
  return draft;
}

const specOf = (gas: Gas): NumberSpec => ({
  name: gasWords[gas],
  unit: '%',
  lowest: 0.001,
  highest: 100,
  example: String(usualPercent[gas]?.usual ?? 79),
  otherUnits: [
    { unit: 'ppm', lowest: 500, highest: 1_000_000, inThisUnit: (ppm) => ppm / 10_000, canBeChosen: false },
  ],
});

export function readCylinder(draft: CylinderDraft): FormReading<CylinderDraft, CylinderDescription> {
  const errors: Errors<CylinderDraft> = {};
  const label = readLabel(draft.label, errors);
  const contents: CylinderDescription['contents'] = [];
  for (const gas of gases) {
    const read = readNumber(draft[gas], specOf(gas));
    if (read.state === 'wrong') errors[gas] = read.message;
    if (read.state === 'number') contents.push({ gas, fraction: withoutBinaryNoise(read.value / 100) });
  }
  const areRead = gases.every((gas) => errors[gas] === undefined);
  if (areRead && contents.length === 0) {
    errors.CO = 'Type what the certificate says of at least one gas, such as CO.';
  }
  const together = withoutBinaryNoise(contents.reduce((sum, { fraction }) => sum + fraction * 100, 0));
  const [largest] = contents.toSorted((one, other) => other.fraction - one.fraction);
  if (areRead && largest !== undefined && together > 100) {
    errors[largest.gas] =
      `Together the gases come to ${plain(together)} %, more than the whole. Look for a slip of the decimal mark.`;
  }
  const expiry = readDay(draft.expiresOn);
  if (expiry.message) errors.expiresOn = expiry.message;
  return finish(errors, { label, serial: draft.serial.trim(), contents, expiresOn: expiry.date });
}

/** What may be so and is more often a slip; not asked again about what stood there `before`. `today`: `2026-03-02`. */
export function askAboutCylinder(
  { contents, expiresOn }: CylinderDescription,
  today: string,
  before?: CylinderDescription,
): string[] {
  const questions = contents.flatMap(({ gas, fraction }) => {
    const usual = usualPercent[gas];
    const stood = before?.contents.find((one) => one.gas === gas);
    const percent = percentOf(fraction);
    if (usual === undefined || stood?.fraction === fraction) return [];
    if (percent >= usual.lowest && percent <= usual.highest) return [];
    return [
      `${gasWords[gas]}: ${plain(percent)} %. In a test gas ${plain(usual.usual)} % is usual. ` +
        'Does the certificate say so?',
    ];
  });
  if (expiresOn !== null && expiresOn < today && expiresOn !== before?.expiresOn) {
    questions.push(`Its certificate ran out on ${civilDay(expiresOn)}. Is the date right?`);
  }
  return questions;
}
