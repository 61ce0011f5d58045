/**
 * The runs as a CSV file for an assessor. It is a view for reading and computing with: texts that a spreadsheet would
 * run are defused in it, so it is not a way to carry a journal to another place.
 */
import type { RunAssessment } from '../core/index.ts';
import type { chainHeads } from '../journal/chain.ts';
import type { Logbook } from '../journal/logbook.ts';
import { csvLine } from './csvLine.ts';
import { runColumns } from './runColumns.ts';

/**
 * One row a run in the order they were made, voided runs too; RFC 4180 with a header and CRLF at every line's end.
 * To be written as UTF-8 without a byte order mark. Mean, SD, z, signals and verdict are those of the day. `heads` are
 * those of the whole journal.
 */
export function runsToCsv(
  logbook: Logbook,
  assessments: ReadonlyMap<string, RunAssessment>,
  options: { heads: ReturnType<typeof chainHeads>; analyzerId?: string },
): string {
  const { heads, analyzerId } = options;
  const runs = logbook.runs.filter(({ body }) => analyzerId === undefined || body.analyzerId === analyzerId);
  const lines = runs.map((run) => {
    const assessment = assessments.get(run.id);
    const row = { run, logbook, assessment, head: heads.get(run.entry.workstation) };
    return csvLine(runColumns.map(({ cell }) => cell(row)));
  });
  return csvLine(runColumns.map(({ name }) => name)) + lines.join('');
}
