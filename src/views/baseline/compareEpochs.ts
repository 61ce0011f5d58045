/** The baseline in force against the one before it: how far the mean moved and how the scatter changed, in words. Pure. */
import { mean, meanDifference, sampleSd, sdRatio } from '../../core/index.ts';
import { counted, day, marked } from '../parts/figures.ts';
import type { Epoch } from './baselineRuns.ts';
import type { BaselineScale } from './baselineScale.ts';

export interface EpochRow {
  name: string;
  count: number;
  mean: string;
  sd: string;
}

export interface EpochComparison {
  rows: readonly EpochRow[];
  sentences: readonly string[];
}

const surely = 0.05;

export function compareEpochs(before: Epoch, inForce: Epoch, scale: BaselineScale): EpochComparison {
  const [older, newer] = [before, inForce].map(({ members }) => members.map(({ value }) => value));
  const rows = [rowOf('Before', before, scale), rowOf('In force', inForce, scale)];
  if (older === undefined || newer === undefined || newer.length < 2) {
    return { rows, sentences: ['Two runs at least are needed on either side to compare.'] };
  }
  return { rows, sentences: [...meanSentence(newer, older, scale), ...spreadSentence(newer, older)] };
}

function rowOf(name: string, { members, start }: Epoch, scale: BaselineScale): EpochRow {
  const values = members.map(({ value }) => value);
  const middle = mean(values);
  const sd = sampleSd(values);
  const since = start === null ? 'from the first run' : `from ${day(start.body.from, start.zone)}`;
  return {
    name: `${name}, ${since}`,
    count: values.length,
    mean: middle === undefined ? '–' : `${scale.value(middle)} ${scale.unit}`,
    sd: sd === undefined ? '–' : `${scale.sd(sd)} ${scale.unit}`,
  };
}

function meanSentence(
  newer: readonly number[],
  older: readonly number[],
  { difference: write }: BaselineScale,
): readonly string[] {
  const found = meanDifference(newer, older);
  if (found === undefined) return [];
  const { difference, lower, upper } = found;
  const interval = `between ${write(lower)} and ${write(upper)} with 95 % confidence`;
  return [
    lower <= 0 && upper >= 0
      ? `The mean moved by ${write(difference)}, ${interval}: that it did not move at all is as good an explanation.`
      : `The mean moved by ${write(difference)}, ${interval}.`,
  ];
}

function spreadSentence(newer: readonly number[], older: readonly number[]): readonly string[] {
  const [sd = 0, sdBefore = 0] = [sampleSd(newer), sampleSd(older)];
  if (sd === 0 || sdBefore === 0) return [];
  const { ratio, lower, upper, p } = sdRatio({ sd, n: newer.length }, { sd: sdBefore, n: older.length });
  const times = (value: number) => marked(value.toFixed(2));
  const figures = `${times(ratio)} times what it was, between ${times(lower)} and ${times(upper)} times with 95 % confidence`;
  const few = Math.min(newer.length, older.length);
  if (p >= surely) {
    return [
      `The SD is ${figures}: no sure change${few < 20 ? `, of ${counted(few, 'run')} on one side` : ''}.`,
    ];
  }
  return [
    ratio > 1
      ? `The SD is ${figures}: the runs scatter more widely than before. The new limits let more pass.`
      : `The SD is ${figures}: the runs scatter less widely than before. The new limits notice more.`,
  ];
}
