/** The entries that made a piece of equipment or a person what they are, each with the fields that it changed. Pure. */
import type { Entry } from '../../journal/entries.ts';
import type { Logbook } from '../../journal/logbook.ts';
import type { Change, HistoryLine } from '../parts/history.tsx';
import { analyzerInWords, type FieldInWords, personInWords, syringeInWords } from './inWords.ts';

const historyWords: Partial<Record<Entry['kind'], string>> = {
  'technologist-added': 'Added',
  'technologist-changed': 'Changed',
  'technologist-retired': 'Retired',
  'analyzer-added': 'Added',
  'analyzer-changed': 'Changed',
  'analyzer-retired': 'Retired',
  'syringe-added': 'Added',
  'syringe-changed': 'Changed',
  'syringe-retired': 'Retired',
  'key-registered': 'Passphrase registered',
};

/** What an entry describes; null for one that describes nothing, such as a retirement. */
function described(entry: Entry, syringes: Logbook['syringes']): FieldInWords[] | null {
  switch (entry.kind) {
    case 'technologist-added':
    case 'technologist-changed':
      return [{ name: 'Name', value: entry.body.name }, ...personInWords(entry.body)];
    case 'syringe-added':
    case 'syringe-changed':
      return [{ name: 'Name', value: entry.body.label }, ...syringeInWords(entry.body)];
    case 'analyzer-added':
    case 'analyzer-changed':
      return [{ name: 'Name', value: entry.body.label }, ...analyzerInWords(entry.body, syringes)];
    default:
      return null;
  }
}

/** `entries` of one record, oldest first, as the logbook keeps them. */
export function historyOfRecord(entries: readonly Entry[], syringes: Logbook['syringes']): HistoryLine[] {
  let before: FieldInWords[] | null = null;
  return entries.map((entry) => {
    const now = described(entry, syringes);
    const changes = before !== null && now !== null ? changedFields(before, now) : [];
    before = now ?? before;
    const reason = 'reason' in entry.body ? entry.body.reason : '';
    return { entry, what: historyWords[entry.kind] ?? entry.kind, reason, changes };
  });
}

function changedFields(before: readonly FieldInWords[], after: readonly FieldInWords[]): Change[] {
  return after.flatMap(({ name, value }, index) => {
    const from = before[index]?.value ?? '–';
    return from === value ? [] : [{ name, from, to: value }];
  });
}
