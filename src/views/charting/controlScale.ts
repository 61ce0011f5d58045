/** How a series of controls writes its numbers: a person's DLCO or VA, or how far a level read from its target. */
import { type DlcoUnit, dlcoFromMlMinMmHg } from '../../core/index.ts';
import type { ControlSeriesName } from '../../journal/entries.ts';
import { dlco, dlcoMean, dlcoSd, litres, litresAsTyped, litresSd, litresTyped } from '../parts/figures.ts';
import type { SeriesScale } from './seriesScale.ts';

export interface ControlScale extends SeriesScale {
  /** What is measured, as a chart's page and a saved picture name it. */
  measured: string;
}

const vaScale: ControlScale = {
  measured: 'VA, BTPS',
  unit: 'L',
  inUnit: (value) => value,
  resolution: 0.01,
  value: litresAsTyped,
  mean: litres,
  sd: litresSd,
  limit: litres,
  tick: (value, step) => (step < 0.01 ? litres(value) : litresTyped(value)),
};

function dlcoScale(unit: DlcoUnit, measured: string, write: (text: string) => string): ControlScale {
  const resolution = unit === 'mL/min/mmHg' ? 0.01 : 0.001;
  const value = (level: number) => write(dlco(level, unit));
  const mean = (level: number) => write(dlcoMean(level, unit));
  return {
    measured,
    unit,
    inUnit: (level) => dlcoFromMlMinMmHg(level, unit),
    resolution,
    value,
    mean,
    sd: (spread) => dlcoSd(spread, unit),
    limit: value,
    tick: (level, step) => (step < resolution ? mean(level) : value(level)),
  };
}

/** A distance says its side. */
export const withSign = (text: string) => (/^−|^0[.,]?0*$/.test(text) ? text : `+${text}`);

export function controlScale(series: ControlSeriesName, unit: DlcoUnit): ControlScale {
  if (series.kind === 'simulator') return dlcoScale(unit, 'DLCO read less its target', withSign);
  return series.quantity === 'va' ? vaScale : dlcoScale(unit, 'DLCO', (text) => text);
}
