/** From the bytes of a file that a person picked to its text, or to a sentence that says why it has none. */

/** Beyond these a file is no history of runs: a run a day on ten analyzers for a century has fewer rows. */
export const importLimits = {
  fileBytes: 50_000_000,
  rows: 100_000,
  columns: 250,
} as const;

export type ImportText =
  | { state: 'text'; text: string; encoding: TextEncodingName }
  | { state: 'refused'; sentence: string };

export type TextEncodingName = 'UTF-8' | 'UTF-16' | 'Windows-1252';

const refused = (sentence: string): ImportText => ({ state: 'refused', sentence });

/** How files that are no text begin, and what a person can do about them. */
const otherFiles: readonly (readonly [start: readonly number[], sentence: string])[] = [
  [
    [0x50, 0x4b, 0x03, 0x04],
    'This is a workbook or an archive, not a CSV file. Open it in the spreadsheet and save the sheet as CSV.',
  ],
  [
    [0xd0, 0xcf, 0x11, 0xe0],
    'This is a workbook of an older spreadsheet, not a CSV file. Open it there and save the sheet as CSV.',
  ],
  [
    [0x25, 0x50, 0x44, 0x46],
    'This is a PDF file. A CSV file is needed: save one where the numbers come from.',
  ],
];

const notText = 'This is not a text file. A CSV file is needed: save one where the numbers come from.';

/** More than one NUL in this many bytes is no slip of an export but another kind of file. */
const bytesPerNul = 500;

const begins = (bytes: Uint8Array, start: readonly number[]) =>
  start.every((byte, index) => bytes[index] === byte);

export function tooLargeSentence(bytes: number): string {
  const mb = (size: number) => Math.ceil(size / 1_000_000);
  return `The file has ${mb(bytes)} MB; at most ${mb(importLimits.fileBytes)} MB are read. Export fewer years at a time.`;
}

/**
 * UTF-16 by its byte order mark or its NULs, UTF-8 where every byte fits, else Windows-1252, which reads any bytes:
 * a spreadsheet's CSV has no sign of its encoding, and only letters beyond ASCII can come out wrong.
 */
export function readImportText(bytes: Uint8Array): ImportText {
  if (bytes.length === 0) return refused('The file is empty.');
  if (bytes.length > importLimits.fileBytes) return refused(tooLargeSentence(bytes.length));
  const other = otherFiles.find(([start]) => begins(bytes, start));
  if (other) return refused(other[1]);

  const wide = wideEncodingOf(bytes);
  if (wide) return readAs('UTF-16', new TextDecoder(wide).decode(bytes));
  const nuls = countNuls(bytes);
  if (nuls > 1 + bytes.length / bytesPerNul) return refused(notText);
  try {
    return readAs('UTF-8', new TextDecoder('utf-8', { fatal: true }).decode(bytes));
  } catch {
    return readAs('Windows-1252', new TextDecoder('windows-1252').decode(bytes));
  }
}

/** A lone half of a character, which no hash can be made of, becomes the replacement character. */
export function wholeCharacters(text: string): string {
  return text.replace(/[\uD800-\uDBFF](?![\uDC00-\uDFFF])|(?<![\uD800-\uDBFF])[\uDC00-\uDFFF]/g, '\uFFFD');
}

function readAs(encoding: TextEncodingName, text: string): ImportText {
  if (text.trim() === '') return refused('The file holds nothing but blanks.');
  return { state: 'text', text, encoding };
}

function wideEncodingOf(bytes: Uint8Array): 'utf-16le' | 'utf-16be' | null {
  if (begins(bytes, [0xff, 0xfe])) return 'utf-16le';
  if (begins(bytes, [0xfe, 0xff])) return 'utf-16be';
  // Without a mark: in Latin text every second byte is NUL.
  const sample = bytes.subarray(0, 2000);
  if (sample.length < 8) return null;
  const half = sample.length / 2;
  const even = countNuls(sample.filter((_, index) => index % 2 === 0));
  const odd = countNuls(sample.filter((_, index) => index % 2 === 1));
  if (odd > half * 0.7 && even < half * 0.1) return 'utf-16le';
  if (even > half * 0.7 && odd < half * 0.1) return 'utf-16be';
  return null;
}

function countNuls(bytes: Uint8Array): number {
  let count = 0;
  for (const byte of bytes) if (byte === 0) count += 1;
  return count;
}
