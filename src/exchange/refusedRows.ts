/** The rows that an import refused, as a file to be put right and imported again. */
import Papa from 'papaparse';
import { textCell } from './csvCells.ts';
import type { JudgedRow } from './importRuns.ts';
import type { ImportTable } from './importTable.ts';

export const reasonColumn = 'why it was refused';
const rowColumn = 'row in the file';

/** A number is no formula, whatever sign it begins with. */
const isNumber = (text: string) => /^[+\-−]?[\d.,]+$/.test(text.trim());
const guarded = (text: string) => (isNumber(text) ? text : textCell(text));

/** With the file's own delimiter, names and units, its row numbers and the reasons behind; CRLF at every line's end. */
export function refusedRowsToCsv(
  { header, units, rows, delimiter }: Pick<ImportTable, 'header' | 'units' | 'rows' | 'delimiter'>,
  judged: readonly Pick<JudgedRow, 'row' | 'state' | 'reasons'>[],
): string {
  const reasonsByRow = new Map(
    judged.filter(({ state }) => state === 'refused').map(({ row, reasons }) => [row, reasons]),
  );
  const refused = rows.flatMap(({ row, cells }) => {
    const reasons = reasonsByRow.get(row);
    if (!reasons) return [];
    const own = Array.from({ length: Math.max(header.length, cells.length) }, (_, index) =>
      guarded(cells[index] ?? ''),
    );
    // Cells too many come behind the reasons, or the columns would no longer fit their names.
    return [
      [...own.slice(0, header.length), String(row), textCell(reasons.join(' ')), ...own.slice(header.length)],
    ];
  });
  const names = [...header.map(guarded), rowColumn, reasonColumn];
  const below = units.length > 0 ? [[...header.map((_, index) => guarded(units[index] ?? '')), '', '']] : [];
  const lineEnd = '\r\n';
  return Papa.unparse([names, ...below, ...refused], { newline: lineEnd, delimiter }) + lineEnd;
}
