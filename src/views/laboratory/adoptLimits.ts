/** The published limits: in words, as their form holds them, and as an entry. Pure. */
import { type PublishedLimits, publishedLimits2017 } from '../../core/index.ts';
import { withoutBinaryNoise } from '../../journal/binaryNoise.ts';
import type { EntryDraft, EntryOf } from '../../journal/entries.ts';
import type { Logbook } from '../../journal/logbook.ts';
import { adoptedLimitsAt } from '../../journal/standing.ts';
import { type LimitValues, millilitres, percentOf, valuesInWords } from '../limitWords.ts';
import { changedFields } from '../parts/fieldsInWords.ts';
import { inField, plain } from '../parts/figures.ts';
import { type Errors, type FormReading, finish } from '../parts/formReading.ts';
import type { NumberSpec } from '../parts/readNumber.ts';
import { readNeeded } from './readSetting.ts';

export type LimitsDraft = Record<
  'edition' | 'source' | 'vaMl' | 'dlcoMl' | 'dlcoMmol' | 'volumePercent' | 'holdS' | 'holdToleranceS',
  string
>;

/** The entry by which the limits in force were adopted; undefined where they are the built-in ones. */
export function adoptionInForce(
  logbook: Pick<Logbook, 'limitEditions'>,
  at: string,
): EntryOf<'limits-adopted'> | undefined {
  const limits = adoptedLimitsAt(logbook, at);
  return logbook.limitEditions.findLast(({ body }) => body.limits === limits);
}

export const limitsDraft = (limits: PublishedLimits): LimitsDraft => ({
  edition: limits.edition,
  source: limits.source,
  vaMl: inField(millilitres(limits.vaToleranceL)),
  dlcoMl: inField(limits.dlcoMlMinMmHg),
  dlcoMmol: inField(limits.dlcoMmolMinKPa),
  volumePercent: inField(percentOf(limits.volumeCheckFraction)),
  holdS: inField(limits.breathHoldS.target),
  holdToleranceS: inField(limits.breathHoldS.tolerance),
});

/** Wide enough for any standard; a slip of the decimal mark falls outside. */
const specs: Record<Exclude<keyof LimitsDraft, 'edition' | 'source'>, NumberSpec> = {
  vaMl: {
    name: 'tolerance of VA',
    unit: 'mL',
    lowest: 10,
    highest: 1000,
    example: '300',
    otherUnits: [
      { unit: 'L', lowest: 0.01, highest: 1, inThisUnit: (litres) => litres * 1000, canBeChosen: false },
    ],
  },
  dlcoMl: { name: 'DLCO limit', unit: 'mL/min/mmHg', lowest: 0.05, highest: 5, example: '0.5' },
  dlcoMmol: { name: 'DLCO limit', unit: 'mmol/min/kPa', lowest: 0.01, highest: 2, example: '0.166' },
  volumePercent: { name: 'limit of the volume check', unit: '%', lowest: 0.5, highest: 20, example: '3' },
  holdS: { name: 'breath-hold time', unit: 's', lowest: 3, highest: 30, example: '10' },
  holdToleranceS: { name: 'tolerance of the breath-hold', unit: 's', lowest: 0.1, highest: 10, example: '2' },
};

/** `known`: the editions that are in this logbook, of which none may stand for two sets of values. */
export function readLimits(
  draft: LimitsDraft,
  known: readonly PublishedLimits[],
): FormReading<LimitsDraft, PublishedLimits> {
  const errors: Errors<LimitsDraft> = {};
  const number = (field: keyof typeof specs): number => {
    const read = readNeeded(draft[field], specs[field], `Type the ${specs[field].name}.`);
    if (read.message !== undefined) errors[field] = read.message;
    return read.value;
  };
  const limits: PublishedLimits = {
    edition: draft.edition.trim(),
    source: draft.source.trim(),
    vaToleranceL: withoutBinaryNoise(number('vaMl') / 1000),
    dlcoMlMinMmHg: number('dlcoMl'),
    dlcoMmolMinKPa: number('dlcoMmol'),
    volumeCheckFraction: withoutBinaryNoise(number('volumePercent') / 100),
    breathHoldS: { target: number('holdS'), tolerance: number('holdToleranceS') },
  };
  if (limits.edition === '') errors.edition = 'Type the edition, as it should stand beside every run.';
  if (limits.source === '')
    errors.source = 'Type where these limits are published, so that an assessor finds them.';
  if (limits.source.length > 300) errors.source = 'The source is too long: 300 letters at most.';
  if (Object.keys(errors).length > 0) return { ok: false, errors };
  const named = known.find((one) => one.edition === limits.edition && !hasSameValues(one, limits));
  if (named !== undefined) {
    errors.edition = `These are not the values of “${named.edition}”: name the edition that they are of.`;
  }
  const builtIn = publishedLimits2017;
  if (limits.source === builtIn.source && !hasSameValues(builtIn, limits)) {
    errors.source = `These values do not stand in the source of “${builtIn.edition}”: name the one that they stand in.`;
  }
  return finish(errors, limits);
}

const hasSameValues = (one: LimitValues, other: LimitValues) =>
  changedFields(valuesInWords(one), valuesInWords(other)).length === 0;

/** One sentence for each limit that lets through what the published one of the logbook does not. */
export function limitsWarnings(limits: PublishedLimits): string[] {
  const usual = publishedLimits2017;
  const wider = [
    limits.vaToleranceL > usual.vaToleranceL && `VA ±${plain(millilitres(limits.vaToleranceL))} mL`,
    limits.dlcoMlMinMmHg > usual.dlcoMlMinMmHg && `DLCO ${plain(limits.dlcoMlMinMmHg)} mL/min/mmHg`,
    limits.dlcoMmolMinKPa > usual.dlcoMmolMinKPa && `DLCO ${plain(limits.dlcoMmolMinKPa)} mmol/min/kPa`,
    limits.volumeCheckFraction > usual.volumeCheckFraction &&
      `volume check ±${plain(percentOf(limits.volumeCheckFraction))} %`,
    isWiderHold(limits.breathHoldS, usual.breathHoldS) &&
      `breath-hold ${plain(limits.breathHoldS.target)} ± ${plain(limits.breathHoldS.tolerance)} s`,
  ].filter((part) => part !== false);
  if (wider.length === 0) return [];
  return [
    `Wider than ${usual.edition}: ${wider.join(', ')}. A run that those limits fail would pass here; the source has to stand for that.`,
  ];
}

type Hold = PublishedLimits['breathHoldS'];

/** Not the tolerance alone: 12 ± 2 s lets 13 s through, which 10 ± 2 s does not. */
const isWiderHold = (one: Hold, usual: Hold) =>
  withoutBinaryNoise(Math.abs(one.target - usual.target) + one.tolerance) > usual.tolerance;

/** `from`: the instant from which on runs are judged by them. */
export function adoptLimits(limits: PublishedLimits, from: string, by: string, reason: string): EntryDraft[] {
  return [
    {
      id: crypto.randomUUID(),
      by,
      kind: 'limits-adopted',
      body: { adoptionId: crypto.randomUUID(), limits, from, reason },
    },
  ];
}
