/** The entries that made a piece of equipment or a person what they are, each with the fields that it changed. Pure. */
import type { Entry } from '../../journal/entries.ts';
import type { Logbook } from '../../journal/logbook.ts';
import {
  analyzerInWords,
  cylinderInWords,
  personInWords,
  subjectInWords,
  syringeInWords,
} from '../equipmentInWords.ts';
import { changedFields, type FieldInWords } from '../parts/fieldsInWords.ts';
import { dayAndTime } from '../parts/figures.ts';
import type { HistoryLine } from '../parts/history.tsx';
import { settings } from './subjectStates.ts';

type Named = Pick<Logbook, 'analyzers' | 'syringes' | 'cylinders'>;

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
    case 'cylinder-added':
    case 'cylinder-changed':
      return [{ name: 'Name', value: entry.body.label }, ...cylinderInWords(entry.body)];
    case 'subject-added':
    case 'subject-changed':
      return [{ name: 'Code', value: entry.body.code }, ...subjectInWords(entry.body)];
    default:
      return null;
  }
}

/** What an entry did to the record that it stands in, and why or with what. */
function told(entry: Entry, named: Named): { what: string; reason: string } {
  const from = (instant: string) => `from ${dayAndTime(instant, entry.zone)}`;
  switch (entry.kind) {
    case 'technologist-added':
    case 'analyzer-added':
    case 'syringe-added':
    case 'cylinder-added':
    case 'subject-added':
      return { what: 'Added', reason: '' };
    case 'technologist-changed':
    case 'analyzer-changed':
    case 'syringe-changed':
    case 'cylinder-changed':
    case 'subject-changed':
      return { what: 'Changed', reason: entry.body.reason };
    case 'technologist-retired':
    case 'analyzer-retired':
    case 'syringe-retired':
    case 'cylinder-retired':
      return { what: 'Retired', reason: entry.body.reason };
    case 'subject-retired':
      return { what: 'Left', reason: entry.body.reason };
    case 'subject-state-set': {
      const { state, from: since, reason } = entry.body;
      return { what: settings[state].done, reason: `${from(since)}. ${reason}` };
    }
    case 'key-registered':
      return { what: 'Passphrase registered', reason: entry.body.reason };
    case 'service-set': {
      const what = entry.body.inService ? 'Put back in service' : 'Taken out of service';
      return { what, reason: `${from(entry.body.from)}. ${entry.body.reason}` };
    }
    case 'cylinder-fitted': {
      const { analyzerId, cylinderId, fittedAt } = entry.body;
      const analyzer = named.analyzers.get(analyzerId)?.description.label ?? 'unknown';
      if (cylinderId === null)
        return { what: 'Cylinder taken off', reason: `${analyzer}, ${from(fittedAt)}` };
      const cylinder = named.cylinders.get(cylinderId)?.description.label ?? 'unknown';
      return { what: 'Cylinder fitted', reason: `${cylinder} to ${analyzer}, ${from(fittedAt)}` };
    }
    case 'syringe-dropped': {
      const { droppedAt, description } = entry.body;
      return { what: 'Dropped', reason: `${dayAndTime(droppedAt, entry.zone)}. ${description}` };
    }
    case 'policy-set':
      return { what: 'Control policy set', reason: `${from(entry.body.from)}. ${entry.body.reason}` };
    default:
      return { what: entry.kind, reason: 'reason' in entry.body ? entry.body.reason : '' };
  }
}

/** `entries` of one record, oldest first, as the logbook keeps them. */
export function historyOfRecord(entries: readonly Entry[], named: Named): HistoryLine[] {
  let before: FieldInWords[] | null = null;
  return entries.map((entry) => {
    const now = described(entry, named.syringes);
    const changes = before !== null && now !== null ? changedFields(before, now) : [];
    before = now ?? before;
    return { entry, ...told(entry, named), changes };
  });
}
