/** How one series writes its numbers: its unit, the way there from the core's unit, and its decimals. */
import {
  type DlcoUnit,
  dlcoFromMlMinMmHg,
  type PublishedLimits,
  publishedDlcoLimit,
  type Quantity,
  type RunNumbers,
} from '../../core/index.ts';
import { dlco, dlcoMean, dlcoSd, litres, litresSd, litresTyped } from '../parts/figures.ts';

export interface SeriesScale {
  unit: string;
  /** From the core's unit (L, or mL/min/mmHg) to this one. No offset, so that it serves means and SDs alike. */
  inUnit: (value: number) => number;
  /** The smallest step that the analyzer displays, in `unit`. */
  resolution: number;
  /** What a flawless run reads, in `unit`. */
  target: (numbers: RunNumbers) => number;
  /** How far from the target the published limit lies, in `unit`. */
  tolerance: (limits: PublishedLimits) => number;
  value: (value: number) => string;
  mean: (value: number) => string;
  sd: (value: number) => string;
  /** A published limit, as it is printed in the standard or one digit more. */
  limit: (value: number) => string;
  /** A tick label, with one precision for an axis whose ticks lie `step` apart. */
  tick: (value: number, step: number) => string;
}

const vaScale: SeriesScale = {
  unit: 'L',
  inUnit: (value) => value,
  resolution: 0.01,
  target: ({ targetVaL }) => targetVaL,
  tolerance: ({ vaToleranceL }) => vaToleranceL,
  value: litres,
  mean: litres,
  sd: litresSd,
  limit: litres,
  tick: (value, step) => (step < 0.01 ? litres(value) : litresTyped(value)),
};

function dlcoScale(unit: DlcoUnit): SeriesScale {
  const resolution = unit === 'mL/min/mmHg' ? 0.01 : 0.001;
  return {
    unit,
    inUnit: (value) => dlcoFromMlMinMmHg(value, unit),
    resolution,
    target: () => 0,
    tolerance: (limits) => publishedDlcoLimit(unit, limits),
    value: (value) => dlco(value, unit),
    mean: (value) => dlcoMean(value, unit),
    sd: (value) => dlcoSd(value, unit),
    limit: (value) => dlco(value, unit),
    tick: (value, step) => (step < resolution ? dlcoMean(value, unit) : dlco(value, unit)),
  };
}

export const seriesScale = (quantity: Quantity, unit: DlcoUnit): SeriesScale =>
  quantity === 'va' ? vaScale : dlcoScale(unit);
