/** The half-typed run, the analyzer and the person in hand outlive a reload, whichever screen it is made on. */
import { useEffect, useState } from 'react';
import * as z from 'zod/mini';
import type { LogbookHandle } from '../store/openLogbook.ts';
import { useLogbook } from './logbookContext.tsx';
import { type BenchDraft, benchDraftSchema, draftAfterRecording } from './runForm/benchDraft.ts';
import { type Attempt, useScreenState } from './screenState.ts';

const draftSetting = 'bench-draft';
/**
 * What is kept of the form between two visits. `recordingAs`: the run id under which this very draft was to be recorded,
 * written before the run is: a browser that ends between the two commits comes back with a draft that is recorded
 * already, and knows it.
 */
const keptDraftSchema = z.object({ draft: benchDraftSchema, recordingAs: z.nullable(z.string()) });
type KeptDraft = z.infer<typeof keptDraftSchema>;
const draftSaveDelayMs = 300;

/** The draft is a convenience: storage that fails says so when a run is recorded, not between two keystrokes. */
const ignoreLostDraft = () => {};
export const keepDraft = (handle: LogbookHandle, kept: KeptDraft) =>
  handle.writeSetting(draftSetting, kept).catch(ignoreLostDraft);

export const asKept = (draft: BenchDraft, attempt: Attempt | null): KeptDraft => ({
  draft,
  recordingAs: attempt?.draft === draft ? attempt.runId : null,
});

/** Takes up what this workstation's settings have kept of the form, and keeps what is typed from then on. */
export function useKeptDraft() {
  const { handle } = useLogbook();
  const { benchDraft, setBenchDraft, setAttempt, setRecordedRunId } = useScreenState();
  const [restored, setRestored] = useState(false);
  useEffect(() => {
    let current = true;
    handle
      .readSetting(draftSetting, keptDraftSchema)
      .then((kept) => {
        if (!current) return;
        if (kept !== null && useScreenState.getState().benchDraft.analyzerId === '') {
          const { draft, recordingAs } = kept;
          if (recordingAs !== null && isRecorded(handle, recordingAs)) {
            setBenchDraft(draftAfterRecording(draft));
            setRecordedRunId(recordingAs);
          } else {
            if (recordingAs !== null) setAttempt({ draft, runId: recordingAs });
            setBenchDraft(draft);
          }
        }
        setRestored(true);
      })
      .catch(ignoreLostDraft);
    return () => {
      current = false;
    };
  }, [handle, setBenchDraft, setAttempt, setRecordedRunId]);
  useEffect(() => {
    if (!restored) return;
    const timer = setTimeout(
      () => void keepDraft(handle, asKept(benchDraft, useScreenState.getState().attempt)),
      draftSaveDelayMs,
    );
    return () => clearTimeout(timer);
  }, [handle, benchDraft, restored]);
}

function isRecorded(handle: LogbookHandle, runId: string): boolean {
  const snapshot = handle.getSnapshot();
  return snapshot.state === 'ready' && snapshot.logbook.runs.some(({ id }) => id === runId);
}
