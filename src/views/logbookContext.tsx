import { createContext, type ReactNode, useContext, useMemo, useSyncExternalStore } from 'react';
import { assessRuns, type RunAssessment } from '../core/index.ts';
import { seriesClosures } from '../journal/fold.ts';
import type { Logbook } from '../journal/logbook.ts';
import type { LogbookHandle, LogbookSnapshot } from '../store/openLogbook.ts';

interface OpenLogbook {
  handle: LogbookHandle;
  snapshot: Extract<LogbookSnapshot, { state: 'ready' }>;
  logbook: Logbook;
  /** Every run's numbers, limits in force and verdict as they come out today, by run id. */
  assessments: ReadonlyMap<string, RunAssessment>;
  demonstration: boolean;
}

const LogbookContext = createContext<OpenLogbook | null>(null);

/** Draws `children` on the open logbook; before that `loading`, and `failed` where storage could not be opened. */
export function LogbookProvider({
  handle,
  demonstration,
  loading,
  failed,
  children,
}: {
  handle: LogbookHandle;
  demonstration: boolean;
  loading: ReactNode;
  failed: (problem: Extract<LogbookSnapshot, { state: 'failed' }>['problem']) => ReactNode;
  children: ReactNode;
}) {
  const snapshot = useSyncExternalStore(handle.subscribe, handle.getSnapshot);
  const logbook = snapshot.state === 'ready' ? snapshot.logbook : null;
  const assessments = useMemo(() => (logbook ? assessLogbook(logbook) : new Map()), [logbook]);
  const value = useMemo(
    () =>
      snapshot.state === 'ready'
        ? { handle, snapshot, logbook: snapshot.logbook, assessments, demonstration }
        : null,
    [handle, snapshot, assessments, demonstration],
  );
  if (snapshot.state === 'failed') return failed(snapshot.problem);
  if (value === null) return loading;
  return <LogbookContext value={value}>{children}</LogbookContext>;
}

export function useLogbook(): OpenLogbook {
  const open = useContext(LogbookContext);
  if (open === null) throw new Error('useLogbook: no logbook is open here');
  return open;
}

export function assessLogbook(logbook: Logbook): ReadonlyMap<string, RunAssessment> {
  return assessRuns(
    logbook.runs.map((run) => run.simulation),
    { closures: seriesClosures(logbook) },
  );
}
