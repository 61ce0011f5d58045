/**
 * Reads a backup file and judges it line by line. From a whole file every row is given, damaged ones too: they were stored
 * like that. From a file that was changed or cut off only rows are given whose own hash fits; every other line is named.
 */
import { hashFits } from '../journal/chain.ts';
import { readEntry } from '../journal/entries.ts';
import { describeForeignFile } from './backupForeign.ts';
import { type BackupHeader, backupLimits, readHeader, sha256OfBytes } from './backupFormat.ts';

export type BackupRefusal =
  | 'empty'
  | 'too-large'
  /** Another program's file. */
  | 'foreign'
  | 'newer-version'
  /** Ours, and nothing in it can be read. */
  | 'unreadable';

export interface BackupProblem {
  kind: 'header' | 'content' | 'truncated' | 'row';
  /** From 1, as editors count; null where it concerns the whole file. */
  line: number | null;
  sentence: string;
}

export interface ReadBackup {
  state: 'read';
  /** Null where the first line cannot be trusted. */
  header: BackupHeader | null;
  /** True when the file is byte for byte what was written, but for line ends. */
  isWhole: boolean;
  /** What can be taken over, in order of arrival. */
  rows: readonly unknown[];
  /** Of `rows`: entries that fit their hash, rows of a newer version (after which nothing is written), damaged ones. */
  counts: { known: number; newer: number; damaged: number };
  problems: readonly BackupProblem[];
}

export type BackupReading = ReadBackup | { state: 'refused'; reason: BackupRefusal; sentence: string };

export interface ReadingOptions {
  /** Hears how many of all lines are judged, and is awaited. */
  onProgress?: (done: number, total: number) => void | Promise<void>;
}

const refused = (reason: BackupRefusal, sentence: string): BackupReading => ({
  state: 'refused',
  reason,
  sentence,
});

export function tooLarge(bytes: number): BackupReading {
  const mb = (size: number) => Math.ceil(size / (1024 * 1024));
  return refused(
    'too-large',
    `The file has ${mb(bytes)} MB. A backup of this logbook has at most ${mb(backupLimits.fileBytes)} MB.`,
  );
}

export async function readBackup(
  bytes: Uint8Array<ArrayBuffer>,
  { onProgress }: ReadingOptions = {},
): Promise<BackupReading> {
  if (bytes.length === 0) return refused('empty', 'The file is empty.');
  if (bytes.length > backupLimits.fileBytes) return tooLarge(bytes.length);
  const { lines, start } = linesOf(bytes);
  const [first, ...below] = lines;
  if (first === undefined) return refused('empty', 'The file holds nothing but empty lines.');

  const head =
    first.length > backupLimits.headerBytes ? ({ state: 'foreign' } as const) : await headOf(first);
  if (head.state === 'newer') {
    return refused(
      'newer-version',
      `This backup was written by a newer version of the logbook (format ${head.version}). Install that version to read it.`,
    );
  }
  const isHeadLost = head.state !== 'read';
  // A lost header must not cost the entries: whether they are ours, their own hashes tell.
  const rowLines = isHeadLost && (await holdsEntry(first)) ? lines : below;
  if (isHeadLost && !(await anyHoldsEntry(rowLines))) {
    return head.state === 'changed'
      ? refused(
          'unreadable',
          'This is a backup whose first line is damaged or cut off, and no entry in it can be read.',
        )
      : refused('foreign', `This is ${describeForeignFile(bytes)}, not a backup of this logbook.`);
  }

  const header = head.state === 'read' ? head.header : null;
  const problems: BackupProblem[] = [];
  if (header === null) {
    problems.push({
      kind: 'header',
      line: 1,
      sentence:
        'The first line, which says what the file must hold, is damaged or missing: entries may be missing below it.',
    });
  }
  const contentFits = header !== null && (await hashOfContent(bytes, start, below)) === header.contentHash;
  if (header !== null && !contentFits) problems.push(contentProblem(header, below.length));

  const firstLine = rowLines === lines ? 1 : 2;
  const judged = await judgeRows(rowLines, firstLine, contentFits, onProgress);
  problems.push(...judged.problems);
  return { state: 'read', header, isWhole: contentFits, ...judged, problems };
}

const headOf = (line: Uint8Array) => readHeader(textOf(line));

function contentProblem({ rows }: BackupHeader, found: number): BackupProblem {
  if (found < rows) {
    return {
      kind: 'truncated',
      line: null,
      sentence: `The file is cut off: it was written with ${rows} entries, and ${found} lines are left.`,
    };
  }
  return {
    kind: 'content',
    line: null,
    sentence:
      'The file was changed after it was written. Only entries whose own hash fits are taken from it.',
  };
}

/** Not fatal: one broken byte must not cost the whole file. What it breaks shows in the hashes. */
const decoder = new TextDecoder('utf-8', { ignoreBOM: true });
const textOf = (line: Uint8Array) => decoder.decode(line);

const lineFeed = 0x0a;
const carriageReturn = 0x0d;
const byteOrderMark = [0xef, 0xbb, 0xbf];

/** The lines without their ends and without empty ones at the end; `start`: where the second begins. */
function linesOf(bytes: Uint8Array<ArrayBuffer>): { lines: Uint8Array[]; start: number } {
  const lines: Uint8Array[] = [];
  let from = byteOrderMark.every((byte, index) => bytes[index] === byte) ? byteOrderMark.length : 0;
  let start = bytes.length;
  while (from < bytes.length) {
    const found = bytes.indexOf(lineFeed, from);
    const end = found < 0 ? bytes.length : found;
    if (lines.length === 0) start = Math.min(end + 1, bytes.length);
    lines.push(bytes.subarray(from, bytes[end - 1] === carriageReturn && end > from ? end - 1 : end));
    from = end + 1;
  }
  while (lines.at(-1)?.length === 0) lines.pop();
  return { lines, start };
}

/** Of the lines, each with a line feed: as the file has them, unless another system's line ends are in it. */
function hashOfContent(
  bytes: Uint8Array<ArrayBuffer>,
  start: number,
  lines: readonly Uint8Array[],
): Promise<string> {
  const length = lines.reduce((sum, line) => sum + line.length + 1, 0);
  const asWritten = bytes.subarray(start);
  if (asWritten.length === length && (length === 0 || asWritten.at(-1) === lineFeed)) {
    return sha256OfBytes(asWritten);
  }
  const content = new Uint8Array(length).fill(lineFeed);
  let at = 0;
  for (const line of lines) {
    content.set(line, at);
    at += line.length + 1;
  }
  return sha256OfBytes(content);
}

/** How far down a file without a header is looked for an entry before it is taken for another program's. */
const linesLookedAt = 20;

async function anyHoldsEntry(lines: readonly Uint8Array[]): Promise<boolean> {
  for (const line of lines.slice(0, linesLookedAt)) if (await holdsEntry(line)) return true;
  return false;
}

const holdsEntry = async (line: Uint8Array) => (await judgeLine(line)).state === 'fits';

type JudgedLine =
  | { state: 'fits'; value: unknown; isNewer: boolean }
  /** A value that is no entry, or not as it was hashed. */
  | { state: 'damaged'; value: unknown; isNewer: boolean; what: string }
  | { state: 'unreadable'; what: string };

async function judgeLine(line: Uint8Array): Promise<JudgedLine> {
  if (line.length > backupLimits.lineBytes) {
    return { state: 'unreadable', what: 'is longer than any entry' };
  }
  let value: unknown;
  try {
    value = JSON.parse(textOf(line));
  } catch {
    return { state: 'unreadable', what: 'is not JSON' };
  }
  if (isDeeper(value, backupLimits.depth)) return { state: 'unreadable', what: 'is nested too deep' };
  const read = readEntry(value);
  if (read.state === 'damaged') {
    return { state: 'damaged', value, isNewer: false, what: `is no entry (${read.problem})` };
  }
  const isNewer = read.state === 'newer';
  if (await hashFits(value)) return { state: 'fits', value, isNewer };
  return { state: 'damaged', value, isNewer, what: 'does not fit its hash' };
}

function isDeeper(value: unknown, depth: number): boolean {
  if (typeof value !== 'object' || value === null) return false;
  return depth === 0 || Object.values(value).some((inner) => isDeeper(inner, depth - 1));
}

/** So many lines are hashed at a time, and their progress told. */
const linesAtATime = 250;

async function judgeRows(
  lines: readonly Uint8Array[],
  firstLine: number,
  isWhole: boolean,
  onProgress: ReadingOptions['onProgress'],
): Promise<Pick<ReadBackup, 'rows' | 'counts' | 'problems'>> {
  const rows: unknown[] = [];
  const counts = { known: 0, newer: 0, damaged: 0 };
  const problems: BackupProblem[] = [];
  for (let from = 0; from < lines.length; from += linesAtATime) {
    const judged = await Promise.all(lines.slice(from, from + linesAtATime).map(judgeLine));
    for (const [index, one] of judged.entries()) {
      const line = firstLine + from + index;
      if (one.state === 'fits') {
        rows.push(one.value);
        counts[one.isNewer ? 'newer' : 'known'] += 1;
        continue;
      }
      const isTaken = one.state === 'damaged' && isWhole;
      if (isTaken) {
        rows.push(one.value);
        counts[one.isNewer ? 'newer' : 'damaged'] += 1;
      }
      const fate = isTaken ? 'It was stored like that and is taken along as it is.' : 'It is not taken over.';
      problems.push({ kind: 'row', line, sentence: `Line ${line} ${one.what}. ${fate}` });
    }
    await onProgress?.(Math.min(from + linesAtATime, lines.length), lines.length);
  }
  return { rows, counts, problems };
}
