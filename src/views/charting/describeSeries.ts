/** The series in sentences: the line of figures, the published limits in SD, and the chart in words. */
import type { ControlPolicy } from '../../core/index.ts';
import { limitWidths, plainWidths } from '../judgedBy.ts';
import { counted, day, zOnChart } from '../parts/figures.ts';
import { verdictWords } from '../parts/words.ts';
import type { ControlChartModel } from './controlChartModel.ts';
import { limitStepInForce } from './limitSteps.ts';
import type { LimitsInForce } from './limitsInForce.ts';
import { firedRules } from './ruleNames.ts';
import { isCounted, type SeriesItem } from './seriesItem.ts';
import type { SeriesScale } from './seriesScale.ts';

export interface SeriesWords {
  /** The figures that the next will be judged by; empty while there are none. */
  figures: readonly { name: string; value: string; unit: string }[];
  /** Why there are no own limits; empty where there are. */
  missing: string;
  published: string;
  /** How many, from when to when, and the last of them. */
  counts: string;
  /** The chart for those who do not see it. */
  description: string;
}

export interface SeriesInWords {
  /** In time order. */
  items: readonly SeriesItem[];
  /** What they are called, in the singular: `run`, `test`. */
  noun: string;
  scale: SeriesScale;
  inForce: LimitsInForce;
  failureIsOpen: boolean;
  /** What judges while there are no own limits: `only the published limits judge`. */
  until?: string;
}

export function seriesWords({
  items,
  noun,
  scale,
  inForce,
  failureIsOpen,
  until = 'only the published limits judge',
}: SeriesInWords): SeriesWords {
  const published = inForce.published ? publishedSentence(inForce.published, scale, inForce) : '';
  const missing = missingSentence(inForce, noun, until);
  const counts = countSentences(items, noun, scale);
  return {
    figures: figuresOf(inForce, scale),
    missing,
    published,
    counts,
    description: [counts, limitsSentence(inForce, scale), missing, published]
      .concat(failureIsOpen ? ['A failure is open.'] : [])
      .filter((sentence) => sentence !== '')
      .join(' '),
  };
}

function figuresOf({ n, own }: LimitsInForce, { mean, sd, unit }: SeriesScale): SeriesWords['figures'] {
  if (own === null) return [];
  return [
    { name: 'n', value: String(n), unit: '' },
    { name: 'mean', value: mean(own.mean), unit },
    { name: 'SD', value: sd(own.sd), unit },
  ];
}

function missingSentence({ n, own, policy }: LimitsInForce, noun: string, until: string): string {
  if (own !== null) return '';
  const needed = policy.minimumSize;
  return n < needed
    ? `${n} of ${needed} ${noun}s. Own limits begin at ${needed} accepted ${noun}s; until then ${until}.`
    : `The ${n} accepted ${noun}s are all alike: without a spread there are no own limits. Are the values being read?`;
}

/** `Published 2.700 and 3.300 L stand 8.3 SD below and 6.1 SD above this mean.` */
export function publishedSentence(
  { low, high, edition }: { low: number; high: number; edition: string },
  scale: Pick<SeriesScale, 'limit' | 'unit'>,
  { own }: Pick<LimitsInForce, 'own'>,
): string {
  const both = `Published ${scale.limit(low)} and ${scale.limit(high)} ${scale.unit}`;
  if (own === null) return `${both} (${edition}).`;
  const [lowWords, highWords] = [low, high].map((limit) => standing((limit - own.mean) / own.sd));
  return `${both} stand ${lowWords} and ${highWords} this mean.`;
}

const standing = (sdAway: number) => `${inSd(sdAway)} SD ${sdAway < 0 ? 'below' : 'above'}`;

/** A distance in SD, one decimal, without a sign. */
export const inSd = (distance: number) => zOnChart(Math.abs(distance)).replace('+', '');

function limitsSentence(inForce: LimitsInForce, { mean, unit }: SeriesScale): string {
  const { own } = inForce;
  if (own === null) return '';
  const { low3, high3 } = limitStepInForce(own, inForce);
  return `Own ${outerWidth(inForce)} limits ${mean(low3)} and ${mean(high3)} ${unit} around a mean of ${mean(own.mean)} ${unit}.`;
}

/** `3 SD`; `4.3 SD` where the policy widens the limits for the few that they rest on. */
export function outerWidth({ n, policy }: Pick<LimitsInForce, 'n' | 'policy'>): string {
  const { outer } = limitWidths(policy, n);
  return `${outer === plainWidths.outer ? String(outer) : inSd(outer)} SD`;
}

/** What the band and its edges are, under the chart. */
export function bandSentence(policy: ControlPolicy, noun: string): string {
  const widened = policy.smallSample ? `, both widened for few ${noun}s` : '';
  return `Pale band: own ±2 SD. Thin edges: ±3 SD${widened}.`;
}

function countSentences(items: readonly SeriesItem[], noun: string, scale: SeriesScale): string {
  const [first] = items;
  const end = items.at(-1);
  if (!first || !end) return `No ${noun}s.`;
  const kept = items.filter(isCounted);
  const struck = items.length - kept.length;
  const marked = kept.filter((item) => firedRules(item).length > 0).length;
  const last = kept.at(-1);
  const [from, to] = [day(first.at), day(end.at)];
  const span = from === to ? `on ${from}` : `from ${from} to ${to}`;
  const aside = kept.filter(({ setAside }) => setAside !== null).length;
  const apart = [
    ...(struck > 0 ? [`, ${struck} of them voided`] : []),
    ...(aside > 0 ? [`, ${aside} set aside`] : []),
  ];
  const sentences = [`${counted(items.length, noun)} ${span}${apart.join('')}.`];
  if (last) {
    const z = last.evaluation.z === null ? '' : `, z ${zOnChart(last.evaluation.z)}`;
    sentences.push(
      `Last: ${scale.value(last.value)} ${scale.unit}${z}, ${verdictWords[last.word].toLowerCase()}.`,
    );
  }
  sentences.push(marked === 0 ? `No ${noun} has a signal.` : `${counted(marked, noun)} with a signal.`);
  return sentences.join(' ');
}

/** Which other lines lie over the chart; empty where there are none. */
export const overlaySentence = ({ overlays }: Pick<ControlChartModel, 'overlays'>): string =>
  overlays.length === 0 ? '' : `Laid over it: ${overlays.map(({ label }) => label).join('; ')}.`;

/** What part of the series a chart shows, where it is not all of it; empty where it is. */
export function shownSentence({
  from,
  to,
  whole,
  axis,
  noun,
  itemCount,
  offAxis,
  points,
}: Pick<
  ControlChartModel,
  'from' | 'to' | 'whole' | 'axis' | 'noun' | 'itemCount' | 'offAxis' | 'points'
>): string {
  const sentences: string[] = [];
  if (from > whole.from || to < whole.to) {
    sentences.push(`Shown: ${day(from)} to ${day(to - 1)}, ${counted(itemCount, noun)}.`);
  }
  if (axis === 'z') {
    sentences.push(`The axis is z: SD from the mean that each ${noun} was judged by.`);
    if (offAxis > 0)
      sentences.push(`${counted(offAxis, `${noun} has`, `${noun}s have`)} no z and cannot stand on it.`);
  }
  const left = itemCount - offAxis - points.length;
  if (left > 0) {
    sentences.push(
      `${points.length} of ${counted(itemCount - offAxis, noun)} are drawn, every signal and extreme among them; look closer to see the rest.`,
    );
  }
  return sentences.join(' ');
}
