/** What the screen shows and what a hand has not yet finished; never a copy of what the journal holds. */
import { create } from 'zustand';
import { type BenchDraft, emptyDraft, touched } from './runForm/benchDraft.ts';

/** A try to record: which draft, and as which run. */
export type Attempt = { draft: BenchDraft; runId: string };

interface ScreenState {
  benchDraft: BenchDraft;
  setBenchDraft: (draft: BenchDraft) => void;
  /** Half-typed runs that another was begun over, oldest first. */
  benchAside: readonly BenchDraft[];
  setBenchAside: (aside: readonly BenchDraft[]) => void;
  /** A run was begun by a press elsewhere: the bench leads to the first field that is still to be typed. */
  isBegun: boolean;
  setBegun: (isBegun: boolean) => void;
  /** The supervisor chosen beside another person in hand; empty where none was, and once somebody else is in hand. */
  supervisorId: string;
  setSupervisorId: (supervisorId: string) => void;
  /** The last one: the same draft tried again is the same run. */
  attempt: Attempt | null;
  setAttempt: (attempt: Attempt) => void;
  /** The run that was recorded last on this page, shown until the next is begun. */
  recordedRunId: string | null;
  setRecordedRunId: (runId: string | null) => void;
}

export const useScreenState = create<ScreenState>()((set) => ({
  benchDraft: emptyDraft,
  setBenchDraft: (benchDraft) =>
    set((before) => ({
      benchDraft,
      supervisorId: benchDraft.technologistId === before.benchDraft.technologistId ? before.supervisorId : '',
    })),
  benchAside: [],
  setBenchAside: (benchAside) => set({ benchAside }),
  isBegun: false,
  setBegun: (isBegun) => set({ isBegun }),
  supervisorId: '',
  setSupervisorId: (supervisorId) => set({ supervisorId }),
  attempt: null,
  setAttempt: (attempt) => set({ attempt }),
  recordedRunId: null,
  setRecordedRunId: (recordedRunId) => set({ recordedRunId }),
}));

/** Who is at the workstation: chosen once, carried into every form until somebody else is chosen. */
export function usePersonInHand(): [technologistId: string, choose: (technologistId: string) => void] {
  const { benchDraft, setBenchDraft } = useScreenState();
  return [
    benchDraft.technologistId,
    (technologistId) => setBenchDraft(touched(benchDraft, { technologistId })),
  ];
}

/** Who writes what only a supervisor may: the person in hand until a supervisor is chosen, who does not take their place. */
export function useSupervisorAsked(): [technologistId: string, choose: (technologistId: string) => void] {
  const { benchDraft, supervisorId, setSupervisorId } = useScreenState();
  return [supervisorId === '' ? benchDraft.technologistId : supervisorId, setSupervisorId];
}
