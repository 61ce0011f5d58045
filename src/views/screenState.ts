/** What the screen shows and what a hand has not yet finished; never a copy of what the journal holds. */
import { create } from 'zustand';
import { type BenchDraft, emptyDraft } from './runForm/benchDraft.ts';

interface ScreenState {
  benchDraft: BenchDraft;
  setBenchDraft: (draft: BenchDraft) => void;
  /** The run that was recorded last on this page, shown until the next is begun. */
  recordedRunId: string | null;
  setRecordedRunId: (runId: string | null) => void;
}

export const useScreenState = create<ScreenState>()((set) => ({
  benchDraft: emptyDraft,
  setBenchDraft: (benchDraft) => set({ benchDraft }),
  recordedRunId: null,
  setRecordedRunId: (recordedRunId) => set({ recordedRunId }),
}));

/** Who is at the workstation: chosen once, carried into every form until somebody else is chosen. */
export function usePersonInHand(): [technologistId: string, choose: (technologistId: string) => void] {
  const { benchDraft, setBenchDraft } = useScreenState();
  return [benchDraft.technologistId, (technologistId) => setBenchDraft({ ...benchDraft, technologistId })];
}
