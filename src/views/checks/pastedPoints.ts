/** Dilutions and readings that were copied from a table: one point a line, in one column or two. Pure. */
import { emptyPoint, mostPoints, type PointDraft } from './checkDraft.ts';

const isFigure = (cell: string) => /\d/.test(cell);

/** The cells of each line that holds figures; null where the text is no table and goes into its field as it is. */
export function readPastedColumns(text: string): [string, string | undefined][] | null {
  const lines = text.split(/\r?\n/).map((line) => line.trim());
  const rows = lines.flatMap((line): [string, string | undefined][] => {
    // A comma is the decimal mark of half of the laboratories: it parts no cells here.
    const [first = '', second] = line.split(/\t|;|\s+/).filter((cell) => cell !== '');
    return isFigure(first) ? [[first, second !== undefined && isFigure(second) ? second : undefined]] : [];
  });
  const isTable = rows.length > 1 || rows.some(([, second]) => second !== undefined);
  return isTable ? rows : null;
}

/**
 * The points with what was pasted from row `at` and field `field` on: two columns are dilution and reading, one goes down its
 * own field. Rows are added as they are needed, up to as many as can be kept.
 */
export function withPasted(
  points: readonly PointDraft[],
  at: number,
  field: 'expected' | 'read',
  columns: readonly [string, string | undefined][],
): PointDraft[] {
  const filled = [...points];
  for (const [offset, [first, second]] of columns.entries()) {
    const index = at + offset;
    if (index >= mostPoints) break;
    const row = filled[index] ?? emptyPoint();
    filled[index] =
      second === undefined ? { ...row, [field]: first } : { ...row, expected: first, read: second };
  }
  return filled;
}
