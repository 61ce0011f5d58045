/** How the comparison writes its numbers: VA in L and its differences in mL, DLCO in the analyzer's unit throughout. */
import { type DlcoUnit, dlcoFromMlMinMmHg, type Quantity } from '../../core/index.ts';
import {
  dlco,
  dlcoMean,
  litres,
  millilitres,
  signedDlco,
  signedMillilitres,
  tenthsOfMillilitre,
} from '../parts/figures.ts';

export interface DifferenceScale {
  quantity: Quantity;
  readingUnit: string;
  unit: string;
  /** From the core's unit to `unit`. No offset, so that it serves differences, means and SDs alike. */
  inUnit: (value: number) => number;
  /** The smallest step that the analyzer displays, in `unit`. */
  resolution: number;
  /** What a run read, given in the core's unit. */
  reading: (value: number) => string;
  /** A difference, given in `unit` as all below. */
  signed: (value: number) => string;
  /** Without its sign, where a word says which way. */
  size: (value: number) => string;
  /** What is usual, such as `12 ± 11`. */
  meanAndSd: (mean: number, sd: number) => string;
  tick: (value: number, step: number) => string;
}

/** Below this an SD in whole millilitres would have one digit, and that a rounded one. */
const smallSdMl = 10;

const vaScale: DifferenceScale = {
  quantity: 'va',
  readingUnit: 'L',
  unit: 'mL',
  inUnit: (value) => value * 1000,
  resolution: 10,
  reading: litres,
  signed: signedMillilitres,
  size: (value) => millilitres(Math.abs(value)),
  meanAndSd: (mean, sd) => {
    const write = sd < smallSdMl ? tenthsOfMillilitre : millilitres;
    return `${write(mean)} ± ${write(sd)}`;
  },
  tick: (value, step) => (step < 1 ? tenthsOfMillilitre(value) : millilitres(value)),
};

function dlcoScale(unit: DlcoUnit): DifferenceScale {
  const resolution = unit === 'mL/min/mmHg' ? 0.01 : 0.001;
  return {
    quantity: 'dlco',
    readingUnit: unit,
    unit,
    inUnit: (value) => dlcoFromMlMinMmHg(value, unit),
    resolution,
    reading: (value) => dlco(dlcoFromMlMinMmHg(value, unit), unit),
    signed: (value) => signedDlco(value, unit),
    size: (value) => dlco(Math.abs(value), unit),
    meanAndSd: (mean, sd) => `${dlcoMean(mean, unit)} ± ${dlcoMean(sd, unit)}`,
    tick: (value, step) => (step < resolution ? dlcoMean(value, unit) : dlco(value, unit)),
  };
}

export const differenceScale = (quantity: Quantity, unit: DlcoUnit): DifferenceScale =>
  quantity === 'va' ? vaScale : dlcoScale(unit);
