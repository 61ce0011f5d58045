/** From what a supervisor has ticked and typed to the body of a sign-off, or to what is still missing. Pure. */
import { addDays, type CivilDate, daysBetween } from '../../core/index.ts';
import type { EntryBody } from '../../journal/entries.ts';
import { civilDay } from '../parts/figures.ts';
import type { SignOff } from '../signedOff.ts';
import type { Period, Worklist } from './buildWorklist.ts';

export interface SignOffDraft {
  comment: string;
  /** By the page's id. */
  comments: Readonly<Record<string, string>>;
  /** Stamps of the pages that were looked through, and keys of the open failures that were seen. */
  seen: readonly string[];
}

export const emptySignOff: SignOffDraft = { comment: '', comments: {}, seen: [] };

/** From the day after the last sign-off, or from the first entry's, up to today. */
export function nextPeriod(signOffs: readonly SignOff[], firstDay: CivilDate, today: CivilDate): Period {
  const lastTo = signOffs
    .map(({ body }) => body.to)
    .toSorted()
    .at(-1);
  if (lastTo === undefined) return { from: firstDay < today ? firstDay : today, to: today };
  const next = addDays(lastTo, 1);
  return { from: next < today ? next : today, to: today };
}

/** What is wrong with a period as it stands in its two fields; each undefined where all is well. */
export function periodErrors({ from, to }: Period, today: CivilDate): { from?: string; to?: string } {
  const isDate = (text: string) => {
    try {
      daysBetween(text, text);
      return true;
    } catch {
      return false;
    }
  };
  const missing = 'Choose a date.';
  return {
    ...(isDate(from)
      ? isDate(to) && from > to
        ? { from: 'It begins after it ends.' }
        : {}
      : { from: missing }),
    ...(isDate(to)
      ? to > today
        ? { to: `It cannot end after today, ${civilDay(today)}: choose an earlier day.` }
        : {}
      : { to: missing }),
  };
}

/** One sentence for each thing that keeps the period from being signed. */
export function missingForSignOff(worklist: Worklist, { seen }: SignOffDraft): readonly string[] {
  if (worklist.heads.length === 0) return ['Nothing is new in this period: there is nothing to sign.'];
  return worklist.pages.flatMap(({ label, stamp, openFailures }) => [
    ...(seen.includes(stamp) ? [] : [`${label} is not ticked as looked through.`]),
    ...openFailures
      .filter(({ key }) => !seen.includes(key))
      .map(({ inSentence }) => `The open failure of ${label}, ${inSentence}, is not ticked as seen.`),
  ]);
}

export function signOffBody(
  period: Period,
  worklist: Worklist,
  { comment, comments }: SignOffDraft,
): Omit<EntryBody<'period-signed'>, 'signOffId'> {
  return {
    ...period,
    analyzers: worklist.pages.flatMap(({ analyzer, id }) =>
      analyzer === null ? [] : [{ analyzerId: id, comment: comments[id]?.trim() ?? '' }],
    ),
    heads: worklist.heads,
    comment: comment.trim(),
    signature: null,
  };
}
