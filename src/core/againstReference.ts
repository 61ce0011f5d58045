import { isWithinTolerance } from './fixedLimits.ts';
import { requirePositive } from './impossible.ts';

/** How a measured value lies to what it should be. */
export interface AgainstReference {
  /** In the unit of the values, and as a fraction of what it should be; positive when it is too large. */
  deviation: number;
  deviationFraction: number;
  within: boolean;
}

/**
 * A syringe's volume, as measured or certified, against its nominal volume, both in litres; ends are in.
 * Source of the usual limit of 0.5 %: ATS laboratory manual, 3rd edition.
 * @throws {RangeError} if a volume or the limit is not a positive number.
 * @example syringeVolumeCheck({ nominalL: 3, measuredL: 3.016, limitFraction: 0.005 }) // 16 mL, 0.53 %: not within
 */
export function syringeVolumeCheck(input: {
  nominalL: number;
  measuredL: number;
  limitFraction: number;
}): AgainstReference {
  const { nominalL, measuredL, limitFraction } = input;
  requirePositive('syringeVolumeCheck', 'nominalL', nominalL, 'L');
  requirePositive('syringeVolumeCheck', 'measuredL', measuredL, 'L');
  requirePositive('syringeVolumeCheck', 'limitFraction', limitFraction, 'of the nominal volume');
  return against(nominalL, measuredL, limitFraction);
}

/**
 * The laboratory's barometer against one that is known to be right, both in one unit; ends are in.
 * Source of the usual limit of 2.5 %: ERS/ATS DLCO standard 2017.
 * @throws {RangeError} if a pressure or the limit is not a positive number.
 * @example barometerCheck({ reference: 760, read: 745, limitFraction: 0.025 }).deviationFraction // −0.0197: within
 */
export function barometerCheck(input: {
  reference: number;
  read: number;
  limitFraction: number;
}): AgainstReference {
  const { reference, read, limitFraction } = input;
  requirePositive('barometerCheck', 'reference', reference, '');
  requirePositive('barometerCheck', 'read', read, '');
  requirePositive('barometerCheck', 'limitFraction', limitFraction, 'of the reference');
  return against(reference, read, limitFraction);
}

function against(reference: number, value: number, limitFraction: number): AgainstReference {
  const deviationFraction = value / reference - 1;
  return {
    deviation: value - reference,
    deviationFraction,
    within: isWithinTolerance(deviationFraction, 0, limitFraction),
  };
}
