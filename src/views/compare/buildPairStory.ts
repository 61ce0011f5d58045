/** What the newest pair says, and whether the routes have a standing offset: every sentence of the right page. */
import {
  defaultControlPolicy,
  partedBeyondSd,
  type Route,
  type RouteDifference,
  type RouteOffset,
} from '../../core/index.ts';
import { counted, zOnChart } from '../parts/figures.ts';
import type { DifferenceScale } from './differenceScale.ts';

/** Beyond so many SD a difference is unusual. Common practice, no source, as for 1-2s. */
const unusualBeyondSd = 2;

export type PairFinding = 'parted' | 'unusual' | 'as-usual' | 'unknown';

export function findingOf({ z }: Pick<RouteDifference, 'z'>): PairFinding {
  if (z === null) return 'unknown';
  if (Math.abs(z) > partedBeyondSd) return 'parted';
  return Math.abs(z) > unusualBeyondSd ? 'unusual' : 'as-usual';
}

const quantityNames = { va: 'Simulated VA', dlco: 'DLCO' } as const;

const findingSentences: Record<Exclude<PairFinding, 'unknown'>, string> = {
  parted: 'The routes have parted.',
  unusual: 'Unusual, and not yet beyond 3 SD.',
  'as-usual': 'As usual.',
};

/** `Simulated VA: the patient test reads 42 mL above the built-in routine; usually 12 ± 11 mL: z +2.7. …` */
export function differenceSentence(difference: RouteDifference, scale: DifferenceScale): string {
  const name = quantityNames[scale.quantity];
  const { n, mean, sd, z } = difference;
  const value = scale.inUnit(difference.value);
  const start = `${name}: the patient test reads ${apart(value, scale)}`;
  const finding = findingOf(difference);
  if (finding === 'unknown' || mean === null || sd === null || z === null)
    return `${start}. ${whyUnknown(n)}`;
  const usualSide = sideOf(scale.inUnit(mean), scale);
  // Which side is usual goes without saying where it is the side of today.
  const side = usualSide === null || usualSide === sideOf(value, scale) ? '' : ` ${usualSide} it`;
  const usual = `${scale.meanAndSd(Math.abs(scale.inUnit(mean)), scale.inUnit(sd))} ${scale.unit}${side}`;
  return `${start}; usually ${usual}: z ${zOnChart(z)}. ${findingSentences[finding]}`;
}

function whyUnknown(n: number): string {
  const least = defaultControlPolicy.minimumSize;
  if (n >= least) {
    return `The ${n} pairs before it all differ by the same amount: with an SD of 0 nothing can be said of what is usual.`;
  }
  return n === 0
    ? `No pair before it counts; what is usual is known from ${least} pairs on.`
    : `${counted(n, 'pair')} before it ${n === 1 ? 'counts' : 'count'}; what is usual is known from ${least} pairs on.`;
}

/** `42 mL above the built-in routine`; what rounds to nothing lies on neither side. */
function apart(value: number, scale: DifferenceScale): string {
  const side = sideOf(value, scale);
  return side === null
    ? 'the same as the built-in routine'
    : `${scale.size(value)} ${scale.unit} ${side} the built-in routine`;
}

function sideOf(value: number, scale: DifferenceScale): 'above' | 'below' | null {
  if (scale.size(value) === scale.size(0)) return null;
  return value > 0 ? 'above' : 'below';
}

export interface PairSummary {
  tone: 'warn' | 'pass' | 'quiet';
  title: string;
  /** What to make of it; empty where there is nothing to do. */
  advice: string;
}

const shortNames = { va: 'VA', dlco: 'DLCO' } as const;

/** The pair in one line, and what follows from it. */
export function summarize(pair: Readonly<Record<'va' | 'dlco', RouteDifference>>): PairSummary {
  const findings = (['va', 'dlco'] as const).map((quantity) => ({ quantity, is: findingOf(pair[quantity]) }));
  const named = (finding: PairFinding) =>
    findings.flatMap(({ quantity, is }) => (is === finding ? [shortNames[quantity]] : [])).join(' and ');
  if (named('parted') !== '') {
    return {
      tone: 'warn',
      title: `The routes have parted in ${named('parted')}.`,
      advice:
        'It points to a setting or a part that only one route uses. Run both routes side by side once more, with the same syringe in the same room, and compare how each is set. A new baseline is for a change that is known and meant.',
    };
  }
  if (named('unusual') !== '') {
    return {
      tone: 'warn',
      title: `The difference in ${named('unusual')} is unusual.`,
      advice: 'About one in twenty lies so far out by chance. Run both routes once more, side by side.',
    };
  }
  if (named('unknown') === 'VA and DLCO') {
    return { tone: 'quiet', title: 'What is usual between the routes is not known yet.', advice: '' };
  }
  return { tone: 'pass', title: `The routes lie as far apart as usual in ${named('as-usual')}.`, advice: '' };
}

/** Whether one route reads higher than the other on the whole. */
export function offsetSentence(offset: RouteOffset | null, scale: DifferenceScale): string {
  const name = quantityNames[scale.quantity];
  if (offset === null) return `${name}: no pair of accepted runs yet.`;
  const { n, mean, interval } = offset;
  const reads = `the patient test reads ${apart(scale.inUnit(mean), scale)}`;
  if (n === 1) return `${name}: in the one pair that counts ${reads}; an interval needs more.`;
  if (interval === null) return `${name}: in all ${n} pairs ${reads}.`;
  const ends = `${scale.signed(scale.inUnit(interval.lower))} to ${scale.signed(scale.inUnit(interval.upper))} ${scale.unit}`;
  const isStanding = interval.lower > 0 || interval.upper < 0;
  return `${name}: over ${n} pairs ${reads} on average (95 % interval ${ends}). ${
    isStanding ? 'The routes have a standing offset.' : 'No standing offset: 0 lies within.'
  }`;
}

/** Days that make no pair. */
export function noPartnerSentence(days: Readonly<Record<Route, number>>): string {
  const patientTest = days['patient-test'];
  const builtIn = days['built-in'];
  const total = patientTest + builtIn;
  if (total === 0) return 'Every day with a run has both routes.';
  if (builtIn === 0) return `No partner: ${counted(total, 'day')} with the patient test alone.`;
  if (patientTest === 0) return `No partner: ${counted(total, 'day')} with the built-in routine alone.`;
  return `No partner: ${counted(total, 'day')}, ${patientTest} with the patient test alone and ${builtIn} with the built-in routine alone.`;
}
