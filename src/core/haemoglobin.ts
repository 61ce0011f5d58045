import { requirePositive } from './impossible.ts';

export type HaemoglobinUnit = 'g/dL' | 'g/L' | 'mmol/L';

/** g/dL in one mmol/L of haemoglobin counted by its iron: a quarter of the molecule, 16 114.5 g/mol. Recalled from laboratory tables. */
const gPerDlPerMmolL = 1.61145;

const gPerDlPer: Record<HaemoglobinUnit, number> = { 'g/dL': 1, 'g/L': 0.1, 'mmol/L': gPerDlPerMmolL };

/**
 * A haemoglobin concentration in g/dL, given in `unit`; mmol/L count one iron each, as laboratories write them.
 * @throws {RangeError} if the value is not a finite positive number.
 * @example haemoglobinGPerDl(9.06, 'mmol/L') // 14.6
 */
export function haemoglobinGPerDl(value: number, unit: HaemoglobinUnit): number {
  requirePositive('haemoglobinGPerDl', 'value', value, unit);
  return value * gPerDlPer[unit];
}
