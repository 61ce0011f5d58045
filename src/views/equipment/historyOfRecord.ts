/** The entries that made a piece of equipment or a person what they are, each with the fields that it changed. Pure. */
import type {
  AnalyzerDescription,
  Entry,
  SyringeDescription,
  TechnologistDescription,
} from '../../journal/entries.ts';
import type { Logbook } from '../../journal/logbook.ts';
import { civilDay, litresTyped, plain } from '../parts/figures.ts';
import type { Change, HistoryLine } from '../parts/history.tsx';
import { conversionWords, roleWords, routeWords } from '../parts/words.ts';

interface FieldInWords {
  name: string;
  value: string;
}

const inMillilitres = (litres: number) => `${plain(Number((litres * 1000).toPrecision(12)))} mL`;
const dueOn = (date: string | null) => (date === null ? 'not known' : civilDay(date));

const personInWords = ({ name, initials, role }: TechnologistDescription): FieldInWords[] => [
  { name: 'Name', value: name },
  { name: 'Initials', value: initials },
  { name: 'Role', value: roleWords[role] },
];

const syringeInWords = (description: SyringeDescription): FieldInWords[] => [
  { name: 'Name', value: description.label },
  { name: 'Serial number', value: description.serial || '–' },
  { name: 'Nominal volume', value: `${litresTyped(description.volumeL)} L` },
  { name: 'Dead space', value: inMillilitres(description.deadSpaceL) },
  { name: 'Calibration due on', value: dueOn(description.calibrationDueOn) },
  { name: 'Leak check due on', value: dueOn(description.leakCheckDueOn) },
];

const analyzerInWords = (description: AnalyzerDescription, syringes: Logbook['syringes']): FieldInWords[] => [
  { name: 'Name', value: description.label },
  { name: 'Place', value: description.place || '–' },
  { name: 'Serial number', value: description.serial || '–' },
  { name: 'Usual syringe', value: syringes.get(description.syringeId)?.description.label ?? '–' },
  { name: 'Usual route', value: routeWords[description.route] },
  { name: 'VA is reported as', value: description.vaReportedAs },
  { name: 'VA is converted', value: conversionWords(description.conversion) },
  { name: 'Dead space it subtracts', value: inMillilitres(description.analyzerDeadSpaceL) },
  {
    name: 'Plunger at the start',
    value: description.volumeInsideL === 0 ? 'home' : `at ${litresTyped(description.volumeInsideL)} L`,
  },
  { name: 'Units', value: `${description.pressureUnit}, ${description.dlcoUnit}` },
];

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
      return personInWords(entry.body);
    case 'syringe-added':
    case 'syringe-changed':
      return syringeInWords(entry.body);
    case 'analyzer-added':
    case 'analyzer-changed':
      return analyzerInWords(entry.body, syringes);
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
