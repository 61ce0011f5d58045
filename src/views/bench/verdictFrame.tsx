import { lazy, type ReactNode, Suspense, useEffect, useRef } from 'react';
import { useLogbook } from '../logbookContext.tsx';
import { useScreenState } from '../screenState.ts';

/** What is due is worked out once a run is recorded, not before. */
const NextSteps = lazy(() => import('../runForm/nextSteps.tsx'));

/**
 * Takes the focus when a run is recorded: the verdict is heard and seen, one more Enter records nothing, and a key leads
 * on from there.
 */
export function VerdictFrame({ children }: { children: ReactNode }) {
  const { logbook } = useLogbook();
  const recordedRunId = useScreenState((state) => state.recordedRunId);
  const frame = useRef<HTMLDivElement>(null);
  const shown = useRef(recordedRunId);
  useEffect(() => {
    if (recordedRunId !== null && recordedRunId !== shown.current) frame.current?.focus();
    shown.current = recordedRunId;
  }, [recordedRunId]);
  const recorded =
    recordedRunId === null
      ? undefined
      : logbook.runs.findLast(({ id, voided }) => id === recordedRunId && voided === null);
  return (
    // biome-ignore lint/a11y/useSemanticElements: no set of fields, and the section in it has a name of its own
    <div
      aria-label="The run and what comes next"
      className="stack focus-stop"
      ref={frame}
      role="group"
      tabIndex={-1}
    >
      {children}
      {recorded ? (
        <Suspense fallback={null}>
          <NextSteps frame={frame} run={recorded} />
        </Suspense>
      ) : null}
    </div>
  );
}
