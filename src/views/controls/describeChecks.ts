/** A check with figures in sentences, beside its chart. Pure. */
import type { EntryBody } from '../../journal/entries.ts';
import type { LoggedCheck } from '../../journal/logbook.ts';
import { lineSentences } from '../linearityWords.ts';
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

/** The newest check of one gas: its largest deviation, and what the line through its points says. */
export function linearitySentences({ checks }: GasChecks): string[] {
  const newest = checks.at(-1);
  if (newest === undefined) return [];
  const { judged, readings, check } = newest;
  const { unit, fullScale, limitFraction, points } = readings;
  const at = `${signedPercent(judged.worstFraction, 2)} % of full scale (${plain(fullScale)} ${unit}) at the most`;
  const limit = `${judged.within ? 'within' : 'outside'} ±${limitPercent(limitFraction)} %`;
  return [
    `${day(check.entry.body.doneAt, check.entry.zone)}: ${at}, ${limit}; ${counted(points.length, 'dilution')}.`,
    ...lineSentences(judged, unit),
  ];
}
