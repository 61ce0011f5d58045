/** The laboratory's form of writing: its decimal mark, its dates and its clock, on every screen and in every message. */

export interface Writing {
  decimalMark: 'point' | 'comma';
  /** The first is written `3 Mar 2026`, the others as their names say. */
  dateForm: 'd-mon-yyyy' | 'yyyy-mm-dd' | 'dd.mm.yyyy' | 'dd/mm/yyyy' | 'mm/dd/yyyy';
  clock: '24' | '12';
}

/** Where the laboratory has not said otherwise: no date in it can be read in two ways. */
export const usualWriting: Writing = { decimalMark: 'point', dateForm: 'd-mon-yyyy', clock: '24' };

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
