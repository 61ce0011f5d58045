/** What each check is, in a sentence or two above its form, with the limit it is judged by where there is one. */
import type { CheckLimits } from '../../core/index.ts';
import type { NotedCheck } from '../../journal/entries.ts';
import { limitPercent } from '../parts/figures.ts';

const gasCaution =
  'Test gas holds carbon monoxide under pressure: ventilate, secure the cylinder, follow local rules.';

interface CheckText {
  what: string;
  /** What it is judged by, with its source. */
  limit?: string;
  caution?: string;
  /** Under the field for the note. */
  note: string;
}

/** `limits`: those in force when it was made. */
export function checkText(check: NotedCheck, limits: CheckLimits): CheckText {
  const within = ({ fraction, source }: { fraction: number; source: string }, of: string) =>
    `within ${limitPercent(fraction)} % of ${of} (${limits.edition}: ${source}).`;
  switch (check) {
    case 'volume-check':
      return {
        what: 'Empty the syringe into the analyzer at a slow, a middle and a fast flow and read the volume each time. The one stroke that is read before a run is another check and stands with its run.',
        limit: `Each reading ${within(limits.volumeCalibration, 'what it should read')}`,
        note: 'Anything to know of it: temperature, which syringe.',
      };
    case 'biological-control':
      return {
        what: 'A healthy person, known to the laboratory by a code, is tested as a patient is.',
        note: '',
      };
    case 'linearity':
      return {
        what: 'The CO and the tracer analyzer read known dilutions of test gas. Rows can be pasted from a table: dilution and reading side by side.',
        limit: `Each point ${within(limits.linearity, 'full scale from what the dilution holds')}`,
        caution: `${gasCaution} The manufacturer’s instructions decide how it is done.`,
        note: 'How the dilutions were made, and by which cylinder.',
      };
    case 'syringe-leak':
      return {
        what: 'The closed syringe is put under pressure at several volumes and must not give way; the stop must hold the plunger at its full stroke.',
        limit: `At least once a year, and after any drop (ATS laboratory manual, 3rd edition). A volume that is measured on the way: ${within(limits.syringe, 'the nominal volume')}`,
        note: 'What was done and seen.',
      };
    case 'syringe-calibration':
      return {
        what: 'Whoever calibrates the syringe certifies its volume.',
        limit: `The volume ${within(limits.syringe, 'its nominal volume')}`,
        note: 'Anything else that the certificate says.',
      };
    case 'barometer':
      return {
        what: 'The barometer is compared with another that is known to be right, at the height of the laboratory.',
        limit: `The pressure ${within(limits.barometer, 'the reference')}`,
        note: 'What it was compared with.',
      };
  }
}
