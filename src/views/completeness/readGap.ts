/** From the typed form to the entry that says why a check was not made. Pure. */
import type { CivilDate } from '../../core/index.ts';
import type { EntryBody } from '../../journal/entries.ts';
import { isRecordableYear } from '../../journal/plausible.ts';
import type { AnalyzerCheck } from '../completenessOf.ts';
import { type Errors, type FormReading, finish } from '../parts/formReading.ts';

export interface GapDraft {
  check: AnalyzerCheck;
  from: CivilDate;
  to: CivilDate;
  reason: string;
}

type GapContent = Pick<EntryBody<'gap-explained'>, 'check' | 'from' | 'to' | 'reason'>;

export function readGap(draft: GapDraft): FormReading<GapDraft, GapContent> {
  const errors: Errors<GapDraft> = {};
  const isDate = (date: CivilDate) =>
    /^\d{4}-\d\d-\d\d$/.test(date) && isRecordableYear(Number(date.slice(0, 4)));
  const reason = draft.reason.trim();
  if (!isDate(draft.from)) errors.from = 'Type the first day, with a year of four digits.';
  if (!isDate(draft.to)) errors.to = 'Type the last day, with a year of four digits.';
  else if (errors.from === undefined && draft.to < draft.from)
    errors.to = 'This is before the first day. Type the same day or a later one.';
  if (reason === '') errors.reason = 'Say why it was not made: on holiday, closed, overlooked.';
  return finish(errors, { check: draft.check, from: draft.from, to: draft.to, reason });
}
