/** From a cell that names something to what it names: an analyzer, a person, a route, a gas condition. */
import type { ImportField } from './importFields.ts';
import type { KnownLogbook } from './importKnown.ts';
import type { ImportPlan } from './importPlan.ts';

/** Fields whose cells are names, each with the words that it takes besides the labels of a logbook. */
export const nameFields = [
  'analyzer',
  'syringe',
  'technologist',
  'method',
  'route',
  'reason',
  'pressureUnit',
  'vaCondition',
  'dlcoUnit',
  'conversion',
  'assumed',
] as const;
export type NameField = (typeof nameFields)[number];
export const isNameField = (field: ImportField): field is NameField =>
  nameFields.some((each) => each === field);

const listed: Readonly<
  Record<Exclude<NameField, 'analyzer' | 'syringe' | 'technologist'>, Readonly<Record<string, string>>>
> = {
  method: { syringe: 'syringe', 'precision-gas': 'precision-gas', 'precision gas': 'precision-gas' },
  route: {
    'patient-test': 'patient-test',
    'patient test': 'patient-test',
    patient: 'patient-test',
    'patient mode': 'patient-test',
    'built-in': 'built-in',
    'built in': 'built-in',
    'built-in routine': 'built-in',
    simulation: 'built-in',
    'simulation routine': 'built-in',
    'qc mode': 'built-in',
  },
  reason: {
    weekly: 'weekly',
    routine: 'weekly',
    'suspected-fault': 'suspected-fault',
    'suspected fault': 'suspected-fault',
    'after-service': 'after-service',
    'after service': 'after-service',
    service: 'after-service',
    repeat: 'repeat',
  },
  pressureUnit: { mmhg: 'mmHg', torr: 'mmHg', hpa: 'hPa', mbar: 'hPa', kpa: 'kPa' },
  vaCondition: { btps: 'BTPS', atps: 'ATPS', atp: 'ATP', atpd: 'ATPD', stpd: 'STPD' },
  dlcoUnit: { 'ml/min/mmhg': 'mL/min/mmHg', 'mmol/min/kpa': 'mmol/min/kPa' },
  conversion: { computed: 'computed', fixed: 'fixed' },
  assumed: { atpd: 'ATPD', atps: 'ATPS' },
};

const words: Readonly<Record<NameField, string>> = {
  analyzer: 'an analyzer of this logbook',
  syringe: 'a syringe of this logbook',
  technologist: 'a person of this logbook',
  method: 'a method',
  route: 'a route: patient-test or built-in',
  reason: 'a reason: weekly, suspected-fault, after-service or repeat',
  pressureUnit: 'a unit of pressure: mmHg, hPa or kPa',
  vaCondition: 'a gas condition: BTPS, ATPS, ATP, ATPD or STPD',
  dlcoUnit: 'a unit of DLCO: mL/min/mmHg or mmol/min/kPa',
  conversion: 'a conversion: computed or fixed',
  assumed: 'a gas that a conversion assumes: ATPD or ATPS',
};

const folded = (text: string) => text.normalize('NFKC').trim().toLowerCase().replace(/\s+/g, ' ');

/** Every text that names something of a field in this logbook; a text that names two names neither. */
function namesOf(field: NameField, known: KnownLogbook): ReadonlyMap<string, string> {
  const found = new Map<string, string>();
  const claimed = new Set<string>();
  const add = (text: string, id: string) => {
    const name = folded(text);
    if (name === '') return;
    if (found.has(name) && found.get(name) !== id) claimed.add(name);
    else found.set(name, id);
  };
  if (field === 'analyzer' || field === 'syringe') {
    for (const { id, description } of field === 'analyzer' ? known.analyzers : known.syringes) {
      add(id, id);
      add(description.label, id);
      add(description.serial, id);
    }
  } else if (field === 'technologist') {
    for (const { id, name, initials } of known.people) {
      add(id, id);
      add(name, id);
      add(initials, id);
      add(`${initials}, ${name}`, id);
    }
  } else {
    for (const [text, id] of Object.entries(listed[field])) add(text, id);
  }
  for (const name of claimed) found.delete(name);
  return found;
}

export type ReadName = { state: 'name'; id: string } | { state: 'wrong'; message: string };

/** Names of a column are few, but a file may have a text of its own in every row. */
const mostRemembered = 1000;

/** Reads names as a plan says, and where it says nothing, by the labels of the logbook. */
export function nameReader(
  plan: ImportPlan,
  known: KnownLogbook,
): (field: NameField, text: string) => ReadName {
  const tables = new Map(
    nameFields.map((field) => [field, { ids: namesOf(field, known), read: new Map<string, ReadName>() }]),
  );
  const read = (field: NameField, text: string): ReadName => {
    const name = text.trim();
    const id = plan.names.get(field)?.get(name) ?? tables.get(field)?.ids.get(folded(name));
    if (id !== undefined && id !== '') return { state: 'name', id };
    return { state: 'wrong', message: `“${name.slice(0, 60)}” is not ${words[field]}.` };
  };
  return (field, text) => {
    const before = tables.get(field)?.read;
    const answer = before?.get(text) ?? read(field, text);
    if (before !== undefined && before.size < mostRemembered) before.set(text, answer);
    return answer;
  };
}
