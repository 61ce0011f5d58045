import { type Ambient, bodyWaterVaporMmHg, type GasCondition, requireAmbient, volumeFactor } from './gas.ts';

/**
 * How a VA reported in BTPS is brought back to the conditions in the syringe.
 * `computed` undoes the analyzer's own correction for the day's room: `assumed` is the gas the analyzer took it to be
 * (cylinder gas is dry, ATPD). `fixed` multiplies by one constant, BTPS → ambient, that a laboratory's procedure names.
 */
export type Conversion = { kind: 'computed'; assumed: 'ATPD' | 'ATPS' } | { kind: 'fixed'; factor: number };

/**
 * The constant many laboratories multiply a BTPS volume by (common practice, no source). It is the factor of
 * *saturated* gas at 20.5 °C and 760 mmHg; on dry gas it reads about 58 mL high at 22 °C and 760 mmHg.
 */
export const customaryFixedFactor = 0.91;

export interface SimulatedVaInput {
  reportedVaL: number;
  reportedAs: GasCondition;
  ambient: Ambient;
  conversion: Conversion;
  /** What the plunger cannot expel, with any hose or filter left on the syringe, in ambient litres. */
  syringeDeadSpaceL: number;
  /** What the analyzer has already subtracted, in ambient litres. */
  analyzerDeadSpaceL: number;
  /** Test gas drawn in, in ambient litres. */
  inspiredVolumeL: number;
}

export interface SimulatedVa {
  /** Multiplies the reported VA to give `ambientVaL`. */
  factor: number;
  /** The reported VA in the conditions of the gas in the syringe, in litres. */
  ambientVaL: number;
  /** What the analyzer found in the syringe, its dead space taken off, in ambient litres. Target: VI + V0, 3 L. */
  simulatedVaL: number;
}

/**
 * The volume that an analyzer found in the syringe, in ambient litres, from the VA it reported.
 * The analyzer computes `VA = (VI − VDa) · FI/FA` and the syringe dilutes to `FA = FI · VI / (VI + V0 + VDs)`; hence
 * `VA · VI / (VI − VDa)` is the whole volume and less `VDs` it is the simulated VA. A VA not reported in BTPS goes to
 * ambient dry by `volumeFactor`, whatever `conversion` says: there is no BTPS correction to undo.
 * Source: mass balance, derived.
 * @throws {RangeError} if an argument is not a possible volume, or `inspiredVolumeL` does not exceed `analyzerDeadSpaceL`.
 * @example 3.45 L BTPS at 22 °C, 760 mmHg, 0.110 L in the syringe, 3 L drawn in, nothing subtracted by the analyzer:
 * computed dry 2.970 L; with a fixed factor of 0.91, 3.030 L.
 */
export function simulatedVa(input: SimulatedVaInput): SimulatedVa {
  const {
    reportedVaL,
    reportedAs,
    ambient,
    conversion,
    syringeDeadSpaceL,
    analyzerDeadSpaceL,
    inspiredVolumeL,
  } = input;
  requirePositiveLitres('simulatedVa', 'reportedVaL', reportedVaL);
  requireLitres('simulatedVa', 'syringeDeadSpaceL', syringeDeadSpaceL);
  requireLitres('simulatedVa', 'analyzerDeadSpaceL', analyzerDeadSpaceL);
  requirePositiveLitres('simulatedVa', 'inspiredVolumeL', inspiredVolumeL);
  if (inspiredVolumeL <= analyzerDeadSpaceL) {
    throw new RangeError(
      `simulatedVa: inspiredVolumeL is ${inspiredVolumeL} L, not greater than analyzerDeadSpaceL, ${analyzerDeadSpaceL} L`,
    );
  }
  const factor = ambientFactor(reportedAs, ambient, conversion);
  const ambientVaL = factor * reportedVaL;
  const wholeVolumeL = (ambientVaL * inspiredVolumeL) / (inspiredVolumeL - analyzerDeadSpaceL);
  return { factor, ambientVaL, simulatedVaL: wholeVolumeL - syringeDeadSpaceL };
}

/**
 * The number a reported volume is multiplied by to give litres as they were in the syringe.
 * @throws {RangeError} if a condition of the room is impossible or a fixed factor is not positive.
 * @example ambientFactor('BTPS', { temperatureC: 22, barometricMmHg: 760 }, { kind: 'computed', assumed: 'ATPD' }) // 0.8928
 */
export function ambientFactor(reportedAs: GasCondition, ambient: Ambient, conversion: Conversion): number {
  requireConversion('ambientFactor', conversion);
  if (reportedAs !== 'BTPS') return volumeFactor(reportedAs, 'ATPD', ambient);
  if (conversion.kind === 'computed') return volumeFactor('BTPS', conversion.assumed, ambient);
  // A fixed factor takes no notice of the room, but a room in which no BTPS volume can be must not pass unnoticed.
  requireAmbient('ambientFactor', ambient);
  if (ambient.barometricMmHg <= bodyWaterVaporMmHg) {
    throw new RangeError(
      `ambientFactor: ambient.barometricMmHg is ${ambient.barometricMmHg} mmHg, not above 47 mmHg`,
    );
  }
  return conversion.factor;
}

/**
 * What a vital-capacity manoeuvre with the syringe should read, in litres BTPS: the whole stroke, turned into BTPS by
 * the correction that the analyzer is declared to make.
 * @throws {RangeError} if the stroke is not positive or a condition of the room is impossible.
 * @example a 3 L stroke with a fixed factor of 0.91 reads 3.297 L: the trade's "about 3.3" (common practice, no source).
 */
export function expectedVolumeCheckL(input: {
  strokeL: number;
  ambient: Ambient;
  conversion: Conversion;
}): number {
  requirePositiveLitres('expectedVolumeCheckL', 'strokeL', input.strokeL);
  return input.strokeL / ambientFactor('BTPS', input.ambient, input.conversion);
}

function requireConversion(caller: string, conversion: Conversion): void {
  if (
    conversion.kind === 'fixed' &&
    !(conversion.factor > 0 && conversion.factor < Number.POSITIVE_INFINITY)
  ) {
    throw new RangeError(`${caller}: conversion.factor is ${conversion.factor}, not a positive ratio`);
  }
}

function requireLitres(caller: string, name: string, value: number): void {
  if (!(value >= 0 && value < Number.POSITIVE_INFINITY))
    throw new RangeError(`${caller}: ${name} is ${value} L`);
}

function requirePositiveLitres(caller: string, name: string, value: number): void {
  if (!(value > 0 && value < Number.POSITIVE_INFINITY))
    throw new RangeError(`${caller}: ${name} is ${value} L`);
}
