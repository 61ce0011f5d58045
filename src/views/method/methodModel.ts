/** The method page as words, before it is drawn. */
import type { FieldInWords } from '../parts/fieldsInWords.ts';
import type { MethodPlace, TermId } from '../terms.ts';

interface Column {
  head: string;
  isNumber?: true;
}

export type MethodBlock =
  | { kind: 'text'; text: string }
  | { kind: 'equation'; text: string }
  /** `lead`: what the figures are of. */
  | { kind: 'facts'; lead: string; rows: readonly FieldInWords[] }
  | { kind: 'table'; caption: string; columns: readonly Column[]; rows: readonly (readonly string[])[] };

export interface MethodSection {
  place: MethodPlace;
  title: string;
  /** Explained at its beginning. */
  terms: readonly TermId[];
  blocks: readonly MethodBlock[];
  /** Where its method and numbers come from, each a sentence without its end. */
  sources: readonly string[];
}

export const text = (words: string): MethodBlock => ({ kind: 'text', text: words });
export const equation = (words: string): MethodBlock => ({ kind: 'equation', text: words });
export const facts = (lead: string, rows: readonly FieldInWords[]): MethodBlock => ({
  kind: 'facts',
  lead,
  rows,
});
/** Columns whose head begins with `#` hold numbers. */
export const table = (
  caption: string,
  heads: readonly string[],
  rows: readonly (readonly string[])[],
): MethodBlock => ({
  kind: 'table',
  caption,
  columns: heads.map((head) => (head.startsWith('#') ? { head: head.slice(1), isNumber: true } : { head })),
  rows,
});
