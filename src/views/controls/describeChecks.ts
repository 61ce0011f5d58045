/** A check with figures in sentences, beside its chart. Pure. */
import type { EntryBody } from '../../journal/entries.ts';
import type { LoggedCheck } from '../../journal/logbook.ts';
import { counted, day, limitPercent, plain, signedPercent } from '../parts/figures.ts';
import type { GasChecks } from './buildLinearityCharts.ts';
import { volumeOf } from './chartedChecks.ts';

export const outcomeWords: Record<EntryBody<'check-done'>['outcome'], string> = {
  passed: 'Passed',
  failed: 'Failed',
  noted: 'Noted',
};

/** `checks`: at least one, oldest first. */
export function volumeSentences(checks: readonly LoggedCheck[]): string[] {
  const last = checks.at(-1);
  if (last === undefined) return [];
  const failed = checks.filter(({ entry }) => entry.body.outcome === 'failed').length;
  const { doneAt, outcome, volume } = last.entry.body;
  const worst = volumeOf(last)?.worstFraction ?? null;
  const farthest = worst === null ? 'no reading written down' : `farthest flow ${signedPercent(worst)} %`;
  return [
    `${counted(checks.length, 'check')}, ${failed === 0 ? 'none' : failed} failed. Last: ${day(doneAt)}, ${outcomeWords[outcome].toLowerCase()}, ${farthest}.`,
    ...(volume === null
      ? []
      : [`Each flow within ±${limitPercent(volume.limitFraction)} % of what should be read.`]),
  ];
}

/** The newest check of one gas: its largest deviation, and whether the analyzer is straight or only its gain is off. */
export function linearitySentences({ checks }: GasChecks): string[] {
  const newest = checks.at(-1);
  if (newest === undefined) return [];
  const { judged, readings, check } = newest;
  const { unit, fullScale, limitFraction, points } = readings;
  const { line, worstFromLineFraction, isStraight, within } = judged;
  const limit = `±${limitPercent(limitFraction)} %`;
  const sentences = [
    `${day(check.entry.body.doneAt, check.entry.zone)}: ${signedPercent(judged.worstFraction, 2)} % of full scale (${plain(fullScale)} ${unit}) at the most, ${
      within ? 'within' : 'outside'
    } ${limit}; ${counted(points.length, 'dilution')}.`,
  ];
  if (line !== null && worstFromLineFraction !== null) {
    sentences.push(
      `Line through them: slope ${plain(rounded(line.slope, 4))}, intercept ${plain(rounded(line.intercept, 4))} ${unit}; farthest from it ${signedPercent(worstFromLineFraction, 2)} % of full scale.`,
    );
  }
  if (!within && isStraight === true) {
    sentences.push(
      'The points lie on a line that is not that of equal values: gain or zero is off, the analyzer is straight.',
    );
  }
  if (!within && isStraight === false)
    sentences.push('The points do not lie on one line: the analyzer is not linear.');
  return sentences;
}

const rounded = (value: number, digits: number) => Number(value.toPrecision(digits));
