import { isWithinTolerance } from './fixedLimits.ts';
import { requirePositive } from './impossible.ts';

/** How far a volume calibration check may lie from the syringe's stroke, ends included, and at how many flows it is made. */
export const publishedVolumeCalibration = {
  limitFraction: 0.025,
  flows: 3,
  source:
    'ATS laboratory manual, 3rd edition; ERS/ATS standard for single-breath carbon monoxide uptake 2017',
} as const;

export interface VolumeCalibrationReading {
  readL: number;
  /** How far it read from what is expected, as a fraction of that; positive when it read too much. */
  deviationFraction: number;
  within: boolean;
}

export interface VolumeCalibration {
  /** In the order of the strokes. */
  readings: readonly VolumeCalibrationReading[];
  /** The deviation farthest from 0, the first of equals; null without a reading. */
  worstFraction: number | null;
  /** Every reading is within; null without a reading. */
  within: boolean | null;
}

/**
 * The daily check of volume: strokes of the syringe at several flows, each held against what it should read. How many there
 * should be, the caller compares with `publishedVolumeCalibration.flows`. What a stroke should read, in litres of the same
 * condition as the readings, is the stroke itself or, in BTPS, `expectedVolumeCheckL`.
 * Source of the limit: see `publishedVolumeCalibration`.
 * @throws {RangeError} if a volume or the limit is not a positive number.
 * @example volumeCalibrationCheck({ readL: [3.075, 3, 2.9], expectedL: 3, limitFraction: 0.025 }) // worst −0.0333, not within
 */
export function volumeCalibrationCheck(input: {
  readL: readonly number[];
  expectedL: number;
  limitFraction: number;
}): VolumeCalibration {
  const { readL, expectedL, limitFraction } = input;
  requirePositive('volumeCalibrationCheck', 'expectedL', expectedL, 'L');
  requirePositive('volumeCalibrationCheck', 'limitFraction', limitFraction, 'of what is expected');
  const readings = readL.map((litres, index): VolumeCalibrationReading => {
    requirePositive('volumeCalibrationCheck', `readL[${index}]`, litres, 'L');
    const deviationFraction = litres / expectedL - 1;
    return {
      readL: litres,
      deviationFraction,
      within: isWithinTolerance(deviationFraction, 0, limitFraction),
    };
  });
  let worstFraction: number | null = null;
  for (const { deviationFraction } of readings) {
    if (worstFraction === null || Math.abs(deviationFraction) > Math.abs(worstFraction)) {
      worstFraction = deviationFraction;
    }
  }
  const within = readings.length === 0 ? null : readings.every((reading) => reading.within);
  return { readings, worstFraction, within };
}
