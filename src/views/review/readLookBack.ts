/** The form of a patient look-back: as it is read, and as an entry. Pure. */

import type { EntryBody, EntryDraft } from '../../journal/entries.ts';
import { isRecordableYear, isStillToCome } from '../../journal/plausible.ts';
import { named } from '../closing.ts';
import type { Failure } from '../failures.ts';
import { type Errors, type FormReading, finish } from '../parts/formReading.ts';
import { readNumber } from '../parts/readNumber.ts';

type Body = EntryBody<'look-back-reviewed'>;
export type LookBackReview = Pick<
  Body,
  'from' | 'to' | 'reviewerId' | 'outcome' | 'testedCount' | 'affectedCount' | 'note'
>;

export interface LookBackDraft {
  /** As fields for date and time hold them. */
  from: string;
  to: string;
  reviewerId: string;
  outcome: Body['outcome'] | '';
  tested: string;
  affected: string;
  note: string;
}

/** `now` in ms. */
export function readLookBack(draft: LookBackDraft, now: number): FormReading<LookBackDraft, LookBackReview> {
  const errors: Errors<LookBackDraft> = {};
  const from = moment(draft.from);
  const to = moment(draft.to);
  if (from === null) errors.from = 'Type from when on results were looked at.';
  if (to === null) errors.to = 'Type up to when results were looked at.';
  else if (isStillToCome(to, now))
    errors.to = 'This is still to come. Type up to when results were looked at.';
  else if (from !== null && to < from)
    errors.to = 'This is before the beginning. Exchange the two, or type it anew.';
  if (draft.reviewerId === '') errors.reviewerId = 'Choose who looked at the results.';
  if (draft.outcome === '') errors.outcome = 'Choose what came of it.';
  const nobody = draft.outcome === 'nobody-tested';
  const tested = nobody
    ? 0
    : readCount(draft.tested, 'number of patients', (message) => {
        errors.tested = message;
      });
  const affected = nobody
    ? 0
    : readCount(draft.affected, 'number of patients', (message) => {
        errors.affected = message;
      });
  if (errors.affected === undefined && affected !== null) {
    if (tested !== null && affected > tested)
      errors.affected = 'More affected than tested: one of the two is wrong.';
    else if (draft.outcome === 'none-affected' && affected > 0) {
      errors.affected = 'None affected, and yet a number: choose another outcome, or type 0.';
    } else if (draft.outcome === 'results-corrected' && affected === 0) {
      errors.affected = 'Results were corrected, so somebody was affected: type how many.';
    }
  }
  return finish(errors, {
    from: from === null ? '' : new Date(from).toISOString(),
    to: to === null ? '' : new Date(to).toISOString(),
    reviewerId: draft.reviewerId,
    outcome: draft.outcome === '' ? 'none-affected' : draft.outcome,
    testedCount: tested,
    affectedCount: draft.outcome === 'none-affected' ? 0 : affected,
    note: draft.note.trim(),
  });
}

function moment(text: string): number | null {
  const at = new Date(text);
  return isRecordableYear(at.getFullYear()) ? at.getTime() : null;
}

function readCount(text: string, name: string, complain: (message: string) => void): number | null {
  const read = readNumber(text, { name, unit: '', lowest: 0, highest: 9999, example: '12' });
  if (read.state === 'empty') return null;
  if (read.state === 'wrong') complain(read.message);
  else if (Number.isInteger(read.value)) return read.value;
  else complain(`“${text.trim()}” is not a whole number. Type the ${name} as one.`);
  return null;
}

export function lookBackEntries(
  review: LookBackReview,
  failures: readonly Failure[],
  by: string,
): EntryDraft[] {
  return [
    {
      id: crypto.randomUUID(),
      by,
      kind: 'look-back-reviewed',
      body: {
        lookBackId: crypto.randomUUID(),
        analyzerId: failures[0]?.analyzerId ?? '',
        failures: named(failures),
        ...review,
      },
    },
  ];
}
