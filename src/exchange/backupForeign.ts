/** What a file is that is no backup, as far as its beginning tells: whoever picked it must see which file it was. */

const signatures: readonly (readonly [begin: string, what: string])[] = [
  ['PK', 'a compressed archive or a spreadsheet’s own file'],
  ['%PDF', 'a PDF document'],
  ['run_id,', 'the runs’ CSV export of a logbook, which shows runs but cannot be restored'],
];

const bytesLookedAt = 4096;

/** Completes "This is …". `bytes` is the whole file. */
export function describeForeignFile(bytes: Uint8Array): string {
  const begin = new TextDecoder('utf-8').decode(bytes.subarray(0, bytesLookedAt)).trimStart();
  const known = signatures.find(([signature]) => begin.startsWith(signature));
  if (known) return known[1];
  if (bytes.subarray(0, bytesLookedAt).includes(0)) return 'not a text file';
  if (/^[[{]/.test(begin)) return 'JSON of another kind';
  if (/^</.test(begin)) return 'a web page or another marked-up text';
  const [firstLine = ''] = begin.split('\n');
  if (/[,;\t]/.test(firstLine)) return 'a table, such as a CSV file';
  return 'a text of another kind';
}
