/** The limits of the checks other than a simulation: in words, as their form holds them, and as an entry. Pure. */
import { type CheckLimits, publishedCheckLimits } from '../../core/index.ts';
import { withoutBinaryNoise } from '../../journal/binaryNoise.ts';
import type { EntryDraft, EntryOf } from '../../journal/entries.ts';
import type { Logbook } from '../../journal/logbook.ts';
import { adoptedCheckLimitsAt } from '../../journal/standing.ts';
import {
  checkLimitsInWords,
  type LimitedCheck,
  limitedCheckIds,
  limitedChecks,
  limitInWords,
} from '../checkLimitWords.ts';
import { changedFields } from '../parts/fieldsInWords.ts';
import { inField } from '../parts/figures.ts';
import { type Errors, type FormReading, finish } from '../parts/formReading.ts';
import type { NumberSpec } from '../parts/readNumber.ts';
import { readNeeded } from './readSetting.ts';

type FigureField =
  | 'biologicalPercent'
  | 'biologicalMl'
  | 'biologicalCv'
  | 'simulatorMl'
  | 'volumePercent'
  | 'linearityPercent'
  | 'syringePercent'
  | 'barometerPercent';

export type SourceField = `${LimitedCheck}Source`;
export type CheckLimitsDraft = Record<'edition' | FigureField | SourceField, string>;

/** The entry by which the limits in force were adopted; undefined where they are the built-in ones. */
export function checkAdoptionInForce(
  logbook: Pick<Logbook, 'checkLimitEditions'>,
  at: string,
): EntryOf<'check-limits-adopted'> | undefined {
  const limits = adoptedCheckLimitsAt(logbook, at);
  return logbook.checkLimitEditions.findLast(({ body }) => body.limits === limits);
}

const percent = (fraction: number) => inField(withoutBinaryNoise(fraction * 100));

export const checkLimitsDraft = (limits: CheckLimits): CheckLimitsDraft => ({
  edition: limits.edition,
  biologicalPercent: percent(limits.biological.fraction),
  biologicalMl: inField(limits.biological.dlcoMlMinMmHg),
  biologicalCv: percent(limits.biological.cv),
  biologicalSource: limits.biological.source,
  simulatorMl: inField(limits.simulator.dlcoMlMinMmHg),
  simulatorSource: limits.simulator.source,
  volumePercent: percent(limits.volumeCalibration.fraction),
  volumeCalibrationSource: limits.volumeCalibration.source,
  linearityPercent: percent(limits.linearity.fraction),
  linearitySource: limits.linearity.source,
  syringePercent: percent(limits.syringe.fraction),
  syringeSource: limits.syringe.source,
  barometerPercent: percent(limits.barometer.fraction),
  barometerSource: limits.barometer.source,
});

/** Wide enough for any standard; a slip of the decimal mark falls outside. */
const specs: Record<FigureField, NumberSpec> = {
  biologicalPercent: { name: 'limit of a person’s DLCO', unit: '%', lowest: 2, highest: 50, example: '12' },
  biologicalMl: {
    name: 'limit of a person’s DLCO',
    unit: 'mL/min/mmHg',
    lowest: 0.5,
    highest: 15,
    example: '3',
  },
  biologicalCv: { name: 'coefficient of variation', unit: '%', lowest: 1, highest: 30, example: '6' },
  simulatorMl: {
    name: 'limit of the simulator',
    unit: 'mL/min/mmHg',
    lowest: 0.2,
    highest: 10,
    example: '2',
  },
  volumePercent: {
    name: 'limit of the volume calibration check',
    unit: '%',
    lowest: 0.5,
    highest: 20,
    example: '2.5',
  },
  linearityPercent: { name: 'limit of linearity', unit: '%', lowest: 0.1, highest: 10, example: '0.5' },
  syringePercent: { name: 'limit of the syringe', unit: '%', lowest: 0.1, highest: 5, example: '0.5' },
  barometerPercent: { name: 'limit of the barometer', unit: '%', lowest: 0.1, highest: 10, example: '2.5' },
};

/** `known`: the editions that are in this logbook, of which none may stand for two sets of values. */
export function readCheckLimits(
  draft: CheckLimitsDraft,
  known: readonly CheckLimits[],
): FormReading<CheckLimitsDraft, CheckLimits> {
  const errors: Errors<CheckLimitsDraft> = {};
  const number = (field: FigureField): number => {
    const read = readNeeded(draft[field], specs[field], `Type the ${specs[field].name}.`);
    if (read.message !== undefined) errors[field] = read.message;
    return read.value;
  };
  const fraction = (field: FigureField) => withoutBinaryNoise(number(field) / 100);
  const source = (check: LimitedCheck): string => {
    const text = draft[`${check}Source`].trim();
    if (text === '')
      errors[`${check}Source`] = 'Type where this limit is published, so that an assessor finds it.';
    if (text.length > 300) errors[`${check}Source`] = 'The source is too long: 300 letters at most.';
    return text;
  };
  const limits: CheckLimits = {
    edition: draft.edition.trim(),
    biological: {
      fraction: fraction('biologicalPercent'),
      dlcoMlMinMmHg: number('biologicalMl'),
      cv: fraction('biologicalCv'),
      source: source('biological'),
    },
    simulator: { dlcoMlMinMmHg: number('simulatorMl'), source: source('simulator') },
    volumeCalibration: { fraction: fraction('volumePercent'), source: source('volumeCalibration') },
    linearity: { fraction: fraction('linearityPercent'), source: source('linearity') },
    syringe: { fraction: fraction('syringePercent'), source: source('syringe') },
    barometer: { fraction: fraction('barometerPercent'), source: source('barometer') },
  };
  if (limits.edition === '') errors.edition = 'Type the edition, as it should stand beside every check.';
  if (Object.keys(errors).length > 0) return { ok: false, errors };
  const namesake = known.find((one) => one.edition === limits.edition && !isSame(one, limits));
  if (namesake !== undefined) {
    errors.edition = `These are not the limits of “${namesake.edition}”: name the edition that they are of.`;
  }
  for (const check of limitedCheckIds) {
    if (limits[check].source !== publishedCheckLimits[check].source) continue;
    if (limitInWords(check, limits) === limitInWords(check, publishedCheckLimits)) continue;
    errors[`${check}Source`] = 'This value does not stand in that source: name the one that it stands in.';
  }
  return finish(errors, limits);
}

const isSame = (one: CheckLimits, other: CheckLimits) =>
  changedFields(checkLimitsInWords(one), checkLimitsInWords(other)).length === 0;

/** One sentence where a limit lets through what the published one does not. */
export function checkLimitsWarnings(limits: CheckLimits): string[] {
  const usual = publishedCheckLimits;
  const wider = limitedCheckIds.filter((check) => {
    if (check === 'biological') {
      const { fraction, dlcoMlMinMmHg, cv } = limits.biological;
      const { biological } = usual;
      return fraction > biological.fraction || dlcoMlMinMmHg > biological.dlcoMlMinMmHg || cv > biological.cv;
    }
    if (check === 'simulator') return limits.simulator.dlcoMlMinMmHg > usual.simulator.dlcoMlMinMmHg;
    return limits[check].fraction > usual[check].fraction;
  });
  if (wider.length === 0) return [];
  const named = wider.map((check) => `${limitedChecks[check].toLowerCase()} ${limitInWords(check, limits)}`);
  return [
    `Wider than ${usual.edition}: ${named.join('; ')}. A check that those limits fail would pass here; the source has to stand for that.`,
  ];
}

/** `from`: the instant from which on checks and controls are judged by them. */
export const adoptCheckLimits = (
  limits: CheckLimits,
  from: string,
  by: string,
  reason: string,
): EntryDraft[] => [
  {
    id: crypto.randomUUID(),
    by,
    kind: 'check-limits-adopted',
    body: { adoptionId: crypto.randomUUID(), limits, from, reason },
  },
];
