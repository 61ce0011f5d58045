/** What is known of one run or test, for whoever points at it: written when it is pointed at, since a chart may hold thousands. */
import type { Former } from '../amendments.ts';
import { dayAndTime, zInTable } from '../parts/figures.ts';
import { verdictWords } from '../parts/words.ts';
import { firedRules } from './ruleNames.ts';
import { isApart, type SeriesItem } from './seriesItem.ts';
import type { SeriesScale } from './seriesScale.ts';

export interface PointDescription {
  when: string;
  value: string;
  /** What amendments replaced. */
  former: readonly Former[];
  z: string;
  verdict: string;
  fired: string;
  /** That it has no part in the mean and SD of later ones, where that is not said by its verdict. */
  apart: string;
  note: string;
}

export function describePoint(item: SeriesItem, scale: SeriesScale): PointDescription {
  const { at, value, evaluation, word, voided, comment } = item;
  return {
    when: dayAndTime(at),
    value: `${scale.value(value)} ${scale.unit}`,
    former: item.former,
    z: evaluation.z === null ? '' : `z ${zInTable(evaluation.z)}`,
    verdict: voided ? 'Voided' : verdictWords[word],
    fired: voided ? '' : firedRules(item).join(', '),
    apart: apartWords(item),
    note: voided?.reason ?? comment,
  };
}

function apartWords(item: SeriesItem): string {
  const { setAside } = item;
  if (!isApart(item)) return '';
  return setAside === null
    ? 'Not in the mean and SD: a failure was open'
    : `Set aside, in no mean and no pattern: ${setAside.reason}`;
}
