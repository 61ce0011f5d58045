/** The limits of the checks other than a simulation, in words. Pure. */
import type { CheckLimits } from '../core/index.ts';
import type { FieldInWords } from './parts/fieldsInWords.ts';
import { limitPercent, plain } from './parts/figures.ts';

/** Each check that has a limit of its own, in the order in which it is listed. */
export const limitedChecks = {
  biological: 'Biological control',
  simulator: 'Precision-gas simulator',
  volumeCalibration: 'Volume calibration check',
  linearity: 'Gas analyzer linearity',
  syringe: 'Syringe calibration',
  barometer: 'Barometer check',
} as const;

export type LimitedCheck = keyof typeof limitedChecks;
export const limitedCheckIds = Object.keys(limitedChecks) as readonly LimitedCheck[];

/** What each limit says, without its source. */
export function limitInWords(check: LimitedCheck, limits: CheckLimits): string {
  const { biological, simulator } = limits;
  switch (check) {
    case 'biological':
      return (
        `within ${limitPercent(biological.fraction)} % and ${plain(biological.dlcoMlMinMmHg)} mL/min/mmHg of the mean ` +
        `of the first tests; a coefficient of variation of ${limitPercent(biological.cv)} % can be reached`
      );
    case 'simulator':
      return `within ${plain(simulator.dlcoMlMinMmHg)} mL/min/mmHg of the target`;
    case 'volumeCalibration':
      return `±${limitPercent(limits.volumeCalibration.fraction)} % of what should be read, at each flow`;
    case 'linearity':
      return `±${limitPercent(limits.linearity.fraction)} % of full scale`;
    case 'syringe':
      return `±${limitPercent(limits.syringe.fraction)} % of the nominal volume`;
    case 'barometer':
      return `±${limitPercent(limits.barometer.fraction)} % of the reference`;
  }
}

export const checkLimitsInWords = (limits: CheckLimits): FieldInWords[] => [
  { name: 'Edition', value: limits.edition },
  ...limitedCheckIds.flatMap((check) => [
    { name: limitedChecks[check], value: limitInWords(check, limits) },
    { name: `${limitedChecks[check]}, source`, value: limits[check].source },
  ]),
];
