import canonicalize from 'canonicalize';

import type { Entry } from './entries.ts';

const compareText = (a: string, b: string) => (a < b ? -1 : a > b ? 1 : 0);

/** For an entry beside its changed copy, which can have every mark in common with it. */
function compareContent(a: Entry, b: Entry): number {
  return a === b ? 0 : compareText(canonicalize(a) ?? '', canonicalize(b) ?? '');
}

/**
 * The one order in which entries are read, whatever order they come in: within a workstation by number, between
 * workstations by time. The time used is the latest that the chain had reached: a clock set back must not pull an
 * entry in front of the one it was written after.
 */
export function inFoldOrder(entries: readonly Entry[]): Entry[] {
  const byChain = [...entries].sort(
    (a, b) =>
      compareText(a.workstation, b.workstation) ||
      a.seq - b.seq ||
      compareText(a.hash, b.hash) ||
      compareText(a.id, b.id) ||
      compareContent(a, b),
  );
  let chain = '';
  let reached = '';
  const placed = byChain.map((entry, rank) => {
    if (entry.workstation !== chain) reached = '';
    chain = entry.workstation;
    // Instants are all written in UTC to the millisecond: their text sorts as their time.
    if (entry.at > reached) reached = entry.at;
    return { entry, rank, reached };
  });
  // `rank` is workstation, then number.
  placed.sort((a, b) => compareText(a.reached, b.reached) || a.rank - b.rank);
  return placed.map(({ entry }) => entry);
}

/**
 * Whether an entry brings something into the logbook that others refer to. Such entries are folded first: where two
 * workstations' clocks disagree, a void or a change can carry an earlier time than what it is about.
 */
export function bringsSomething(entry: Entry): boolean {
  switch (entry.kind) {
    case 'technologist-added':
    case 'analyzer-added':
    case 'syringe-added':
    case 'run-recorded':
    case 'runs-imported':
    case 'cylinder-added':
    case 'check-done':
    case 'subject-added':
    case 'control-recorded':
      return true;
    default:
      return false;
  }
}
