/** The hose or filter left on a syringe for a run: typed in mL, counted in litres with the syringe's dead space. Pure. */
import { withoutBinaryNoise } from '../../journal/binaryNoise.ts';
import type { Attachment } from '../../journal/entries.ts';
import { plain } from '../parts/figures.ts';
import { type NumberSpec, readNumber } from '../parts/readNumber.ts';
import type { BenchDraft } from './benchDraft.ts';

export const mostAttached = 6;

/** Half a litre is a long hose; a hand that types litres or a slipped mark is asked. */
export const attachedVolumeSpec: NumberSpec = {
  name: 'volume of what is left on the syringe',
  unit: 'mL',
  lowest: 1,
  highest: 500,
  example: '35',
  otherUnits: [
    { unit: 'L', lowest: 0.001, highest: 0.5, inThisUnit: (litres) => litres * 1000, canBeChosen: false },
  ],
};

export type ReadAttached = { attached: readonly Attachment[] } | { problem: string };

export function readAttached(rows: BenchDraft['attached']): ReadAttached {
  const attached: Attachment[] = [];
  for (const { name, volume } of rows) {
    const read = readNumber(volume, attachedVolumeSpec);
    if (name.trim() === '') return { problem: 'Say what is left on the syringe, or take it off the list.' };
    if (read.state === 'empty') return { problem: `Type the volume of ${name.trim()}, in mL.` };
    if (read.state === 'wrong') return { problem: `${name.trim()}: ${read.message}` };
    attached.push({ name: name.trim(), volumeL: withoutBinaryNoise(read.value / 1000) });
  }
  return { attached };
}

/** In litres. */
export const volumeOf = (attached: readonly Attachment[] = []): number =>
  attached.reduce((sum, { volumeL }) => sum + volumeL, 0);

/** `filter, 35 mL`; "nothing" for an empty list. */
export const attachedWords = (rows: BenchDraft['attached']): string =>
  rows.length === 0
    ? 'nothing'
    : rows.map(({ name, volume }) => `${name || 'not named'}, ${volume || '–'} mL`).join('; ');

/** The same for what is recorded, volumes in litres. */
export const recordedWords = (attached: readonly Attachment[] = []): string =>
  attached.map(({ name, volumeL }) => `${name}, ${plain(withoutBinaryNoise(volumeL * 1000))} mL`).join('; ');
