/** Which run an imported one looks into: by the id it has in the file, or by that of its twin in the logbook. */
import type { RunContent } from '../journal/entries.ts';
import { type KnownLogbook, runIdentity } from './importKnown.ts';
import type { JudgedRow } from './importRuns.ts';

type Growing = Omit<JudgedRow, 'reasons'> & { reasons: string[] };

/**
 * A link to a run that is taken from the same file keeps the file's id, which `importEntries` exchanges for the new one. A
 * link to a run that the logbook has is to that one. Any other is left out, and its row says so.
 */
export function settleLinks(rows: readonly Growing[], known: KnownLogbook): void {
  if (rows.every(({ run }) => run?.investigates === undefined)) return;
  const here = new Map<string, string>();
  const takenAs = new Map<string, string>();
  for (const { run, state, fileRunId } of rows) {
    if (run === null || fileRunId === '') continue;
    const identity = runIdentity(run);
    if (state === 'there') {
      const id = known.runIds.byIdentity.get(identity) ?? takenAs.get(identity);
      if (id !== undefined) here.set(fileRunId, id);
    } else {
      takenAs.set(identity, fileRunId);
      here.set(fileRunId, fileRunId);
    }
  }
  for (const row of rows) {
    const { run, state } = row;
    if (run?.investigates === undefined || state === 'there') continue;
    const { investigates, ...rest } = run;
    const { runId, check } = investigates;
    const found = here.get(runId) ?? (known.runIds.all.has(runId) ? runId : undefined);
    if (found === undefined) {
      row.run = rest satisfies RunContent;
      row.reasons.push(
        'It looks into a run that is neither taken from this file nor in the logbook: the link is left out.',
      );
    } else row.run = { ...rest, investigates: { runId: found, check } };
  }
}
