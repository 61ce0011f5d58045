/** From the typed form of a biological control to its description, and what is asked about a code that may be a person. Pure. */
import type { SubjectDescription } from '../../journal/entries.ts';
import { type Errors, type FormReading, finish } from '../parts/formReading.ts';
import { nameKey } from './namesTaken.ts';

export interface SubjectDraft {
  code: string;
  note: string;
}

export const emptySubject: SubjectDraft = { code: '', note: '' };

export const subjectDraftOf = ({ code, note }: SubjectDescription): SubjectDraft => ({ code, note });

/** As many letters as the journal takes. */
export const longestCode = 12;

export function readSubject(draft: SubjectDraft): FormReading<SubjectDraft, SubjectDescription> {
  const errors: Errors<SubjectDraft> = {};
  const code = draft.code.trim();
  const note = draft.note.trim();
  if (code === '') errors.code = 'Type the code by which this person is known here, for example BC1.';
  if (code.length > longestCode) {
    errors.code = `“${code}” has ${code.length} letters: ${longestCode} at most. Type a short code, not a name.`;
  }
  if (note.length > 120) errors.note = 'The note is too long: 120 letters at most.';
  return finish(errors, { code, note });
}

/** What a name looks like: four letters in a row, or a capital with small letters behind it. A code such as `BC1` does neither. */
const nameLike = /\p{L}{4}|\p{Lu}\p{Ll}{2}/u;
/** A day in numbers, parted by marks or not: `12.03.85`, `1985-03-12`, `120385`; longer rows of digits are numbers of a record. */
const dateLike = /\d{1,4}[-./ ]\d{1,2}[-./ ]\d{1,4}|\d{6}/;

/** Asked before it is written, and only about what is another than `before`. `left`: the codes of those who have left. */
export function askAboutSubject(
  { code, note }: SubjectDescription,
  { before, left }: { before?: SubjectDescription; left: readonly string[] },
): string[] {
  const questions: string[] = [];
  if (code !== before?.code) {
    const suspicions = [
      nameLike.test(code) && 'looks like a name',
      dateLike.test(code) && 'looks like a date of birth or a number of a record',
      /\s/.test(code) && 'has a space in it, as names have',
    ].filter((part) => part !== false);
    if (suspicions.length > 0) {
      questions.push(
        `“${code}” ${suspicions.join(', and ')}. This logbook takes a code only, and nothing in it is ever erased. Is it a code?`,
      );
    }
    if (left.some((other) => nameKey(other) === nameKey(code))) {
      questions.push(
        `“${code}” stood for somebody who has left, beside whose tests it stays. Is it to stand for two people?`,
      );
    }
  }
  if (note !== before?.note && dateLike.test(note)) {
    questions.push(
      'The note holds what looks like a date of birth or a number of a record. Does it tell nobody who the person is?',
    );
  }
  return questions;
}
