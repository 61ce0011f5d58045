/**
 * Judges every row of a file against a logbook before anything is written: taken, taken with a warning, refused, or
 * there already. Pure, so that it can be done on any thread and shown before it counts.
 */
import type { RunContent } from '../journal/entries.ts';
import { isPressureJump, isStillToCome } from '../journal/plausible.ts';
import type { ReadMeasured } from './importCells.ts';
import { type KnownLogbook, type KnownRun, runIdentity } from './importKnown.ts';
import { settleLinks } from './importLinks.ts';
import type { ImportPlan } from './importPlan.ts';
import { rowReader } from './importRow.ts';
import type { ImportRow, ImportTable } from './importTable.ts';

export type RowState = 'accepted' | 'warning' | 'refused' | 'there';
export const rowStates: readonly RowState[] = ['accepted', 'warning', 'refused', 'there'];

export interface JudgedRow {
  /** As a spreadsheet counts, from 1. */
  row: number;
  state: RowState;
  /** Why it is refused, what to look at, or where it is. */
  reasons: readonly string[];
  /** What was understood; null for a refused row. */
  run: RunContent | null;
  simulatedVaL: number | null;
  /** The id it has in our own export; empty in another program's file. */
  fileRunId: string;
  /** Why our own export says that it was set aside; null where it does not. */
  setAside: string | null;
}

export interface ImportJudgement {
  /** In the order of the file. */
  rows: readonly JudgedRow[];
  counts: Readonly<Record<RowState, number>>;
}

const minuteMs = 60_000;
const rowsBetweenNews = 5000;

type Growing = Omit<JudgedRow, 'reasons'> & { reasons: string[] };

export function judgeImport(
  { rows }: Pick<ImportTable, 'rows'>,
  plan: ImportPlan,
  known: KnownLogbook,
  readMeasured: ReadMeasured,
  onProgress: (done: number) => void = () => {},
): ImportJudgement {
  const read = rowReader(plan, known, readMeasured);
  const seen = new Map<string, number>();
  const judged = rows.map((row, index): Growing => {
    if (index % rowsBetweenNews === 0) onProgress(index);
    return judgeRow(row, read, known, seen);
  });
  settleLinks(judged, known);
  warnOfNeighbours(judged, known.runs);
  const counts = { accepted: 0, warning: 0, refused: 0, there: 0 };
  for (const row of judged) {
    if (row.state === 'accepted' && row.reasons.length > 0) row.state = 'warning';
    counts[row.state] += 1;
  }
  return { rows: judged, counts };
}

function judgeRow(
  row: ImportRow,
  read: ReturnType<typeof rowReader>,
  known: KnownLogbook,
  seen: Map<string, number>,
): Growing {
  const { run, simulatedVaL, fileRunId, setAside, doubts, refusals } = read(row);
  const understood = { row: row.row, run, simulatedVaL, fileRunId, setAside };
  if (run === null) return { ...understood, state: 'refused', reasons: [...refusals] };
  const identity = runIdentity(run);
  const earlier = seen.get(identity);
  const there = (sentence: string): Growing => ({ ...understood, state: 'there', reasons: [sentence] });
  switch (known.presence.get(identity)) {
    case 'there':
      return there('This run is in the logbook already.');
    case 'voided':
      return there('This run is in the logbook already, struck out.');
    default:
  }
  if (earlier !== undefined) return there(`The same run as row ${earlier} of this file: it is taken once.`);
  seen.set(identity, row.row);
  const reasons = [...doubts];
  if (known.presence.get(identity) === 'batch-voided') {
    reasons.push('It was imported before, and that import was voided.');
  }
  if (isStillToCome(Date.parse(run.madeAt), known.now)) reasons.push('Its date is still to come.');
  const analyzer = known.analyzers.find(({ id }) => id === run.analyzerId);
  if (analyzer?.retiredAt && run.madeAt > analyzer.retiredAt) {
    reasons.push(`It was made after ${analyzer.description.label} was retired.`);
  }
  return { ...understood, state: 'accepted', reasons };
}

type Placed = KnownRun & { judged: Growing | null };

/** What only the runs before and beside a run tell: another in the same minute, a jump in pressure. */
function warnOfNeighbours(judged: readonly Growing[], known: readonly KnownRun[]): void {
  const placed: Placed[] = known.map((run) => ({ ...run, judged: null }));
  for (const row of judged) {
    if (row.state !== 'accepted' || row.run === null) continue;
    const { analyzerId, route, method, madeAt, ambient } = row.run;
    const { barometricMmHg } = ambient;
    placed.push({ analyzerId, route, method, at: Date.parse(madeAt), barometricMmHg, judged: row });
  }
  placed.sort((a, b) => a.at - b.at);
  const lastOfAnalyzer = new Map<string, Placed>();
  const lastOfSeries = new Map<string, Placed>();
  for (const run of placed) {
    const series = `${run.analyzerId} ${run.method} ${run.route}`;
    const before = lastOfAnalyzer.get(run.analyzerId);
    const beside = lastOfSeries.get(series);
    if (beside && Math.floor(beside.at / minuteMs) === Math.floor(run.at / minuteMs)) {
      const sentence = 'Another run of this analyzer and route has the same minute.';
      run.judged?.reasons.push(sentence);
      if (beside.judged && !beside.judged.reasons.includes(sentence)) beside.judged.reasons.push(sentence);
    }
    if (before && run.judged && isPressureJump(before.barometricMmHg, run.barometricMmHg)) {
      const from = Math.round(before.barometricMmHg);
      run.judged.reasons.push(
        `The pressure jumps from ${from} to ${Math.round(run.barometricMmHg)} mmHg since the run before.`,
      );
    }
    lastOfAnalyzer.set(run.analyzerId, run);
    lastOfSeries.set(series, run);
  }
}
