import { useLogbook } from '../logbookContext.tsx';
import { LookInto } from '../runForm/lookInto.tsx';
import { useScreenState } from '../screenState.ts';

/** Below the verdict of a run that has just failed: what to check besides the repeat that stands above. */
export function AfterFailure() {
  const { logbook, assessments } = useLogbook();
  const runId = useScreenState((state) => state.recordedRunId);
  if (runId === null || assessments.get(runId)?.verdict.word !== 'fail') return null;
  const run = logbook.runs.findLast(({ id }) => id === runId);
  return run?.voided === null ? <LookInto hasRepeat runId={runId} /> : null;
}
