/** What the runs of a baseline come to, and what is to be looked at before it is accepted, in words. Pure. */
import {
  autocorrelationByChance,
  type ControlPolicy,
  lagOneAutocorrelation,
  mean,
  meanConfidenceInterval,
  outlyingIndices,
  sampleSd,
  sdConfidenceInterval,
  shapiroFrancia,
} from '../../core/index.ts';
import { counted, marked, plain } from '../parts/figures.ts';
import type { DeskRun } from './baselineRuns.ts';
import type { BaselineScale } from './baselineScale.ts';

export interface Hint {
  name: string;
  sentence: string;
  /** It is to be looked at; nothing follows from it by itself. */
  isWarning: boolean;
}

export interface BaselineWords {
  figures: readonly { name: string; value: string }[];
  hints: readonly Hint[];
  /** Ids of the runs that stand apart from the rest. */
  outlying: ReadonlySet<string>;
  mean: number | null;
  /** Null for fewer than two runs, and where all are equal. */
  sd: number | null;
}

/** Of a good baseline one in a hundred is doubted at this level; of 5 in 100 a supervisor would soon take no notice. Common practice, no source. */
const unlikely = 0.01;

/** Of a correlation or a probability. */
const digits = (value: number, places = 2) =>
  (value < 0 ? '−' : '') + marked(Math.abs(value).toFixed(places));

export function describeBaseline(
  members: readonly DeskRun[],
  policy: ControlPolicy,
  scale: BaselineScale,
): BaselineWords {
  const values = members.map(({ value }) => value);
  const middle = mean(values) ?? null;
  const sd = sampleSd(values) || null;
  const outliers = outlyingIndices(values);
  const outlying = new Set(outliers.flatMap((index) => members[index]?.run.id ?? []));
  const n = values.length;
  return {
    figures: [
      { name: 'Runs', value: countWords(n, policy) },
      { name: 'Mean', value: meanWords(middle, sd, n, scale) },
      { name: 'SD', value: sdWords(sd, n, scale) },
    ],
    hints: [
      ...(n >= 5 ? [outlierHint(outliers.length)] : []),
      ...normalityHint(values),
      ...neighbourHint(values),
    ],
    outlying,
    mean: middle,
    sd,
  };
}

function countWords(n: number, { limits, baselineSize, minimumSize }: ControlPolicy): string {
  const of = limits === 'baseline' ? 'the first' : 'the newest';
  if (n < minimumSize) return `${n} of ${baselineSize}: own limits begin at ${minimumSize}`;
  return n < baselineSize
    ? `${n} of ${baselineSize}, provisional`
    : `${n}, ${of} accepted${limits === 'baseline' ? ' since the baseline began' : ''}`;
}

function meanWords(middle: number | null, sd: number | null, n: number, scale: BaselineScale): string {
  if (middle === null) return '–';
  const value = `${scale.value(middle)} ${scale.unit}`;
  if (sd === null) return value;
  const { lower, upper } = meanConfidenceInterval(middle, sd, n);
  return `${value}, true mean ${scale.value(lower)} to ${scale.value(upper)} (95 %)`;
}

function sdWords(sd: number | null, n: number, scale: BaselineScale): string {
  if (sd === null) return n < 2 ? '–' : 'none: all runs read the same';
  const { lower, upper } = sdConfidenceInterval(sd, n);
  return `${scale.sd(sd)} ${scale.unit}, true SD ${scale.sd(lower)} to ${scale.sd(upper)} (95 %)`;
}

function outlierHint(count: number): Hint {
  return {
    name: 'Standing apart',
    isWarning: count > 0,
    sentence:
      count === 0
        ? `No run stands apart: none is more than ${plain(3.5)} robust SD from the middle.`
        : `${counted(count, 'run stands', 'runs stand')} more than ${plain(3.5)} robust SD from the middle. Look at what happened; none is left out by itself.`,
  };
}

function normalityHint(values: readonly number[]): readonly Hint[] {
  const test = shapiroFrancia(values);
  if (test === undefined) return [];
  const isDoubted = test.p < unlikely;
  const p = pWords(test.p);
  return [
    {
      name: 'Shape',
      isWarning: isDoubted,
      sentence: isDoubted
        ? `The runs do not lie as normal ones would (Shapiro–Francia ${p}): 2 and 3 SD alarm more often, or less, than they promise. Two levels in one baseline, or a run far off, look like this.`
        : `Nothing speaks against a normal distribution (Shapiro–Francia ${p}).`,
    },
  ];
}

function pWords(p: number): string {
  if (p < 0.001) return `p below ${plain(0.001)}`;
  return p > 0.99 ? `p above ${plain(0.99)}` : `p ${digits(p, p < 0.1 ? 3 : 2)}`;
}

function neighbourHint(values: readonly number[]): readonly Hint[] {
  const r = lagOneAutocorrelation(values);
  if (r === undefined || values.length < 5) return [];
  const chance = autocorrelationByChance(values.length);
  const figures = `r ${digits(r)}, chance gives up to ±${digits(chance)}`;
  const name = 'Run after run';
  if (Math.abs(r) <= chance) {
    return [
      {
        name,
        isWarning: false,
        sentence: `Neighbouring runs are not more alike than by chance (${figures}).`,
      },
    ];
  }
  return [
    {
      name,
      isWarning: true,
      sentence:
        r > 0
          ? `Neighbouring runs are alike (${figures}): it drifts or steps within the baseline. The mean is known less well than its interval says.`
          : `Neighbouring runs swing from side to side (${figures}): two people, syringes or times of day in turn look like this.`,
    },
  ];
}
