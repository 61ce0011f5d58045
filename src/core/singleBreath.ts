import { bodyWaterVaporMmHg, standardPressureMmHg } from './gas.ts';
import { impossible, requirePositive } from './impossible.ts';

export type DlcoUnit = 'mL/min/mmHg' | 'mmol/min/kPa';

/**
 * mL(STPD)/min/mmHg in one mmol/min/kPa. From memory of the 2017 ERS/ATS standard; ideal-gas arithmetic gives 2.988.
 * For showing and charting one series in one unit only: each published limit is judged in the unit it was reported in.
 */
export const mlMinMmHgPerMmolMinKPa = 2.987;

/**
 * `VA_STPD[mL] · 60 / (PB − 47)` for 1 L BTPS, in mL/min/mmHg · s: 1000 · 60 / 760 · 273.15 / 310.15.
 * `PB − 47` of the conversion to STPD and of the equation cancel.
 */
const uptakePerLitre = ((1000 * 60) / standardPressureMmHg) * (273.15 / 310.15);

export interface GasFractions {
  co: number;
  tracer: number;
}

export interface SingleBreathInput {
  vaBtpsL: number;
  breathHoldS: number;
  barometricMmHg: number;
  inspired: GasFractions;
  alveolar: GasFractions;
}

/**
 * Carbon monoxide uptake in mL(STPD)/min/mmHg from the gas fractions of one breath:
 * `VA_STPD · 60/t / (PB − 47) · ln[(FA,tr / FI,tr) · (FI,CO / FA,CO)]`.
 * At a given VA in BTPS the result does not depend on barometric pressure, since `PB − 47` cancels; the pressure is
 * asked for all the same and must exceed the water vapour, because no breath is possible below it.
 * Source: single-breath equation of the 2005 and 2017 ERS/ATS DLCO standards.
 * @throws {RangeError} if a volume, time, pressure or fraction is impossible.
 * @example 3.3 L BTPS, 10 s, tracer diluted by the syringe's own 3.11/3 and CO read 2.16 % lower: 0.50 mL/min/mmHg
 */
export function singleBreathDlco(input: SingleBreathInput): number {
  const { vaBtpsL, breathHoldS, barometricMmHg, inspired, alveolar } = input;
  requirePositive('singleBreathDlco', 'vaBtpsL', vaBtpsL, 'L');
  requirePositive('singleBreathDlco', 'breathHoldS', breathHoldS, 's');
  if (!(barometricMmHg > bodyWaterVaporMmHg && barometricMmHg < Number.POSITIVE_INFINITY)) {
    throw new RangeError(`singleBreathDlco: barometricMmHg is ${barometricMmHg} mmHg, not above 47 mmHg`);
  }
  requireFraction('inspired.co', inspired.co);
  requireFraction('inspired.tracer', inspired.tracer);
  requireFraction('alveolar.co', alveolar.co);
  requireFraction('alveolar.tracer', alveolar.tracer);
  const logRatio = Math.log((alveolar.tracer / inspired.tracer) * (inspired.co / alveolar.co));
  return ((uptakePerLitre * vaBtpsL) / breathHoldS) * logRatio;
}

/**
 * The fraction by which the CO analyzer reads low against the tracer analyzer (negative: high), from the DLCO that
 * a syringe seems to have. A syringe takes up nothing, so the whole reported value is disagreement.
 * Source: the single-breath equation solved for the ratio of the two gases, derived.
 * @throws {RangeError} if DLCO is not finite, or volume or time not positive.
 * @example coTracerDisagreement({ dlcoMlMinMmHg: 0.5, vaBtpsL: 3.3, breathHoldS: 10 }) // 0.0216
 */
export function coTracerDisagreement(input: {
  dlcoMlMinMmHg: number;
  vaBtpsL: number;
  breathHoldS: number;
}): number {
  const { dlcoMlMinMmHg, vaBtpsL, breathHoldS } = input;
  if (!Number.isFinite(dlcoMlMinMmHg)) {
    throw impossible('coTracerDisagreement', 'dlcoMlMinMmHg', dlcoMlMinMmHg, 'mL/min/mmHg');
  }
  requirePositive('coTracerDisagreement', 'vaBtpsL', vaBtpsL, 'L');
  requirePositive('coTracerDisagreement', 'breathHoldS', breathHoldS, 's');
  return -Math.expm1((-dlcoMlMinMmHg * breathHoldS) / (uptakePerLitre * vaBtpsL));
}

/**
 * The DLCO, in mL(STPD)/min/mmHg, that a syringe seems to have when CO reads low against the tracer by `disagreement`, a
 * fraction (negative: high). The inverse of `coTracerDisagreement`.
 * @throws {RangeError} if the disagreement is not below 1, or volume or time not positive.
 * @example dlcoOfDisagreement({ disagreement: 0.0216, vaBtpsL: 3.3, breathHoldS: 10 }) // 0.50
 */
export function dlcoOfDisagreement(input: {
  disagreement: number;
  vaBtpsL: number;
  breathHoldS: number;
}): number {
  const { disagreement, vaBtpsL, breathHoldS } = input;
  if (!(disagreement < 1 && disagreement > Number.NEGATIVE_INFINITY)) {
    throw new RangeError(`dlcoOfDisagreement: disagreement is ${disagreement}, not a fraction below 1`);
  }
  requirePositive('dlcoOfDisagreement', 'vaBtpsL', vaBtpsL, 'L');
  requirePositive('dlcoOfDisagreement', 'breathHoldS', breathHoldS, 's');
  return ((-uptakePerLitre * vaBtpsL) / breathHoldS) * Math.log1p(-disagreement);
}

/**
 * A DLCO in mL(STPD)/min/mmHg, given in `unit`.
 * @throws {RangeError} if the value is not finite.
 * @example dlcoInMlMinMmHg(0.166, 'mmol/min/kPa') // 0.496, not the 0.5 of the other published limit
 */
export function dlcoInMlMinMmHg(value: number, unit: DlcoUnit): number {
  if (!Number.isFinite(value)) throw impossible('dlcoInMlMinMmHg', 'value', value, unit);
  return unit === 'mL/min/mmHg' ? value : value * mlMinMmHgPerMmolMinKPa;
}

/**
 * A DLCO in `unit`, given in mL(STPD)/min/mmHg.
 * @throws {RangeError} if the value is not finite.
 * @example dlcoFromMlMinMmHg(2.987, 'mmol/min/kPa') // 1
 */
export function dlcoFromMlMinMmHg(dlcoMlMinMmHg: number, unit: DlcoUnit): number {
  if (!Number.isFinite(dlcoMlMinMmHg)) {
    throw impossible('dlcoFromMlMinMmHg', 'dlcoMlMinMmHg', dlcoMlMinMmHg, 'mL/min/mmHg');
  }
  return unit === 'mL/min/mmHg' ? dlcoMlMinMmHg : dlcoMlMinMmHg / mlMinMmHgPerMmolMinKPa;
}

function requireFraction(name: string, value: number): void {
  if (!(value > 0 && value <= 1)) {
    throw new RangeError(`singleBreathDlco: ${name} is ${value}, not a fraction above 0 and up to 1`);
  }
}
