/** Rows of a CSV file as RFC 4180 has them, written line by line: a file of all runs has millions of cells. */

/** What a reader would part, cut off or take for the mark at a file's beginning. */
const needsQuotes = /[",\r\n\uFEFF]|^ | $/;

const quoted = (cell: string) => (needsQuotes.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell);

export const csvLineEnd = '\r\n';

/** With its end. Quotes stand around a cell that needs them, and around no other. */
export const csvLine = (cells: readonly string[]): string => cells.map(quoted).join(',') + csvLineEnd;
