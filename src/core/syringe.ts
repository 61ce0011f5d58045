import { type Ambient, type GasCondition, volumeFactor } from './gas.ts';
import { impossible } from './impossible.ts';

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
  const { reportedVaL, reportedAs, ambient, conversion, inspiredVolumeL } = input;
  const factor = ambientFactor(reportedAs, ambient, conversion);
  const { syringeDeadSpaceL, analyzerDeadSpaceL } = input;
  if (!areVolumesPossible(reportedVaL, inspiredVolumeL, syringeDeadSpaceL, analyzerDeadSpaceL)) {
    throw impossibleVolumes(input);
  }
  const ambientVaL = factor * reportedVaL;
  const simulatedVaL = volumeFound(ambientVaL, inspiredVolumeL, syringeDeadSpaceL, analyzerDeadSpaceL);
  return { factor, ambientVaL, simulatedVaL };
}

/** The mass balance itself, all in ambient litres. */
export function volumeFound(
  ambientVaL: number,
  inspiredVolumeL: number,
  syringeDeadSpaceL: number,
  analyzerDeadSpaceL: number,
): number {
  return (ambientVaL * inspiredVolumeL) / (inspiredVolumeL - analyzerDeadSpaceL) - syringeDeadSpaceL;
}

export function areVolumesPossible(
  reportedVaL: number,
  inspiredVolumeL: number,
  syringeDeadSpaceL: number,
  analyzerDeadSpaceL: number,
): boolean {
  return (
    isPositive(reportedVaL) &&
    isPositive(inspiredVolumeL) &&
    syringeDeadSpaceL >= 0 &&
    syringeDeadSpaceL < Number.POSITIVE_INFINITY &&
    analyzerDeadSpaceL >= 0 &&
    analyzerDeadSpaceL < inspiredVolumeL
  );
}

/**
 * The number a reported volume is multiplied by to give litres as they were in the syringe.
 * @throws {RangeError} if a condition of the room is impossible or a fixed factor is not positive.
 * @example ambientFactor('BTPS', { temperatureC: 22, barometricMmHg: 760 }, { kind: 'computed', assumed: 'ATPD' }) // 0.8928
 */
export function ambientFactor(reportedAs: GasCondition, ambient: Ambient, conversion: Conversion): number {
  if (conversion.kind === 'computed') {
    return volumeFactor(reportedAs, reportedAs === 'BTPS' ? conversion.assumed : 'ATPD', ambient);
  }
  const { factor } = conversion;
  if (!isPositive(factor)) throw impossible('ambientFactor', 'conversion.factor', factor, '');
  // Asked also where the factor is fixed: a room in which the reported volume cannot be must not pass unnoticed.
  const computed = volumeFactor(reportedAs, 'ATPD', ambient);
  return reportedAs === 'BTPS' ? factor : computed;
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
  const { strokeL, ambient, conversion } = input;
  if (!isPositive(strokeL)) throw new RangeError(`expectedVolumeCheckL: strokeL is ${strokeL} L`);
  return strokeL / ambientFactor('BTPS', ambient, conversion);
}

function impossibleVolumes(input: SimulatedVaInput): RangeError {
  const { reportedVaL, syringeDeadSpaceL, analyzerDeadSpaceL, inspiredVolumeL } = input;
  if (!isPositive(reportedVaL)) return impossibleLitres('reportedVaL', reportedVaL);
  if (!isPositive(inspiredVolumeL)) return impossibleLitres('inspiredVolumeL', inspiredVolumeL);
  if (!(syringeDeadSpaceL === 0 || isPositive(syringeDeadSpaceL))) {
    return impossibleLitres('syringeDeadSpaceL', syringeDeadSpaceL);
  }
  if (!(analyzerDeadSpaceL === 0 || isPositive(analyzerDeadSpaceL))) {
    return impossibleLitres('analyzerDeadSpaceL', analyzerDeadSpaceL);
  }
  return new RangeError(
    `simulatedVa: inspiredVolumeL is ${inspiredVolumeL} L, not greater than analyzerDeadSpaceL, ${analyzerDeadSpaceL} L`,
  );
}

function impossibleLitres(name: string, value: number): RangeError {
  return impossible('simulatedVa', name, value, 'L');
}

function isPositive(value: number): boolean {
  return value > 0 && value < Number.POSITIVE_INFINITY;
}
