/** How far the readings of a noted check lie from what they ought to be. Pure. */
import {
  barometerCheck,
  linearityCheck,
  syringeVolumeCheck,
  volumeCalibrationCheck,
} from '../../core/index.ts';
import type { EntryBody } from '../../journal/entries.ts';

export interface CheckDeviation {
  /** Of what was expected; of linearity, of full scale. */
  fraction: number;
  limitFraction: number;
}

type CheckBody = Pick<EntryBody<'check-done'>, 'volume' | 'linearity' | 'syringe' | 'barometer'>;

/** Of a volume check one for each reading, of linearity one for each gas; none where only a word was noted. */
export function checkDeviations({
  volume,
  linearity = [],
  syringe,
  barometer,
}: CheckBody): readonly CheckDeviation[] {
  return [
    ...(volume === null
      ? []
      : volumeCalibrationCheck(volume).readings.map(({ deviationFraction }) => ({
          fraction: deviationFraction,
          limitFraction: volume.limitFraction,
        }))),
    ...linearity.map(({ points, fullScale, limitFraction }) => ({
      fraction: linearityCheck({ points, fullScale, limitFraction }).worstFraction,
      limitFraction,
    })),
    ...(syringe === undefined
      ? []
      : [
          {
            fraction: syringeVolumeCheck(syringe).deviationFraction,
            limitFraction: syringe.limitFraction,
          },
        ]),
    ...(barometer === undefined
      ? []
      : [
          {
            fraction: barometerCheck(barometer).deviationFraction,
            limitFraction: barometer.limitFraction,
          },
        ]),
  ];
}
