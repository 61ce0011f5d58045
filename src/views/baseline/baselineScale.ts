/** How the numbers of one series are written on the desk: litres, or DLCO in the unit that it is reported in. */
import { type DlcoUnit, dlcoFromMlMinMmHg, type Quantity } from '../../core/index.ts';
import { dlcoMean, dlcoSd, litres, litresSd, signedDlco, signedMillilitres } from '../parts/figures.ts';

export interface BaselineScale {
  unit: string;
  value: (value: number) => string;
  sd: (value: number) => string;
  /** With its unit: litres are told apart in millilitres. */
  difference: (value: number) => string;
}

/** Values are in L or in mL/min/mmHg, as the core has them. */
export function baselineScale(quantity: Quantity, dlcoUnit: DlcoUnit): BaselineScale {
  if (quantity === 'va') {
    return {
      unit: 'L',
      value: litres,
      sd: litresSd,
      difference: (value) => `${signedMillilitres(value * 1000)} mL`,
    };
  }
  const inUnit = (value: number) => dlcoFromMlMinMmHg(value, dlcoUnit);
  return {
    unit: dlcoUnit,
    value: (value) => dlcoMean(inUnit(value), dlcoUnit),
    sd: (value) => dlcoSd(inUnit(value), dlcoUnit),
    difference: (value) => `${signedDlco(inUnit(value), dlcoUnit)} ${dlcoUnit}`,
  };
}
