/**
 * A mark of what was in the database when it was last written, kept outside of it: a browser can drop a whole database
 * without a word, and an empty one would then look like a first day. The browser's small storage goes its own way to
 * the disk: after a crash the mark may be behind the database, which means nothing, but never ahead of what was committed.
 */
import { markSchema } from '../journal/bodies.ts';
import type { Mark } from '../journal/entries.ts';
import type { Shelf } from './shelf.ts';

export interface MarkKeeper {
  /** Null when there is none, or none that can be read. */
  read(): Mark | null;
  /** False when the browser does not keep it: entries are then as safe as before, but a loss of all of them is silent. */
  write(mark: Mark): boolean;
}

/** What the mark knows of and the database no longer holds. */
export interface MissingEntries {
  known: Mark;
  found: number;
}

/** Keeps the mark in the browser's small storage, which may be full, switched off or forbidden: reaching for it can throw. */
export function markInBrowser(databaseName: string): MarkKeeper {
  const key = `${databaseName} mark`;
  return {
    read() {
      try {
        const kept: unknown = JSON.parse(localStorage.getItem(key) ?? 'null');
        const mark = markSchema.safeParse(kept);
        return mark.success ? mark.data : null;
      } catch {
        return null;
      }
    },
    write(mark) {
      try {
        localStorage.setItem(key, JSON.stringify(mark));
        return true;
      } catch {
        return false;
      }
    },
  };
}

/** The mark of what is stored now; null while no entry can be read. */
export function markOf({ entries, rawRows }: Pick<Shelf, 'entries' | 'rawRows'>): Mark | null {
  const last = entries.at(-1);
  if (last === undefined) return null;
  const { workstation, seq, hash, at } = last;
  return { count: rawRows.length, workstation, seq, hash, at };
}

/**
 * What is missing by the mark; null when nothing is, or when somebody has decided to go on without it. A damaged row is
 * not a missing one: it is shown as damaged, and writing goes on beside it.
 */
export function missingBy(
  mark: Mark | null,
  { entries, rawRows, damaged }: Pick<Shelf, 'entries' | 'rawRows' | 'damaged'>,
  isTaken: (workstation: string, seq: number) => boolean,
): MissingEntries | null {
  if (mark === null) return null;
  const isLastThere = damaged.length > 0 || isTaken(mark.workstation, mark.seq);
  if (rawRows.length >= mark.count && isLastThere) return null;
  const isGivenUp = entries.some(
    ({ kind, body }) =>
      kind === 'entries-lost' && body.known.hash === mark.hash && body.known.count === mark.count,
  );
  return isGivenUp ? null : { known: mark, found: rawRows.length };
}
