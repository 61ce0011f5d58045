/** The half-typed run, the analyzer and the person in hand outlive a reload, whichever screen it is made on. */
import { useEffect, useState } from 'react';
import * as z from 'zod/mini';
import type { Logbook } from '../journal/logbook.ts';
import type { LogbookHandle } from '../store/openLogbook.ts';
import { sessionId } from '../store/session.ts';
import { useLogbook } from './logbookContext.tsx';
import { type BenchDraft, benchDraftSchema, emptyDraft } from './runForm/benchDraft.ts';
import { draftAfterRecording, ownSyringe } from './runForm/draftMoves.ts';
import { lastRunOf } from './runForm/lastRunOf.ts';
import { withKeptRoom, withoutCarried, withoutOtherDays } from './runForm/origins.ts';
import { type Attempt, useScreenState } from './screenState.ts';

const draftSetting = 'bench-draft';
/**
 * What is kept of the form between two visits. `recordingAs`: the run id under which this very draft was to be recorded,
 * written before the run is: a browser that ends between the two commits comes back with a draft that is recorded
 * already, and knows it. `session` and `keptAt` (ms) say how far what was carried over still holds.
 */
const keptDraftSchema = z.object({
  draft: benchDraftSchema,
  recordingAs: z.nullable(z.string()),
  aside: z._default(z.array(benchDraftSchema), () => []),
  session: z._default(z.string(), ''),
  keptAt: z._default(z.nullable(z.number()), null),
});
type KeptDraft = z.infer<typeof keptDraftSchema>;
interface Restored {
  draft: BenchDraft;
  aside: readonly BenchDraft[];
}
const draftSaveDelayMs = 300;

/** The draft is a convenience: storage that fails says so when a run is recorded, not between two keystrokes. */
const ignoreLostDraft = () => {};
export const keepDraft = (handle: LogbookHandle, kept: KeptDraft) =>
  handle.writeSetting(draftSetting, kept).catch(ignoreLostDraft);

export const asKept = (draft: BenchDraft, attempt: Attempt | null): KeptDraft => ({
  draft,
  recordingAs: attempt?.draft === draft ? attempt.runId : null,
  aside: [...useScreenState.getState().benchAside],
  session: sessionId(),
  keptAt: Date.now(),
});

/** Takes up what this workstation's settings have kept of the form, and keeps what is typed from then on. */
export function useKeptDraft() {
  const { handle, isReading } = useLogbook();
  const { benchDraft, benchAside, setBenchDraft, setBenchAside, setAttempt, setRecordedRunId } =
    useScreenState();
  const [restored, setRestored] = useState<Restored | null>(null);
  useEffect(() => {
    if (restored !== null) return;
    let current = true;
    handle
      .readSetting(draftSetting, keptDraftSchema)
      .then((kept) => {
        // Whether it was recorded after all, only the runs say.
        if (!current || (isReading && kept !== null && kept.recordingAs !== null)) return;
        const snapshot = handle.getSnapshot();
        let taken: Restored = { draft: emptyDraft, aside: useScreenState.getState().benchAside };
        if (
          kept !== null &&
          'logbook' in snapshot &&
          useScreenState.getState().benchDraft.analyzerId === ''
        ) {
          const { draft, aside, recordedAs } = takenUp(kept, snapshot.logbook, Date.now());
          taken = { draft, aside };
          if (recordedAs !== null) setRecordedRunId(recordedAs);
          else if (kept.recordingAs !== null) setAttempt({ draft, runId: kept.recordingAs });
          setBenchAside(aside);
          setBenchDraft(draft);
        }
        setRestored(taken);
      })
      .catch(ignoreLostDraft);
    return () => {
      current = false;
    };
  }, [handle, isReading, restored, setBenchDraft, setBenchAside, setAttempt, setRecordedRunId]);
  useEffect(() => {
    // What was only taken up is not typed anew: it keeps its age.
    if (restored === null || (restored.draft === benchDraft && restored.aside === benchAside)) return;
    const timer = setTimeout(
      () => void keepDraft(handle, asKept(benchDraft, useScreenState.getState().attempt)),
      draftSaveDelayMs,
    );
    return () => clearTimeout(timer);
  }, [handle, benchDraft, benchAside, restored]);
}

/** The kept forms as they may stand now. */
function takenUp(
  { draft, recordingAs, aside, session, keptAt }: KeptDraft,
  logbook: Logbook,
  now: number,
): Restored & { recordedAs: string | null } {
  const recorded = recordingAs === null ? undefined : logbook.runs.find(({ id }) => id === recordingAs);
  const next = recorded ? draftAfterRecording(draft, recorded.simulation.at, now) : draft;
  const isSameSession = session === sessionId();
  const still = (kept: BenchDraft) => {
    const holding = stillHolding(kept, logbook, isSameSession, now);
    return keptAt === null ? holding : withKeptRoom(holding, keptAt, now);
  };
  return { draft: still(next), aside: aside.map(still), recordedAs: recorded ? recorded.id : null };
}

/** What was carried from run to run ends with its session and its day. */
function stillHolding(kept: BenchDraft, logbook: Logbook, isSameSession: boolean, now: number): BenchDraft {
  const analyzer = logbook.analyzers.get(kept.analyzerId);
  const own = analyzer
    ? ownSyringe(analyzer, lastRunOf(logbook, analyzer.id))
    : { syringeId: '', attached: [] };
  return isSameSession ? withoutOtherDays(kept, own, now) : withoutCarried(kept, own);
}
