/** The laboratory's name and form of writing: in words, as its form holds them, and as an entry. Pure. */
import type { EntryDraft, LaboratoryDescription } from '../../journal/entries.ts';
import type { FieldInWords } from '../parts/fieldsInWords.ts';
import { type FormReading, finish } from '../parts/formReading.ts';

/** Of one day that no form can be mistaken in, with a reading such as a bench sees. */
export const decimalMarkWords: Record<LaboratoryDescription['decimalMark'], string> = {
  point: 'point, 3.12 L',
  comma: 'comma, 3,12 L',
};

export const dateFormWords: Record<LaboratoryDescription['dateForm'], string> = {
  'd-mon-yyyy': '25 Nov 2026',
  'yyyy-mm-dd': '2026-11-25',
  'dd.mm.yyyy': '25.11.2026',
  'dd/mm/yyyy': '25/11/2026',
  'mm/dd/yyyy': '11/25/2026',
};

export const clockWords: Record<LaboratoryDescription['clock'], string> = {
  '24': '24 hours, 14:05',
  '12': '12 hours, 2:05 pm',
};

export const laboratoryInWords = (description: LaboratoryDescription): FieldInWords[] => [
  { name: 'Name', value: description.name || '–' },
  { name: 'Decimal mark', value: decimalMarkWords[description.decimalMark] },
  { name: 'Dates', value: dateFormWords[description.dateForm] },
  { name: 'Clock', value: clockWords[description.clock] },
  { name: 'Temperature', value: description.temperatureUnit },
  { name: 'Pressure', value: description.pressureUnit },
  { name: 'DLCO', value: description.dlcoUnit },
];

export function readLaboratory(
  draft: LaboratoryDescription,
): FormReading<LaboratoryDescription, LaboratoryDescription> {
  const name = draft.name.trim();
  return finish(name.length > 120 ? { name: 'The name is too long: 120 letters at most.' } : {}, {
    ...draft,
    name,
  });
}

/** What to know of a form of dates before it is chosen; null where nobody can misread it. */
export function dateFormCaution(dateForm: LaboratoryDescription['dateForm']): string | null {
  return dateForm === 'dd/mm/yyyy' || dateForm === 'mm/dd/yyyy'
    ? 'A date such as 3/2/2026 can be read in two ways, for example in a print that leaves the laboratory.'
    : null;
}

export function describeLaboratory(
  description: LaboratoryDescription,
  by: string,
  reason: string,
): EntryDraft[] {
  return [
    {
      id: crypto.randomUUID(),
      by,
      kind: 'laboratory-described',
      body: { ...description, descriptionId: crypto.randomUUID(), reason },
    },
  ];
}
