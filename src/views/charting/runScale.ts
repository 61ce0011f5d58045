/** How a series of runs writes its numbers, and where its published limits lie. */
import {
  type DlcoUnit,
  dlcoFromMlMinMmHg,
  type PublishedLimits,
  publishedDlcoLimit,
  type Quantity,
  type RunNumbers,
} from '../../core/index.ts';
import { dlco, dlcoMean, dlcoSd, litres, litresSd, litresTyped } from '../parts/figures.ts';
import type { SeriesScale } from './seriesScale.ts';

export interface RunScale extends SeriesScale {
  /** What a flawless run reads, in `unit`. */
  target: (numbers: RunNumbers) => number;
  /** How far from the target the published limit lies, in `unit`. */
  tolerance: (limits: PublishedLimits) => number;
}

const vaScale: RunScale = {
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

function dlcoScale(unit: DlcoUnit): RunScale {
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

export const runScale = (quantity: Quantity, unit: DlcoUnit): RunScale =>
  quantity === 'va' ? vaScale : dlcoScale(unit);
