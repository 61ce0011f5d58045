export type PressureUnit = 'mmHg' | 'kPa' | 'hPa';

/** Conventional millimetre of mercury: 13 595.1 kg/m³ · 9.80665 m/s² · 1 mm, exact. Source: NIST SP 811, appendix B.8. */
const pascalsPerMmHg = 133.322387415;

const pascalsPer: Record<PressureUnit, number> = { mmHg: pascalsPerMmHg, kPa: 1000, hPa: 100 };

/**
 * A pressure in mmHg, given in `unit`.
 * Source: NIST SP 811 (2008), appendix B.8, 1 mmHg (conventional) = 133.3224 Pa.
 * @throws {RangeError} if the value is not a finite positive number.
 * @example pressureInMmHg(101.325, 'kPa') // 760.0 (759.9999)
 */
export function pressureInMmHg(value: number, unit: PressureUnit): number {
  if (!Number.isFinite(value) || value <= 0)
    throw new RangeError(`pressureInMmHg: value is ${value} ${unit}`);
  return unit === 'mmHg' ? value : (value * pascalsPer[unit]) / pascalsPerMmHg;
}
