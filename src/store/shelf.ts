/**
 * What a handle knows of the stored rows, kept in step as rows arrive: no storage in here, so that every decision made
 * before a transaction opens is plain and synchronous.
 */
import { type Entry, readEntry } from '../journal/entries.ts';
import { createRowSet, marksOf } from '../journal/union.ts';
import type { StoredRow } from './database.ts';

/** The last entry of a chain, as far as it can be read. */
export interface ChainHead {
  seq: number;
  /** Null where the row is damaged in such a way that nothing can be linked to it. */
  hash: string | null;
}

export interface Shelf {
  readonly entries: readonly Entry[];
  readonly rawRows: readonly unknown[];
  readonly newer: { kind: string; version: number; count: number } | null;
  readonly damaged: readonly { key: number; problem: string }[];
}

const placeKey = (workstation: string, seq: number) => JSON.stringify([workstation, seq]);

export function createShelf() {
  const rowSet = createRowSet();
  const places = new Set<string>();
  const heads = new Map<string, ChainHead>();
  let entries: readonly Entry[] = [];
  let rawRows: readonly unknown[] = [];
  let newer: Shelf['newer'] = null;
  let damaged: Shelf['damaged'] = [];
  let lastArrival = 0;

  function note(value: unknown): void {
    rowSet.add(value);
    const { workstation, seq, hash } = marksOf(value);
    if (workstation === null || seq === null) return;
    places.add(placeKey(workstation, seq));
    const head = heads.get(workstation);
    if (head && head.seq >= seq) return;
    heads.set(workstation, { seq, hash });
  }

  return {
    /** Takes in what was read; rows it has already are passed over. True when anything was new. */
    absorb(rows: readonly StoredRow[]): boolean {
      const fresh = rows.filter(({ arrival }) => arrival > lastArrival);
      if (fresh.length === 0) return false;
      const readable: Entry[] = [];
      const unreadable: { key: number; problem: string }[] = [];
      for (const { arrival, value } of fresh) {
        lastArrival = arrival;
        note(value);
        const read = readEntry(value);
        if (read.state === 'known') readable.push(read.entry);
        else if (read.state === 'damaged') unreadable.push({ key: arrival, problem: read.problem });
        else if (newer === null || read.version > newer.version) {
          newer = { kind: read.kind, version: read.version, count: (newer?.count ?? 0) + 1 };
        } else newer = { ...newer, count: newer.count + 1 };
      }
      // New arrays, never grown ones: who holds the old snapshot must not see it change.
      entries = [...entries, ...readable];
      damaged = [...damaged, ...unreadable];
      rawRows = [...rawRows, ...fresh.map(({ value }) => value)];
      return true;
    },
    get lastArrival() {
      return lastArrival;
    },
    /** All stored rows, to see what is there already and what contradicts it. */
    rowSet,
    isTaken: (workstation: string, seq: number) => places.has(placeKey(workstation, seq)),
    headOf: (workstation: string): ChainHead => heads.get(workstation) ?? { seq: 0, hash: '' },
    contents: (): Shelf => ({ entries, rawRows, newer, damaged }),
  };
}
