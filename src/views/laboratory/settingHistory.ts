/** How a setting came to be what it is: entry by entry, from what to what. Pure. */
import type { EntryOf } from '../../journal/entries.ts';
import { changedFields, type FieldInWords } from '../parts/fieldsInWords.ts';
import type { HistoryLine } from '../parts/history.tsx';

export type SettingEntry = EntryOf<
  | 'laboratory-described'
  | 'schedule-set'
  | 'limits-adopted'
  | 'check-limits-adopted'
  | 'policy-set'
  | 'closing-rules-set'
>;

/** `usual`: what held before anybody set it. */
export function settingHistory<E extends SettingEntry>(
  entries: readonly E[],
  usual: readonly FieldInWords[],
  inWords: (entry: E) => readonly FieldInWords[],
  what: string,
): HistoryLine[] {
  let before = usual;
  return entries.map((entry) => {
    const now = inWords(entry);
    const changes = changedFields(before, now);
    before = now;
    return { entry, what, reason: entry.body.reason, changes };
  });
}
