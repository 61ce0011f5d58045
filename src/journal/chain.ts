/**
 * The hash chain: each entry carries the hash of its own content and of its workstation's entry before it, so that a
 * journal changed outside this logbook shows where. What a chain cannot show is a missing end: whoever wants to know
 * that nothing was cut off compares `headSeq` and `headHash` with a copy noted elsewhere.
 */
import canonicalize from 'canonicalize';

import { type Entry, type EntryDraft, entrySchema, readEntry, versionOf } from './entries.ts';

/** Where an entry stands: whose chain, which number, after which hash, and when and where it was written. */
export interface ChainPlace {
  workstation: string;
  seq: number;
  /** Hash of the entry before; empty for the first. */
  prev: string;
  /** ISO 8601 instant in UTC, to the millisecond. */
  at: string;
  zone: string;
}

export type ChainBreakKind =
  /** No entry of this or an older version reads it. */
  | 'unreadable'
  /** The hash does not fit the content. */
  | 'hash'
  /** The link does not fit the entry before. */
  | 'prev'
  /** One or more numbers before this entry are not there. */
  | 'missing'
  /** The number stands twice after the same entry: where a chain was continued in two places, or an entry was changed. */
  | 'twice';

export interface ChainBreak {
  kind: ChainBreakKind;
  /** Position among the rows given, from 0; the one name that every row has. */
  row: number;
  entryId: string | null;
  workstation: string | null;
  seq: number | null;
  sentence: string;
}

export interface ChainSummary {
  workstation: string;
  count: number;
  headSeq: number;
  headHash: string;
}

export interface ChainReport {
  workstations: readonly ChainSummary[];
  breaks: readonly ChainBreak[];
}

/** The text that is hashed: RFC 8785 canonical JSON. Throws for what JSON cannot hold, such as NaN. */
function canonicalText(value: unknown): string {
  const text = canonicalize(value);
  if (text === undefined) throw new TypeError('canonicalText: the value has no JSON form');
  return text;
}

export async function sha256Hex(text: string): Promise<string> {
  const digest = await crypto.subtle.digest('SHA-256', new TextEncoder().encode(text));
  return Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, '0')).join('');
}

/** SHA-256, in lower-case hex, of the canonical JSON of everything in an entry but its hash. */
export function hashEntry(entryWithoutHash: object): Promise<string> {
  return sha256Hex(canonicalText(entryWithoutHash));
}

/**
 * Gives a draft its place in a chain and its hash. Throws a ZodError when the draft or the place is not what the
 * schemas allow: that is a programmer's error.
 */
export async function sealEntry(draft: EntryDraft, place: ChainPlace): Promise<Entry> {
  const { id, by, kind, body } = draft;
  const text = canonicalText({ id, ...place, by, version: versionOf(kind), kind, body });
  // The entry is read back from the text that was hashed: a −0 or an `undefined`, which JSON does not keep, could
  // otherwise be stored and never be seen again in a copy of the journal.
  const content: object = JSON.parse(text);
  return entrySchema.parse({ ...content, hash: await sha256Hex(text) });
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

const textOrNull = (value: unknown): string | null => (typeof value === 'string' ? value : null);

/** What of a row can be read without a schema, so that a damaged or newer row keeps its place in its chain. */
interface Link {
  row: number;
  id: string | null;
  workstation: string | null;
  seq: number | null;
  prev: string | null;
  hash: string | null;
}

function readLink(value: unknown, row: number): Link {
  const fields = isRecord(value) ? value : {};
  const { seq } = fields;
  return {
    row,
    id: textOrNull(fields.id),
    workstation: textOrNull(fields.workstation),
    seq: typeof seq === 'number' && Number.isSafeInteger(seq) && seq >= 1 ? seq : null,
    prev: textOrNull(fields.prev),
    hash: textOrNull(fields.hash),
  };
}

/** Whether a stored value's hash fits its content; also for values of a newer version, whose content no schema knows. */
export async function hashFits(value: unknown): Promise<boolean> {
  if (!isRecord(value)) return false;
  const { hash, ...content } = value;
  try {
    return hash === (await hashEntry(content));
  } catch {
    return false; // what has no canonical JSON was never hashed
  }
}

const named = (link: Link, row = 'Row', entry = 'Entry') =>
  link.id === null ? `${row} ${link.row + 1}` : `${entry} ${link.id}`;

function breakAt(link: Link, kind: ChainBreakKind, what: string): ChainBreak {
  const { row, id, workstation, seq } = link;
  return { kind, row, entryId: id, workstation, seq, sentence: `${named(link)} ${what}.` };
}

type Placed = Link & { workstation: string; seq: number };

function chainsOf(links: readonly Link[]): Map<string, Placed[]> {
  const chains = new Map<string, Placed[]>();
  for (const link of links) {
    const { workstation, seq } = link;
    if (workstation === null || seq === null) continue;
    const chain = chains.get(workstation);
    if (chain) chain.push({ ...link, workstation, seq });
    else chains.set(workstation, [{ ...link, workstation, seq }]);
  }
  return new Map([...chains].sort(([a], [b]) => (a < b ? -1 : 1)));
}

/** Where a chain goes on in two places its head is the longer end, and of two equally long the one with the smaller hash. */
function summaryOf(workstation: string, chain: readonly Placed[]): ChainSummary {
  let headSeq = 0;
  let headHash = '';
  for (const { seq, hash } of chain) {
    const isHead = seq > headSeq || (seq === headSeq && (hash ?? '') < headHash);
    if (isHead) [headSeq, headHash] = [seq, hash ?? ''];
  }
  return { workstation, count: chain.length, headSeq, headHash };
}

/** Every chain among `rows` with its length and its head, by workstation; the same in whatever order the rows come. */
export function chainSummaries(rows: readonly unknown[]): ChainSummary[] {
  return [...chainsOf(rows.map(readLink))].map(([workstation, chain]) => summaryOf(workstation, chain));
}

/** The faults between neighbours of one workstation; `chain` in the order of its numbers. */
function linkBreaks(chain: readonly Placed[]): ChainBreak[] {
  const breaks: ChainBreak[] = [];
  // After a fork each number stands twice, and each entry follows on one of the two before it: only the point where
  // the chain was continued a second time is told, or one copied profile would drown every other fault.
  let before: { seq: number; hashes: Set<string | null> } = { seq: 0, hashes: new Set(['']) };
  let here: { seq: number; hashes: Set<string | null> } = before;
  const followers = new Map<string, Placed>();
  for (const link of chain) {
    if (link.seq !== here.seq) [before, here] = [here, { seq: link.seq, hashes: new Set() }];
    const missing = here.hashes.size === 0 && link.seq > before.seq + 1;
    const place = JSON.stringify([link.seq, link.prev]);
    const other = followers.get(place);
    if (missing) {
      const [from, to] = [before.seq + 1, link.seq - 1];
      const gap = from === to ? `number ${from} is` : `numbers ${from} to ${to} are`;
      breaks.push(breakAt(link, 'missing', `has number ${link.seq}, but ${gap} missing`));
    } else if (other) {
      breaks.push(breakAt(link, 'twice', takenBy(other, link)));
    } else if (link.seq === before.seq + 1 && !before.hashes.has(link.prev)) {
      breaks.push(breakAt(link, 'prev', `does not follow on entry number ${before.seq} as it is now`));
    }
    followers.set(place, other ?? link);
    here.hashes.add(link.hash);
  }
  return breaks;
}

function takenBy(other: Placed, link: Placed): string {
  const what = `has number ${link.seq}, which ${named(other, 'row', 'entry')} has too`;
  return other.id === link.id
    ? `${what}: one of the two was changed, and both are kept`
    : `${what}: this chain was continued in two places, as happens when a browser profile is copied. Both are kept`;
}

/** So many rows are hashed at a time: often enough to show how far the check is, too seldom to slow it. */
const rowsAtATime = 250;

/**
 * The last entry of every chain among the rows, by workstation: what an export or a print carries, so that the paper
 * proves the file. Read without a schema, as `checkChains` reads it.
 */
export function chainHeads(rows: readonly unknown[]): ReadonlyMap<string, { seq: number; hash: string }> {
  return new Map(
    chainSummaries(rows).map(({ workstation, headSeq, headHash }) => [
      workstation,
      { seq: headSeq, hash: headHash },
    ]),
  );
}

/**
 * Checks every chain among `rows`, which are values as stored or received, in any order. Give the raw values, not
 * parsed ones: a copy that a schema has trimmed hashes to something else, or hides what was added.
 * A row of a newer version is no break as long as its hash and its links fit.
 *
 * `onProgress` hears how many rows are done, and is awaited: it can hand the time to whoever else waits for it.
 */
export async function checkChains(
  rows: readonly unknown[],
  onProgress?: (checked: number) => void | Promise<void>,
): Promise<ChainReport> {
  const links = rows.map(readLink);
  const fits: boolean[] = [];
  while (fits.length < rows.length) {
    fits.push(...(await Promise.all(rows.slice(fits.length, fits.length + rowsAtATime).map(hashFits))));
    await onProgress?.(fits.length);
  }
  const breaks: ChainBreak[] = [];
  for (const [row, link] of links.entries()) {
    const read = readEntry(rows[row]);
    if (read.state === 'damaged')
      breaks.push(breakAt(link, 'unreadable', `cannot be read (${read.problem})`));
    if (!fits[row])
      breaks.push(breakAt(link, 'hash', 'was changed after it was written: its hash does not fit'));
  }

  const workstations: ChainSummary[] = [];
  for (const [workstation, chain] of chainsOf(links)) {
    chain.sort((a, b) => a.seq - b.seq || a.row - b.row);
    breaks.push(...linkBreaks(chain));
    workstations.push(summaryOf(workstation, chain));
  }
  breaks.sort((a, b) => a.row - b.row);
  return { workstations, breaks };
}
