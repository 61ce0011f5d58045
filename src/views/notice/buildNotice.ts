/** How soon shifts of one series are noticed, in words: by the rules in force, by others, and by the published limits alone. Pure. */
import { type ControlPolicy, runsUntilOutside } from '../../core/index.ts';
import {
  dlcoMean,
  dlcoSd,
  dlco as dlcoWords,
  litres,
  tenthsOfMillilitre,
  zOnChart,
} from '../parts/figures.ts';
import { quantityWords, routeWords } from '../parts/words.ts';
import type { OwnSpread } from './ownSpreads.ts';
import {
  type Counting,
  type KnownRunLengths,
  questionOf,
  type RunLengthQuestion,
  type RunsUntil,
  runsUntil,
} from './questions.ts';
import { shiftFigure, shiftsOf, shiftUnit, toldShift } from './shifts.ts';
import { waitInSentence, waitInWords } from './waitWords.ts';

export interface NoticeRow {
  shift: string;
  inSd: string;
  inForce: string;
  /** Null where no other rules are tried. */
  whatIf: string | null;
  publishedUp: string;
  publishedDown: string;
}

export interface NoticeTable {
  /** `VA, patient test` */
  heading: string;
  figures: readonly { name: string; value: string; unit: string }[];
  /** Where the published limits stand. */
  published: string;
  /** The page in one sentence; empty where there are no own limits. */
  told: string;
  shiftUnit: string;
  rows: readonly NoticeRow[];
  /** Why there are none; empty where there are. */
  missing: string;
  /** How the told shift moves with the rules that are tried; empty where none are, or nothing is known to move. */
  moved: string;
}

export interface Asked {
  inForce: ControlPolicy;
  whatIf: ControlPolicy | null;
  counting: Counting;
  runsPerWeek: number;
}

/** What the tables of these series wait for, what is told in their sentences first. */
export function noticeQuestions(
  spreads: readonly OwnSpread[],
  { inForce, whatIf, counting }: Omit<Asked, 'runsPerWeek'>,
): RunLengthQuestion[] {
  const asked = spreads.flatMap(({ own, unit }) =>
    own === null
      ? []
      : [toldShift(unit), ...shiftsOf(unit)].map((shift, place) => ({ place, sd: shift / own.sd })),
  );
  asked.sort((one, other) => one.place - other.place);
  return [inForce, whatIf].flatMap((policy) =>
    policy === null
      ? []
      : asked.flatMap(({ sd }) => {
          const question = questionOf(policy, counting, sd);
          return question === null ? [] : [question];
        }),
  );
}

export function buildNotice(spread: OwnSpread, asked: Asked, known: KnownRunLengths): NoticeTable {
  const { own, unit } = spread;
  return {
    heading: `${quantityWords[spread.quantity]}, ${routeWords[spread.route].toLowerCase()}`,
    figures: figuresOf(spread),
    published: publishedSentence(spread),
    told: own === null ? '' : toldSentence(spread, own, asked, known),
    shiftUnit: shiftUnit(unit),
    rows: own === null ? [] : shiftsOf(unit).map((shift) => rowOf(shift, spread, own, asked, known)),
    missing: own === null ? missingSentence(spread, asked.inForce) : '',
    moved: own === null ? '' : movedSentence(spread, own, asked, known),
  };
}

type Own = NonNullable<OwnSpread['own']>;

function rowOf(
  shift: number,
  spread: OwnSpread,
  own: Own,
  { inForce, whatIf, counting, runsPerWeek }: Asked,
  known: KnownRunLengths,
): NoticeRow {
  const by = (policy: ControlPolicy) =>
    waitCell(runsUntil(questionOf(policy, counting, shift / own.sd), known), runsPerWeek);
  return {
    shift: shiftFigure(shift, spread.unit),
    inSd: inSd(shift / own.sd),
    inForce: by(inForce),
    whatIf: whatIf === null ? null : by(whatIf),
    publishedUp: waitInWords(untilPublished(shift, spread, own), runsPerWeek),
    publishedDown: waitInWords(untilPublished(-shift, spread, own), runsPerWeek),
  };
}

const untilPublished = (shift: number, { published: { low, high } }: OwnSpread, { mean, sd }: Own) =>
  runsUntilOutside({ mean: mean + shift, sd, low, high });

export function waitCell(runs: RunsUntil, runsPerWeek: number): string {
  if (runs === 'computing') return 'computing…';
  return runs === 'never' ? 'never: no rule on' : waitInWords(runs, runsPerWeek);
}

/**
 * `A leak of 100 mL (2.8 SD) is noticed after 2 weeks on average; by the published limits alone after 1.8 years.` Room air that
 * leaks in makes VA high, and CO that reads low makes DLCO high: so both are told of a shift up.
 */
function toldSentence(
  spread: OwnSpread,
  own: Own,
  { inForce, counting, runsPerWeek }: Asked,
  known: KnownRunLengths,
): string {
  const shift = toldShift(spread.unit);
  const size = `${shiftFigure(shift, spread.unit)} ${shiftUnit(spread.unit)} (${inSd(shift / own.sd)} SD)`;
  const what = spread.quantity === 'va' ? `A leak that adds ${size} to VA` : `A DLCO that rises by ${size}`;
  const published = waitInSentence(untilPublished(shift, spread, own), runsPerWeek);
  const runs = runsUntil(questionOf(inForce, counting, shift / own.sd), known);
  if (runs === 'never')
    return `${what} is noticed by no rule; by the published limits ${published} on average.`;
  const noticed = runs === 'computing' ? '… (computing)' : `${waitInSentence(runs, runsPerWeek)} on average`;
  return `${what} is noticed ${noticed}; by the published limits alone ${published}.`;
}

function movedSentence(
  spread: OwnSpread,
  own: Own,
  { inForce, whatIf, counting, runsPerWeek }: Asked,
  known: KnownRunLengths,
): string {
  if (whatIf === null) return '';
  const shift = toldShift(spread.unit);
  const by = (policy: ControlPolicy) =>
    waitCell(runsUntil(questionOf(policy, counting, shift / own.sd), known), runsPerWeek);
  return `${shiftFigure(shift, spread.unit)} ${shiftUnit(spread.unit)}: ${by(whatIf)}, in force ${by(inForce)}.`;
}

function figuresOf({ n, own, unit }: OwnSpread): NoticeTable['figures'] {
  if (own === null) return [];
  const { mean, sd, interval } = own;
  const sdUnit = unit === 'L' ? 'mL' : unit;
  const written = (value: number) => (unit === 'L' ? tenthsOfMillilitre(value * 1000) : dlcoSd(value, unit));
  return [
    { name: 'own SD', value: written(sd), unit: sdUnit },
    {
      name: '95 % interval',
      value: `${written(interval.lower)} to ${written(interval.upper)}`,
      unit: sdUnit,
    },
    { name: 'mean', value: unit === 'L' ? litres(mean) : dlcoMean(mean, unit), unit },
    { name: 'n', value: String(n), unit: '' },
  ];
}

/** `The published 2.700 and 3.300 L (ERS/ATS 2017) stand 11.6 SD below and 5.1 SD above this mean.` */
export function publishedSentence({ own, unit, published: { low, high, edition } }: OwnSpread): string {
  const written = (limit: number) => (unit === 'L' ? litres(limit) : dlcoWords(limit, unit));
  const limits = `The published ${written(low)} and ${written(high)} ${unit} (${edition})`;
  if (own === null) return `${limits} judge alone.`;
  const stands = (limit: number) => {
    const distance = (limit - own.mean) / own.sd;
    return `${inSd(distance)} SD ${distance < 0 ? 'below' : 'above'}`;
  };
  return `${limits} stand ${stands(low)} and ${stands(high)} this mean.`;
}

function missingSentence({ n }: OwnSpread, { minimumSize }: ControlPolicy): string {
  return n < minimumSize
    ? `No own SD yet: ${n} of the ${minimumSize} accepted runs that own limits need. Until then nothing but the published limits notices a shift.`
    : `The ${n} accepted runs are all alike: an SD of 0 makes no own limits. Are the values being read, or copied?`;
}

/** A distance in SD, one decimal, without a sign. */
const inSd = (distance: number) => zOnChart(Math.abs(distance)).replace('+', '');
