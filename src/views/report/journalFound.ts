/** In what state the stored journal was when a report was read from it: on paper nobody sees the notices of the screen. Pure. */
import type { ChainReport } from '../../journal/chain.ts';
import type { Entry } from '../../journal/entries.ts';
import { counted } from '../parts/figures.ts';
import { type Block, words } from './reportModel.ts';

export interface JournalFound {
  /** Breaks that the check of the chains found; null where it has not been made to its end. */
  breaks: number | null;
  /** Stored entries that nothing of the report rests on: damaged ones, and those of a later release. */
  leftOut: number;
  /** Entries that were given up as lost, ever. */
  lost: number;
}

interface Stored {
  entries: readonly Entry[];
  damaged: readonly unknown[];
  newer: { count: number } | null;
}

export function journalFound({ entries, damaged, newer }: Stored, breaks: number | null): JournalFound {
  const lost = entries.map((entry) =>
    entry.kind === 'entries-lost' ? Math.max(entry.body.known.count - entry.body.found, 0) : 0,
  );
  return {
    breaks,
    leftOut: damaged.length + (newer?.count ?? 0),
    lost: lost.reduce((sum, count) => sum + count, 0),
  };
}

/** A chain that was continued in two places, as a copied profile does it, has lost nothing. */
export const breaksIn = ({ breaks }: ChainReport): number =>
  breaks.filter(({ kind }) => kind !== 'twice').length;

/** What an assessor must know before reading on; nothing where nothing is wrong. */
export function whatIsWrong({ breaks, leftOut, lost }: JournalFound): readonly Block[] {
  const sentences = [
    ...(breaks === null || breaks === 0
      ? []
      : [
          `The journal is not as it was written: the check found ${counted(breaks, 'break')} in the chains of its entries. What rests on these entries proves nothing.`,
        ]),
    ...(leftOut === 0
      ? []
      : [
          `${counted(leftOut, 'stored entry', 'stored entries')} could not be read here: what they say is left out of this report.`,
        ]),
    ...(lost === 0
      ? []
      : [`${counted(lost, 'entry was', 'entries were')} lost from this workstation and never came back.`]),
  ];
  return sentences.map((sentence) => words(sentence, 'warn'));
}

/** Beside the heads, whatever came out. */
export function howTheChainsStood({ breaks }: JournalFound): string {
  if (breaks === null) return 'The chains were not checked to their end when this was made.';
  return breaks === 0
    ? 'When this was made every entry fitted its hash and the entry before it.'
    : 'When this was made the chains did not hold: Records in the logbook names each break.';
}
