/** The shifts that are asked about, in the unit of a series and as they are written. Pure. */
import type { DlcoUnit } from '../../core/index.ts';
import { dlco, millilitres, plain } from '../parts/figures.ts';
import type { OwnSpread } from './ownSpreads.ts';

const vaShiftsL = [0.05, 0.1, 0.2, 0.3];

/** Those in mmol/min/kPa are the others, rounded to its hundredths. */
const dlcoShifts: Readonly<Record<DlcoUnit, readonly number[]>> = {
  'mL/min/mmHg': [0.1, 0.2, 0.3, 0.4, 0.5],
  'mmol/min/kPa': [0.03, 0.07, 0.1, 0.13, 0.17],
};

type Unit = OwnSpread['unit'];

export const shiftsOf = (unit: Unit): readonly number[] => (unit === 'L' ? vaShiftsL : dlcoShifts[unit]);

/** The one that the sentence above the table tells of. */
export const toldShift = (unit: Unit): number => shiftsOf(unit)[1] ?? Number.NaN;

/** Of VA, a shift is written in mL. */
export const shiftUnit = (unit: Unit): string => (unit === 'L' ? 'mL' : unit);
export const shiftFigure = (shift: number, unit: Unit): string =>
  unit === 'L' ? millilitres(shift * 1000) : unit === 'mL/min/mmHg' ? plain(shift) : dlco(shift, unit);
