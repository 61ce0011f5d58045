/** The bench form's life: what is typed, what it reads as, how it is judged, and how it becomes an entry. */
import { type RefObject, useEffect, useMemo, useRef, useState } from 'react';
import * as z from 'zod/mini';
import { publishedLimits2017 } from '../../core/index.ts';
import { judgementOf } from '../../journal/judgement.ts';
import type { LogbookHandle } from '../../store/openLogbook.ts';
import { useLogbook } from '../logbookContext.tsx';
import { useNow } from '../parts/useNow.ts';
import { useSave } from '../parts/useSave.ts';
import { conversionWords } from '../parts/words.ts';
import { assessOnTheBench } from '../runForm/assessOnTheBench.ts';
import {
  type BenchDraft,
  type BenchField,
  benchDraftSchema,
  draftAfterRecording,
  draftForAnalyzer,
} from '../runForm/benchDraft.ts';
import { lastRunOf, readBenchDraft } from '../runForm/readBenchDraft.ts';
import type { RunForm } from '../runForm/runFields.tsx';
import { useScreenState } from '../screenState.ts';

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
const keepDraft = (handle: LogbookHandle, kept: KeptDraft) =>
  handle.writeSetting(draftSetting, kept).catch(ignoreLostDraft);

/** The last try to record: which draft, and as which run. */
type Attempt = { draft: BenchDraft; runId: string } | null;
const asKept = (draft: BenchDraft, attempt: Attempt): KeptDraft => ({
  draft,
  recordingAs: attempt?.draft === draft ? attempt.runId : null,
});

export function useBench() {
  const { handle, logbook } = useLogbook();
  const { benchDraft: draft, setBenchDraft, setRecordedRunId } = useScreenState();
  const [left, setLeft] = useState<ReadonlySet<BenchField>>(new Set());
  const [tried, setTried] = useState(false);
  const [asking, setAsking] = useState<readonly string[]>([]);
  const { saving, save } = useSave();
  const now = useNow();

  const attempt = useRef<Attempt>(null);
  useDraftKeptAcrossReloads(attempt);

  const reading = useMemo(
    () => readBenchDraft(draft, { logbook, now, limits: publishedLimits2017 }),
    [draft, logbook, now],
  );
  const assessment = useMemo(
    () => (reading.run ? assessOnTheBench(reading.run, logbook) : null),
    [reading.run, logbook],
  );

  const analyzer = logbook.analyzers.get(draft.analyzerId);
  const hints: RunForm['hints'] = {
    ...(analyzer && {
      analyzerId: `VA is converted: ${conversionWords(analyzer.description.conversion)}.`,
    }),
    ...(draft.madeAt === '' && { madeAt: 'Now. Change it only for a run that was made earlier.' }),
  };

  const change = (changes: Partial<BenchDraft>) => {
    setRecordedRunId(null);
    setAsking([]);
    setBenchDraft({ ...useScreenState.getState().benchDraft, ...changes });
  };

  const chooseAnalyzer = (analyzerId: string) => {
    const chosen = logbook.analyzers.get(analyzerId);
    if (chosen) change(draftForAnalyzer(draft, chosen, lastRunOf(logbook, analyzerId)));
  };

  const record = async (answered: boolean) => {
    setTried(true);
    const { run, missing, questions } = readBenchDraft(draft, {
      logbook,
      now: Date.now(),
      limits: publishedLimits2017,
    });
    if (!run || missing.length > 0) return;
    if (questions.length > 0 && !answered) {
      setAsking(questions);
      return;
    }
    setAsking([]);
    if (attempt.current?.draft !== draft) attempt.current = { draft, runId: crypto.randomUUID() };
    const { runId } = attempt.current;
    await keepDraft(handle, { draft, recordingAs: runId });
    const saved = await save([draft], () => {
      const judged = judgementOf(assessOnTheBench(run, logbook));
      const body = { ...run, runId, origin: { kind: 'bench' } as const, judged };
      return [{ id: crypto.randomUUID(), by: run.technologistId, kind: 'run-recorded', body }];
    });
    if (saved === null) return;
    setTried(false);
    setLeft(new Set());
    // What was typed while the disk was slow is the next run's, and stays.
    if (useScreenState.getState().benchDraft === draft) {
      const next = draftAfterRecording(draft);
      setBenchDraft(next);
      // At once: a browser closed now must not come back with the recorded values as if they were still to be recorded.
      void keepDraft(handle, asKept(next, null));
    }
    const [entry] = saved;
    if (entry?.kind === 'run-recorded') setRecordedRunId(entry.body.runId);
  };

  return {
    draft,
    reading,
    assessment,
    saving,
    asking,
    hints,
    unlessTyped: now,
    change,
    chooseAnalyzer,
    record,
    leaveField: (field: BenchField) => setLeft((fields) => new Set(fields).add(field)),
    // A number is half typed until its field is left; a choice is made at once.
    showsTrouble: (field: BenchField) => tried || left.has(field) || field === 'syringeId',
    tried,
    stopAsking: () => setAsking([]),
  };
}

export type Bench = ReturnType<typeof useBench>;

/** A half-typed run survives a reload and a closed browser: it is kept with this workstation's settings. */
function useDraftKeptAcrossReloads(attempt: RefObject<Attempt>) {
  const { handle } = useLogbook();
  const { benchDraft, setBenchDraft, setRecordedRunId } = useScreenState();
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
            if (recordingAs !== null) attempt.current = { draft, runId: recordingAs };
            setBenchDraft(draft);
          }
        }
        setRestored(true);
      })
      .catch(ignoreLostDraft);
    return () => {
      current = false;
    };
  }, [handle, attempt, setBenchDraft, setRecordedRunId]);
  useEffect(() => {
    if (!restored) return;
    const timer = setTimeout(
      () => void keepDraft(handle, asKept(benchDraft, attempt.current)),
      draftSaveDelayMs,
    );
    return () => clearTimeout(timer);
  }, [handle, attempt, benchDraft, restored]);
}

function isRecorded(handle: LogbookHandle, runId: string): boolean {
  const snapshot = handle.getSnapshot();
  return snapshot.state === 'ready' && snapshot.logbook.runs.some(({ id }) => id === runId);
}
