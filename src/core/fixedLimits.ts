import { impossible } from './impossible.ts';
import { coTracerDisagreement, type DlcoUnit, dlcoInMlMinMmHg } from './singleBreath.ts';

/** Limits as a standard printed them. Data, not code: a laboratory may edit them, and each run keeps those of its day. */
export interface PublishedLimits {
  edition: string;
  source: string;
  /** Simulated VA may lie this far from its target, both ends allowed, in litres. */
  vaToleranceL: number;
  /** |DLCO| must lie below this when reported in mL/min/mmHg. */
  dlcoMlMinMmHg: number;
  /** |DLCO| must lie below this when reported in mmol/min/kPa: a limit of its own, never converted from the other. */
  dlcoMmolMinKPa: number;
  /** A volume check may lie this fraction from what is expected, both ends allowed. */
  volumeCheckFraction: number;
  /** Breath-hold time, both ends allowed, in seconds. */
  breathHoldS: { target: number; tolerance: number };
}

/**
 * VA and DLCO: ERS/ATS 2017, equipment table. Breath-hold time: from memory of the same. Volume check: from memory
 * of the 2019 ATS/ERS spirometry standard.
 */
export const publishedLimits2017: PublishedLimits = {
  edition: 'ERS/ATS 2017',
  source:
    'ERS/ATS standards for single-breath carbon monoxide uptake in the lung, Eur Respir J 2017;49:1600016',
  vaToleranceL: 0.3,
  dlcoMlMinMmHg: 0.5,
  dlcoMmolMinKPa: 0.166,
  volumeCheckFraction: 0.03,
  breathHoldS: { target: 10, tolerance: 2 },
};

/**
 * Slack of a limit that includes its ends, in the unit of the value. 3.3 − 3 is 0.2999999999999998 in binary but
 * 2.7 − 3 is −0.2999999999999998 and 3.31 − 3.01 is 0.3000000000000003: without it the end counts or not by chance.
 * A nanolitre is a millionth of what any analyzer displays.
 */
const endSlack = 1e-9;

/** True when `value` lies within `target` ± `tolerance`, both ends included (to 1e-9 of their unit). */
export function isWithinTolerance(value: number, target: number, tolerance: number): boolean {
  return Math.abs(value - target) <= tolerance + endSlack;
}

/**
 * True when a simulated VA lies within the published tolerance of its target, ends included; all in litres.
 * @throws {RangeError} if an argument is not finite.
 * @example isVaWithinPublished(3.3, 3, publishedLimits2017) // true
 */
export function isVaWithinPublished(
  simulatedVaL: number,
  targetVaL: number,
  limits: PublishedLimits,
): boolean {
  if (!Number.isFinite(simulatedVaL))
    throw impossible('isVaWithinPublished', 'simulatedVaL', simulatedVaL, 'L');
  if (!Number.isFinite(targetVaL)) throw impossible('isVaWithinPublished', 'targetVaL', targetVaL, 'L');
  return isWithinTolerance(simulatedVaL, targetVaL, limits.vaToleranceL);
}

/**
 * True when a DLCO as reported lies inside the published limit of its own unit. The limit itself is outside.
 * @throws {RangeError} if the value is not finite.
 * @example isDlcoWithinPublished(0.5, 'mL/min/mmHg', publishedLimits2017) // false
 */
export function isDlcoWithinPublished(dlco: number, unit: DlcoUnit, limits: PublishedLimits): boolean {
  if (!Number.isFinite(dlco)) throw impossible('isDlcoWithinPublished', 'dlco', dlco, unit);
  return Math.abs(dlco) < publishedDlcoLimit(unit, limits);
}

/** @throws {RangeError} naming the caller and the limit, if one is not a positive number. */
export function requirePublishedLimits(caller: string, limits: PublishedLimits): void {
  const { vaToleranceL, dlcoMlMinMmHg, dlcoMmolMinKPa, volumeCheckFraction, breathHoldS } = limits;
  const isPossible =
    isPositive(vaToleranceL) &&
    isPositive(dlcoMlMinMmHg) &&
    isPositive(dlcoMmolMinKPa) &&
    isPositive(volumeCheckFraction) &&
    isPositive(breathHoldS.target) &&
    isPositive(breathHoldS.tolerance);
  if (!isPossible) throw impossibleLimit(caller, limits);
}

function impossibleLimit(caller: string, limits: PublishedLimits): RangeError {
  const values: readonly (readonly [string, number, string])[] = [
    ['vaToleranceL', limits.vaToleranceL, 'L'],
    ['dlcoMlMinMmHg', limits.dlcoMlMinMmHg, 'mL/min/mmHg'],
    ['dlcoMmolMinKPa', limits.dlcoMmolMinKPa, 'mmol/min/kPa'],
    ['volumeCheckFraction', limits.volumeCheckFraction, 'of what is expected'],
    ['breathHoldS.target', limits.breathHoldS.target, 's'],
    ['breathHoldS.tolerance', limits.breathHoldS.tolerance, 's'],
  ];
  const [name, value, unit] = values.find(([, each]) => !isPositive(each)) ?? ['', Number.NaN, ''];
  return impossible(caller, `limits.${name}`, value, unit);
}

function isPositive(value: number): boolean {
  return value > 0 && value < Number.POSITIVE_INFINITY;
}

/**
 * How far the CO and the tracer analyzer may disagree before the published DLCO limit is reached, as fractions by which CO
 * reads low: `low` at the positive limit, `high` (negative) at the negative one.
 * @throws {RangeError} if volume, time or a limit is not positive.
 * @example disagreementAtLimit({ vaBtpsL: 3.3, breathHoldS: 10, unit: 'mL/min/mmHg', limits: publishedLimits2017 }).low // 0.0216
 */
export function disagreementAtLimit(input: {
  vaBtpsL: number;
  breathHoldS: number;
  unit: DlcoUnit;
  limits: PublishedLimits;
}): { low: number; high: number } {
  const { vaBtpsL, breathHoldS, unit, limits } = input;
  requirePublishedLimits('disagreementAtLimit', limits);
  const dlcoMlMinMmHg = dlcoInMlMinMmHg(publishedDlcoLimit(unit, limits), unit);
  return {
    low: coTracerDisagreement({ dlcoMlMinMmHg, vaBtpsL, breathHoldS }),
    high: coTracerDisagreement({ dlcoMlMinMmHg: -dlcoMlMinMmHg, vaBtpsL, breathHoldS }),
  };
}

/** The published DLCO limit for values reported in `unit`, in that unit. */
export function publishedDlcoLimit(unit: DlcoUnit, limits: PublishedLimits): number {
  return unit === 'mL/min/mmHg' ? limits.dlcoMlMinMmHg : limits.dlcoMmolMinKPa;
}
