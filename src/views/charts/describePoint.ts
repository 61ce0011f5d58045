/** What is known of one run, for whoever points at it: written when it is pointed at, since a chart may hold thousands. */
import type { Former } from '../amendments.ts';
import { dayAndTime, zInTable } from '../parts/figures.ts';
import { verdictWords } from '../parts/words.ts';
import type { SeriesRun } from './chartSeries.ts';
import { firedRules } from './ruleNames.ts';
import type { SeriesScale } from './seriesScale.ts';

export interface PointDescription {
  when: string;
  value: string;
  /** What amendments replaced. */
  former: readonly Former[];
  z: string;
  verdict: string;
  fired: string;
  /** That it has no part in the mean and SD of later runs, where that is not said by its verdict. */
  apart: string;
  note: string;
}

export function describePoint(seriesRun: SeriesRun, scale: SeriesScale): PointDescription {
  const { run, at, value, evaluation, word } = seriesRun;
  const voided = run.voided !== null;
  return {
    when: dayAndTime(at),
    value: `${scale.value(value)} ${scale.unit}`,
    former: seriesRun.former,
    z: evaluation.z === null ? '' : `z ${zInTable(evaluation.z)}`,
    verdict: voided ? 'Voided' : verdictWords[word],
    fired: voided ? '' : firedRules(seriesRun).join(', '),
    apart: apartWords(seriesRun),
    note: run.voided?.reason ?? run.body.comment,
  };
}

function apartWords(seriesRun: SeriesRun): string {
  const { setAside } = seriesRun.run;
  if (!isApart(seriesRun)) return '';
  return setAside === null
    ? 'Not in the mean and SD: a failure was open'
    : `Set aside, in no mean and no pattern: ${setAside.reason}`;
}

/** It passed or warned, or a supervisor has set it aside, and so the statistics leave it out. */
export const isApart = ({ run, evaluation, word }: SeriesRun) =>
  run.voided === null &&
  (run.setAside !== null || (word !== 'fail' && evaluation.failureOpen && !evaluation.accepted));
