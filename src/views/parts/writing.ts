/** The laboratory's form of writing: its decimal mark, its dates and its clock, on every screen and in every message. */

import type { LaboratoryDescription } from '../../journal/entries.ts';
import { usualDescription } from '../../journal/standing.ts';

export type Writing = Pick<LaboratoryDescription, 'decimalMark' | 'dateForm' | 'clock'>;

/** Where the laboratory has not said otherwise: no date in it can be read in two ways. */
export const usualWriting: Writing = usualDescription;

/**
 * One cell for the whole page, on purpose. Every pure builder writes numbers, and handing the form through each of them
 * would cost more than it protects: it changes only when the logbook does, from which all that is written is built anew.
 * What leaves the page (files, ids, paths of a drawing) is not written by it.
 */
let inForce = usualWriting;

export const writingInForce = (): Writing => inForce;

/** Only for whoever opens a logbook, before anything of it is drawn. */
export function setWriting(writing: Writing): void {
  inForce = writing;
}
