/** A series of controls in sentences and figures, beside its chart. Pure. */
import {
  type CheckLimits,
  coefficientOfVariation,
  dlcoFromMlMinMmHg,
  firstTestCount,
  type SimulatorLevel,
} from '../../core/index.ts';
import type { SeriesControl, SeriesOfControls } from '../charting/controlSeries.ts';
import type { ControlStory } from '../charting/controlStory.ts';
import { type SeriesWords, seriesWords } from '../charting/describeSeries.ts';
import { counted, day, dlco, limitPercent, percent, plain } from '../parts/figures.ts';

export interface ControlWords extends SeriesWords {
  /** What the published limits are laid about, and how far from it; empty where none applies, or none yet. */
  laidAbout: string;
  /** A person's spread against what can be reached; empty while nothing can be said of it. */
  spread: string;
}

/** `limits`: those of the other checks, in force now. */
export function controlWords(
  { series }: Pick<SeriesOfControls, 'series'>,
  story: ControlStory,
  limits: CheckLimits,
): ControlWords {
  const isBiological = series.kind === 'biological';
  const isDlcoOfPerson = isBiological && series.quantity === 'dlco';
  const words = seriesWords({
    ...story,
    failureIsOpen: story.failures.some(({ ended }) => ended === null),
    ...(isBiological && { until: 'nothing is judged' }),
  });
  const spread = isDlcoOfPerson ? spreadOf(story.items) : null;
  const cv = spread === null ? [] : [{ name: 'CV', value: percent(spread.cv), unit: '%' }];
  const laidAbout = isDlcoOfPerson
    ? firstTestsSentence(story, limits.biological)
    : isBiological
      ? 'No published limit applies to a person’s VA: its own limits judge it.'
      : targetSentence(story.items, series.level, limits.simulator);
  const spreadWords = spread === null ? '' : spreadSentence(spread, limits.biological.cv);
  return {
    ...words,
    figures: [...words.figures, ...cv],
    laidAbout,
    spread: spreadWords,
    description: [words.description, laidAbout, spreadWords].filter((sentence) => sentence !== '').join(' '),
  };
}

/** Of the accepted tests of the newest epoch: a new baseline may have moved the mean. */
function spreadOf(items: readonly SeriesControl[]): { cv: number; n: number } | null {
  const epoch = items.at(-1)?.epoch;
  const accepted = items.filter((item) => item.epoch === epoch && item.evaluation.accepted);
  const cv = coefficientOfVariation(accepted.map(({ value }) => value));
  return cv === undefined ? null : { cv, n: accepted.length };
}

const spreadSentence = ({ cv, n }: { cv: number; n: number }, reachable: number) =>
  `Coefficient of variation ${percent(cv)} % of ${counted(n, 'accepted test')}: ${
    cv > reachable ? 'more than' : 'within'
  } the ${limitPercent(reachable)} % that can be reached.`;

function firstTestsSentence(
  { scale, inForce }: ControlStory,
  { fraction, dlcoMlMinMmHg }: CheckLimits['biological'],
): string {
  const { firstMean, published } = inForce;
  if (firstMean === null || published === null) return '';
  const { unit } = scale;
  const both = `±${limitPercent(fraction)} % and ±${plain(dlcoMlMinMmHg)} mL/min/mmHg`;
  return `The first ${firstTestCount} tests have a mean of ${scale.mean(firstMean)} ${unit}; of the published ${both} about it the nearer holds: ${scale.limit(published.low)} to ${scale.limit(published.high)} ${unit}.`;
}

/** The target of the last session: a new certificate moves it, and not the series, which is of the distance from it. */
function targetSentence(
  items: readonly SeriesControl[],
  level: SimulatorLevel,
  { dlcoMlMinMmHg, source }: CheckLimits['simulator'],
): string {
  const limit = `Published ±${plain(dlcoMlMinMmHg)} mL/min/mmHg about the target (${source}).`;
  const control = items.at(-1)?.logged.control;
  if (control?.kind !== 'simulator') return limit;
  const own = control.levels.find((one) => one.level === level);
  if (own === undefined) return limit;
  const { dlcoUnit } = own.reading;
  const target = dlco(dlcoFromMlMinMmHg(own.targetMlMinMmHg, dlcoUnit), dlcoUnit);
  return `Target ${target} ${dlcoUnit} on ${day(control.madeAt)}. ${limit}`;
}
