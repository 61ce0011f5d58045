/** What the screen shows and what a hand has not yet finished; never a copy of what the journal holds. */
import { create } from 'zustand';
import { type BenchDraft, emptyDraft } from './runForm/benchDraft.ts';

/** A try to record: which draft, and as which run. */
export type Attempt = { draft: BenchDraft; runId: string };

interface ScreenState {
  benchDraft: BenchDraft;
  setBenchDraft: (draft: BenchDraft) => void;
  /** The last one: the same draft tried again is the same run. */
  attempt: Attempt | null;
  setAttempt: (attempt: Attempt) => void;
  /** The run that was recorded last on this page, shown until the next is begun. */
  recordedRunId: string | null;
  setRecordedRunId: (runId: string | null) => void;
}

export const useScreenState = create<ScreenState>()((set) => ({
  benchDraft: emptyDraft,
  setBenchDraft: (benchDraft) => set({ benchDraft }),
  attempt: null,
  setAttempt: (attempt) => set({ attempt }),
  recordedRunId: null,
  setRecordedRunId: (recordedRunId) => set({ recordedRunId }),
}));

/** Who is at the workstation: chosen once, carried into every form until somebody else is chosen. */
export function usePersonInHand(): [technologistId: string, choose: (technologistId: string) => void] {
  const { benchDraft, setBenchDraft } = useScreenState();
  return [benchDraft.technologistId, (technologistId) => setBenchDraft({ ...benchDraft, technologistId })];
}
