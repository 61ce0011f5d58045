/** The bench form's life: what is typed, what it reads as, how it is judged, and how it becomes an entry. */
import { useMemo, useState } from 'react';
import { publishedLimits2017 } from '../../core/index.ts';
import { judgementOf } from '../../journal/judgement.ts';
import { asKept, keepDraft } from '../keptDraft.ts';
import { useLogbook } from '../logbookContext.tsx';
import { useNow } from '../parts/useNow.ts';
import { useSave } from '../parts/useSave.ts';
import { conversionWords } from '../parts/words.ts';
import { useScreenState } from '../screenState.ts';
import { assessOnTheBench } from './assessOnTheBench.ts';
import { type BenchDraft, type BenchField, draftAfterRecording, draftForAnalyzer } from './benchDraft.ts';
import { lastRunOf, readBenchDraft } from './readBenchDraft.ts';
import type { RunForm } from './runFields.tsx';

export function useRunOnBench() {
  const { handle, logbook, assessments } = useLogbook();
  const { benchDraft: draft, setBenchDraft, setAttempt, setRecordedRunId } = useScreenState();
  const [left, setLeft] = useState<ReadonlySet<BenchField>>(new Set());
  const [tried, setTried] = useState(false);
  const [asking, setAsking] = useState<readonly string[]>([]);
  const { saving, save } = useSave();
  // A repeat within half a minute is judged after the run that it repeats, and in sight of the failure that run opened.
  const now = useNow(logbook);

  const reading = useMemo(
    () => readBenchDraft(draft, { logbook, now, limits: publishedLimits2017 }),
    [draft, logbook, now],
  );
  const assessment = useMemo(
    () => (reading.run ? assessOnTheBench(reading.run, { logbook, assessments }) : null),
    [reading.run, logbook, assessments],
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
    const { attempt } = useScreenState.getState();
    const runId = attempt?.draft === draft ? attempt.runId : crypto.randomUUID();
    setAttempt({ draft, runId });
    await keepDraft(handle, { draft, recordingAs: runId });
    const saved = await save([draft], () => {
      const judged = judgementOf(assessOnTheBench(run, { logbook, assessments }));
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

export type Bench = ReturnType<typeof useRunOnBench>;
