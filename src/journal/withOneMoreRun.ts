import type { Entry } from './entries.ts';
import { loggedRun } from './fold.ts';
import { unknownReferences } from './foldReferences.ts';
import type { Logbook } from './logbook.ts';

/**
 * The logbook with the run that was recorded last, as the fold of all entries would give it, in the time that one run takes. Null
 * where only the whole fold can tell what an entry does: of any other kind, one that is not the newest, or where anything
 * does not add up. `entry` has an id of its own.
 */
export function withOneMoreRun(logbook: Logbook, entry: Entry): Logbook | null {
  if (entry.kind !== 'run-recorded' || logbook.problems.length > 0) return null;
  // Of two at one instant, or with a clock that was set back, the order is the whole fold's to find.
  if (logbook.newestAt === null || entry.at <= logbook.newestAt) return null;
  const { runId, investigates } = entry.body;
  const named = logbook.runs.filter(({ id }) => id === runId || id === investigates?.runId);
  if (named.some(({ id }) => id === runId)) return null;
  const runs = new Map(named.map((run) => [run.id, run]));
  // A run names no control.
  if (unknownReferences(entry, { ...logbook, runs, controls: new Map() }).length > 0) return null;
  const drafted = { entry, amendments: [], voided: null, setAside: null };
  const run = loggedRun(drafted, logbook.baselineStarts, logbook.imports);
  const after = logbook.runs.findLastIndex(({ simulation: { at } }) => at <= run.simulation.at) + 1;
  return {
    ...logbook,
    runs: [...logbook.runs.slice(0, after), run, ...logbook.runs.slice(after)],
    entryCount: logbook.entryCount + 1,
    newestAt: entry.at,
  };
}
