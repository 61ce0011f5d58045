/** The bench form's life: what is typed, what it reads as, how it is judged, and how it becomes an entry. */
import { useEffect, useMemo, useState } from 'react';
import { publishedLimits2017 } from '../../core/index.ts';
import { judgementOf } from '../../journal/judgement.ts';
import type { LogbookHandle } from '../../store/openLogbook.ts';
import { useLogbook } from '../logbookContext.tsx';
import { useNow } from '../parts/useNow.ts';
import { useSave } from '../parts/useSave.ts';
import { useScreenState } from '../screenState.ts';
import { assessOnTheBench } from './assessOnTheBench.ts';
import {
  type BenchDraft,
  type BenchField,
  benchDraftSchema,
  draftAfterRecording,
  draftForAnalyzer,
} from './benchDraft.ts';
import { lastRunOf, readBenchDraft } from './readBenchDraft.ts';

const draftSetting = 'bench-draft';
const draftSaveDelayMs = 300;

/** The draft is a convenience: storage that fails says so when a run is recorded, not between two keystrokes. */
const ignoreLostDraft = () => {};
const keepDraft = (handle: LogbookHandle, draft: BenchDraft) =>
  void handle.writeSetting(draftSetting, draft).catch(ignoreLostDraft);

export function useBench() {
  const { handle, logbook } = useLogbook();
  const { benchDraft: draft, setBenchDraft, setRecordedRunId } = useScreenState();
  const [left, setLeft] = useState<ReadonlySet<BenchField>>(new Set());
  const [tried, setTried] = useState(false);
  const [asking, setAsking] = useState<readonly string[]>([]);
  const { saving, save } = useSave();
  const now = useNow();

  useDraftKeptAcrossReloads();

  const reading = useMemo(
    () => readBenchDraft(draft, { logbook, now, limits: publishedLimits2017 }),
    [draft, logbook, now],
  );
  const assessment = useMemo(
    () => (reading.run ? assessOnTheBench(reading.run, logbook) : null),
    [reading.run, logbook],
  );

  const change = (changes: Partial<BenchDraft>) => {
    setRecordedRunId(null);
    setAsking([]);
    setBenchDraft({ ...useScreenState.getState().benchDraft, ...changes });
  };

  const chooseAnalyzer = (analyzerId: string) => {
    const analyzer = logbook.analyzers.get(analyzerId);
    if (analyzer) change(draftForAnalyzer(draft, analyzer, lastRunOf(logbook, analyzerId)));
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
    const saved = await save([draft], () => {
      const judged = judgementOf(assessOnTheBench(run, logbook));
      const body = { ...run, runId: crypto.randomUUID(), origin: { kind: 'bench' } as const, judged };
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
      keepDraft(handle, next);
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
    now,
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
function useDraftKeptAcrossReloads() {
  const { handle } = useLogbook();
  const { benchDraft, setBenchDraft } = useScreenState();
  const [restored, setRestored] = useState(false);
  useEffect(() => {
    let current = true;
    handle
      .readSetting(draftSetting, benchDraftSchema)
      .then((kept) => {
        if (!current) return;
        if (kept !== null && useScreenState.getState().benchDraft.analyzerId === '') setBenchDraft(kept);
        setRestored(true);
      })
      .catch(ignoreLostDraft);
    return () => {
      current = false;
    };
  }, [handle, setBenchDraft]);
  useEffect(() => {
    if (!restored) return;
    const timer = setTimeout(() => keepDraft(handle, benchDraft), draftSaveDelayMs);
    return () => clearTimeout(timer);
  }, [handle, benchDraft, restored]);
}
