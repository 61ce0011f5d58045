/** The entries of an import: one for the batch, its runs in the order they were made, and which of them are set aside. */
import type { EntryDraft, RunContent } from '../journal/entries.ts';
import { sha256OfBytes } from './backupFormat.ts';
import { runIdentity } from './importKnown.ts';
import type { ImportJudgement, JudgedRow } from './importRuns.ts';
import { wholeCharacters } from './importText.ts';

export interface ImportSource {
  fileName: string;
  /** SHA-256 of the file's bytes. */
  fileHash: string;
}

export interface ImportWriting {
  /** Id of who imports it. */
  by: string;
  /** A new id at each call. */
  newId: () => string;
  /** Whether the logbook has a run of this id. */
  isTaken: (runId: string) => boolean;
}

const longestFileName = 255;

/**
 * A run's id is a hash of its identity, so that two workstations that import one file have one set of runs after a merge.
 * Where the logbook has that run from a batch that was voided, the next of a fixed sequence of ids is taken.
 */
export async function importEntries(
  { rows, counts }: ImportJudgement,
  { fileName, fileHash }: ImportSource,
  { by, newId, isTaken }: ImportWriting,
): Promise<readonly EntryDraft[]> {
  const batchId = newId();
  const taken = inOrderMade(rows);
  const batch: EntryDraft = {
    id: newId(),
    by,
    kind: 'runs-imported',
    body: {
      batchId,
      fileName: wholeCharacters(fileName.replaceAll('\0', '\uFFFD').slice(0, longestFileName)) || 'unnamed',
      fileHash,
      rowsRead: rows.length,
      accepted: taken.length,
      refused: counts.refused,
    },
  };
  const drafts: EntryDraft[] = [batch];
  const newRunIds = new Map<string, string>();
  const identified: { row: number; runId: string; run: RunContent; setAside: string | null }[] = [];
  for (const { row, run, fileRunId, setAside } of taken) {
    const runId = await freeRunId(run, isTaken);
    if (fileRunId !== '') newRunIds.set(fileRunId, runId);
    identified.push({ row, runId, run, setAside });
  }
  for (const { row, runId, run } of identified) {
    const origin = { kind: 'import' as const, batchId, row };
    const linked = withNewLink(run, newRunIds);
    drafts.push({ id: newId(), by, kind: 'run-recorded', body: { runId, ...linked, origin, judged: null } });
  }
  for (const { runId, setAside: reason } of identified) {
    if (reason === null) continue;
    drafts.push({ id: newId(), by, kind: 'run-set-aside', body: { runId, isSetAside: true, reason } });
  }
  return drafts;
}

/** A run looks into another of the file under the id that this one has from now on. */
function withNewLink(run: RunContent, newRunIds: ReadonlyMap<string, string>): RunContent {
  if (run.investigates === undefined) return run;
  const { runId, check } = run.investigates;
  return { ...run, investigates: { runId: newRunIds.get(runId) ?? runId, check } };
}

type TakenRow = JudgedRow & { run: RunContent };

/** Runs of one instant stay in the order of the file, which many a program writes newest first. */
function inOrderMade(rows: readonly JudgedRow[]): readonly TakenRow[] {
  const taken = rows.filter((row): row is TakenRow => {
    return row.run !== null && (row.state === 'accepted' || row.state === 'warning');
  });
  let later = 0;
  for (const [index, { run }] of taken.entries()) {
    const before = taken[index - 1]?.run.madeAt;
    if (before !== undefined && before !== run.madeAt) later += before < run.madeAt ? 1 : -1;
  }
  const oldestFirst = later < 0 ? taken.toReversed() : taken;
  return oldestFirst.toSorted((a, b) =>
    a.run.madeAt < b.run.madeAt ? -1 : a.run.madeAt > b.run.madeAt ? 1 : 0,
  );
}

async function freeRunId(run: RunContent, isTaken: (runId: string) => boolean): Promise<string> {
  const identity = runIdentity(run);
  let runId = await hashOf(identity);
  for (let copy = 2; isTaken(runId); copy += 1) runId = await hashOf(`${identity} ${copy}`);
  return runId;
}

const hashOf = (text: string) => sha256OfBytes(new TextEncoder().encode(text));
