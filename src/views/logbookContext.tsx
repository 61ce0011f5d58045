import { createContext, type ReactNode, useContext, useMemo, useState, useSyncExternalStore } from 'react';
import type { Assessments } from '../core/index.ts';
import type { Logbook } from '../journal/logbook.ts';
import { laboratoryOf } from '../journal/standing.ts';
import type { LogbookHandle, LogbookSnapshot } from '../store/openLogbook.ts';
import { assessEach, createAssessor, type ImpossibleRun } from './assessEach.ts';
import { ChainCheckProvider } from './chainCheck.tsx';
import { setWriting } from './parts/writing.ts';
import { SecondCopyProvider } from './secondCopy.tsx';

interface OpenLogbook {
  handle: LogbookHandle;
  snapshot: Extract<LogbookSnapshot, { state: 'ready' }>;
  logbook: Logbook;
  /** Every run's numbers, limits in force and verdict as they come out today, by run id. */
  assessments: Assessments;
  /** Runs whose numbers cannot be, such as a damaged or foreign entry may hold: they have no assessment. */
  impossible: readonly ImpossibleRun[];
  demonstration: boolean;
  /** The earlier runs are still being read: the logbook holds equipment and people, and no run can be judged or recorded yet. */
  isReading: boolean;
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
  const isReading = snapshot.state === 'reading';
  const logbook = isReading || snapshot.state === 'ready' ? snapshot.logbook : null;
  const [assess] = useState(createAssessor);
  const assessed = useMemo(() => {
    if (logbook === null) return null;
    return isReading ? assessEach([], logbook) : assess(logbook);
  }, [assess, logbook, isReading]);
  // Ahead of everything that is drawn, or built to be drawn, from this logbook.
  if (logbook) setWriting(laboratoryOf(logbook));
  const value = useMemo(
    () =>
      logbook !== null && assessed !== null
        ? { handle, snapshot: asReady(snapshot, logbook), logbook, ...assessed, demonstration, isReading }
        : null,
    [handle, snapshot, logbook, assessed, demonstration, isReading],
  );
  if (snapshot.state === 'failed') return failed(snapshot.problem);
  if (value === null) return loading;
  return (
    <LogbookContext value={value}>
      <ChainCheckProvider handle={handle}>
        <SecondCopyProvider handle={handle} isReading={isReading}>
          {children}
        </SecondCopyProvider>
      </ChainCheckProvider>
    </LogbookContext>
  );
}

/** While the runs are read nothing is known to be wrong with them. */
function asReady(snapshot: LogbookSnapshot, logbook: Logbook): OpenLogbook['snapshot'] {
  return snapshot.state === 'ready'
    ? snapshot
    : { state: 'ready', logbook, missing: null, entries: [], rawRows: [], newer: null, damaged: [] };
}

export function useLogbook(): OpenLogbook {
  const open = useContext(LogbookContext);
  if (open === null) throw new Error('useLogbook: no logbook is open here');
  return open;
}
