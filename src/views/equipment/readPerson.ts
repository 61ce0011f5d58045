import type { TechnologistDescription } from '../../journal/entries.ts';
import { type Errors, type FormReading, finish } from '../parts/formReading.ts';

export interface PersonDraft {
  name: string;
  initials: string;
  role: TechnologistDescription['role'];
}

export const emptyPerson: PersonDraft = { name: '', initials: '', role: 'technologist' };

export function readPerson(draft: PersonDraft): FormReading<PersonDraft, TechnologistDescription> {
  const errors: Errors<PersonDraft> = {};
  const name = draft.name.trim();
  const initials = draft.initials.trim();
  if (name === '') errors.name = 'Type the name.';
  if (name.length > 120) errors.name = 'The name is too long: 120 letters at most.';
  if (initials === '') errors.initials = 'Type the initials that stand beside each record.';
  if (initials.length > 4) errors.initials = 'Four letters at most.';
  return finish(errors, { name, initials, role: draft.role });
}
