/** What the readings of a check's figures have in common. Pure. */
import type { NumberSpec, ReadNumber } from '../parts/readNumber.ts';

export interface FiguresRead<Figures, Judged, Problems> {
  /** What is written; null while nothing is typed, or not enough. */
  figures: Figures | null;
  /** How it comes out, as soon as there is something to judge. */
  judged: Judged | null;
  errors: Problems;
  /** Nothing that was typed stands in the way. */
  isWhole: boolean;
}

/** The sentence of a field that has to be filled, or that holds no number. */
export function neededMessage(read: ReadNumber, empty: string): string | undefined {
  if (read.state === 'wrong') return read.message;
  return read.state === 'empty' ? empty : undefined;
}

export const wrongMessage = (read: ReadNumber): string | undefined =>
  read.state === 'wrong' ? read.message : undefined;

export const isBlank = (text: string) => text.trim() === '';

/** What a calibration syringe can hold; typed in mL it is recognised. */
export const syringeVolumeSpec: NumberSpec = {
  name: 'volume',
  unit: 'L',
  lowest: 0.5,
  highest: 8,
  example: '3.004',
  otherUnits: [
    {
      unit: 'mL',
      lowest: 500,
      highest: 8000,
      inThisUnit: (millilitres) => millilitres / 1000,
      canBeChosen: false,
    },
  ],
};
