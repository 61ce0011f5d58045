/** What each check is, in a sentence or two above its form, with its published limit where there is one. */
import { publishedVolumeCalibration } from '../../core/index.ts';
import type { NotedCheck } from '../../journal/entries.ts';
import { percent } from '../parts/figures.ts';

const gasCaution =
  'Test gas holds carbon monoxide under pressure: ventilate, secure the cylinder, follow local rules.';

interface CheckText {
  what: string;
  published?: string;
  caution?: string;
  /** Under the field for the note. */
  note: string;
}

export function checkText(check: NotedCheck): CheckText {
  switch (check) {
    case 'volume-check':
      return {
        what: 'Empty the syringe into the analyzer at a slow, a middle and a fast flow and read the volume each time.',
        published: `Each reading within ${percent(publishedVolumeCalibration.limitFraction)} % of the syringe: ${publishedVolumeCalibration.source}`,
        note: 'Anything to know of it: flow, temperature, which syringe.',
      };
    case 'biological-control':
      return {
        what: 'A healthy person, known to the laboratory, is tested as a patient is.',
        published:
          'Out of control beyond 12 % or 3.0 mL/min/mmHg of the mean of the person’s first six tests: Hegewald et al., Respiration 2012. Local procedure decides which.',
        caution: gasCaution,
        note: 'The person’s code and DLCO. Never a name, a date of birth or a number of a record: this logbook holds no patient data.',
      };
    case 'linearity':
      return {
        what: 'The CO and the tracer analyzer read known dilutions of test gas.',
        caution: `${gasCaution} The manufacturer’s instructions decide how it is done and what is within limits.`,
        note: 'Dilutions, readings and the largest deviation.',
      };
    case 'syringe-leak':
      return {
        what: 'The closed syringe is put under pressure at several volumes and must not give way; the stop must hold the plunger at its full stroke.',
        published: 'At least once a year, and after any drop: ATS laboratory manual, 3rd edition.',
        note: 'What was done and seen.',
      };
    case 'syringe-calibration':
      return {
        what: 'Whoever calibrates the syringe certifies its volume. A volume that changed is written on the syringe’s record under Equipment.',
        published: 'Within 0.5 % of its volume: ATS laboratory manual, 3rd edition.',
        note: 'Number of the certificate, and who calibrated it.',
      };
    case 'barometer':
      return {
        what: 'The barometer is compared with another that is known to be right, at the height of the laboratory.',
        published: 'Within 2.5 %: ERS/ATS 2017.',
        note: 'Both readings, and what it was compared with.',
      };
  }
}
