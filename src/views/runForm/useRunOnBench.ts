/** The bench form's life: what is typed, what it reads as, how it is judged, and how it becomes an entry. */
import { useEffect, useMemo, useRef, useState } from 'react';
import { judgementOf } from '../../journal/judgement.ts';
import { laboratoryOf } from '../../journal/standing.ts';
import { asKept, keepDraft } from '../keptDraft.ts';
import { useLogbook } from '../logbookContext.tsx';
import { useNow } from '../parts/useNow.ts';
import { useSave } from '../parts/useSave.ts';
import { conversionWords } from '../parts/words.ts';
import { useScreenState } from '../screenState.ts';
import { assessOnTheBench } from './assessOnTheBench.ts';
import { type BenchDraft, type BenchField, touched } from './benchDraft.ts';
import { draftAfterRecording, draftForAnalyzer, ownSyringe } from './draftMoves.ts';
import { lastRunOf } from './lastRunOf.ts';
import { withoutCarried, withoutOtherDays } from './origins.ts';
import { readBenchDraft } from './readBenchDraft.ts';
import type { RunForm } from './runForm.ts';

export function useRunOnBench() {
  const { handle, logbook, assessments, isReading } = useLogbook();
  const { benchDraft: draft, setBenchDraft, setAttempt, setRecordedRunId } = useScreenState();
  const [left, setLeft] = useState<ReadonlySet<BenchField>>(new Set());
  const [tried, setTried] = useState(false);
  const [asking, setAsking] = useState<readonly string[]>([]);
  const { saving, save } = useSave();
  // A repeat within half a minute is judged after the run that it repeats, and in sight of the failure that run opened.
  const now = useNow(logbook);

  const reading = useMemo(() => readBenchDraft(draft, { logbook, now }), [draft, logbook, now]);
  const assessment = useMemo(
    () => (reading.run && !isReading ? assessOnTheBench(reading.run, { logbook, assessments }) : null),
    [reading.run, logbook, assessments, isReading],
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
    const before = useScreenState.getState().benchDraft;
    // What is left on a syringe is not on the next one.
    const isOtherSyringe = changes.syringeId !== undefined && changes.syringeId !== before.syringeId;
    setBenchDraft(touched(before, isOtherSyringe ? { attached: [], ...changes } : changes));
  };

  const chooseAnalyzer = (analyzerId: string) => {
    const chosen = logbook.analyzers.get(analyzerId);
    if (!chosen) return;
    const { temperatureUnit } = laboratoryOf(logbook);
    const next = draftForAnalyzer(draft, chosen, lastRunOf(logbook, analyzerId), temperatureUnit);
    // All other checks are made on the analyzer that failed.
    const investigates = draft.investigates?.check === 'other-analyzer' ? draft.investigates : null;
    setRecordedRunId(null);
    setAsking([]);
    setBenchDraft({ ...next, investigates });
  };

  const own = useMemo(
    () =>
      analyzer ? ownSyringe(analyzer, lastRunOf(logbook, analyzer.id)) : { syringeId: '', attached: [] },
    [analyzer, logbook],
  );
  // A page that stands open overnight: yesterday's room is not today's.
  useEffect(() => {
    const today = withoutOtherDays(draft, own, now);
    if (today !== draft) setBenchDraft(today);
  }, [draft, own, now, setBenchDraft]);

  // From the first press to the end of its save: a second would find the run neither typed nor written.
  const isRecording = useRef(false);
  /** `changes`: what an answer puts right before it is recorded. */
  const record = async (answered: boolean, changes: Partial<BenchDraft> = {}) => {
    // Nothing is judged, and so nothing written, by a part of what was recorded before.
    if (isRecording.current || isReading) return;
    isRecording.current = true;
    try {
      await recordOnce(answered, changes);
    } finally {
      isRecording.current = false;
    }
  };
  const recordOnce = async (answered: boolean, changes: Partial<BenchDraft>) => {
    const typed = Object.keys(changes).length === 0 ? draft : touched(draft, changes);
    if (typed !== draft) setBenchDraft(typed);
    setTried(true);
    const { run, missing, questions } = readBenchDraft(typed, { logbook, now: Date.now() });
    if (!run || missing.length > 0) return;
    if (questions.length > 0 && !answered) {
      setAsking(questions);
      return;
    }
    setAsking([]);
    const { attempt } = useScreenState.getState();
    const runId = attempt?.draft === typed ? attempt.runId : crypto.randomUUID();
    setAttempt({ draft: typed, runId });
    await keepDraft(handle, asKept(typed, { draft: typed, runId }));
    const saved = await save([typed], () => {
      const judged = judgementOf(assessOnTheBench(run, { logbook, assessments }));
      const body = { ...run, runId, origin: { kind: 'bench' } as const, judged };
      return [{ id: crypto.randomUUID(), by: run.technologistId, kind: 'run-recorded', body }];
    });
    if (saved === null) return;
    setTried(false);
    setLeft(new Set());
    // What was typed while the disk was slow is the next run's, and stays.
    if (useScreenState.getState().benchDraft === typed) {
      const next = draftAfterRecording(typed, Date.parse(run.madeAt), Date.now());
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
    clearCarried: () =>
      setBenchDraft(
        withoutCarried(draft, { syringeId: analyzer?.description.syringeId ?? '', attached: [] }),
      ),
    record,
    leaveField: (field: BenchField) => setLeft((fields) => new Set(fields).add(field)),
    // A number is half typed until its field is left; a choice is made at once.
    showsTrouble: (field: BenchField) => tried || left.has(field) || field === 'syringeId',
    tried,
    stopAsking: () => setAsking([]),
  };
}

export type Bench = ReturnType<typeof useRunOnBench>;
