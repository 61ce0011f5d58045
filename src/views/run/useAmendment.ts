/** The amending form's life: the run as it was typed, what is typed over it, what that changes, and the entry it makes. */
import { useMemo, useState } from 'react';
import type { RunContent } from '../../journal/entries.ts';
import { judgementOf } from '../../journal/judgement.ts';
import type { Logbook, LoggedRun } from '../../journal/logbook.ts';
import { useLogbook } from '../logbookContext.tsx';
import { changesBetween } from '../parts/contentFields.ts';
import { day } from '../parts/figures.ts';
import { useNow } from '../parts/useNow.ts';
import { useSave } from '../parts/useSave.ts';
import { useWriter } from '../parts/useWriter.ts';
import { conversionWords } from '../parts/words.ts';
import { assessOnTheBench } from '../runForm/assessOnTheBench.ts';
import { type BenchDraft, type BenchField, touched } from '../runForm/benchDraft.ts';
import { draftOfRun, draftOnAnalyzer } from '../runForm/draftMoves.ts';
import { readBenchDraft } from '../runForm/readBenchDraft.ts';
import type { RunForm } from '../runForm/runForm.ts';
import { analyzerAsOf } from '../runForm/setUp.ts';
import { fieldsOf } from './describeRun.ts';

/** The last try to write: what was typed, and as which amendment. */
interface Attempt {
  draft: BenchDraft;
  reason: string;
  by: string;
  amendmentId: string;
}

export function useAmendment(run: LoggedRun, onSaved: () => void) {
  const { logbook, assessments } = useLogbook();
  const { id: by, canWrite } = useWriter();
  const [draft, setDraft] = useState(() => draftOfRun(run));
  const [reason, setReason] = useState('');
  const [opened] = useState({ amendments: run.amendments.length });
  const [left, setLeft] = useState<ReadonlySet<BenchField>>(new Set());
  const [tried, setTried] = useState(false);
  const [asking, setAsking] = useState<readonly string[]>([]);
  const [attempt, setAttempt] = useState<Attempt | null>(null);
  const { saving, save } = useSave();
  const now = useNow();

  const reading = useMemo(
    () => readBenchDraft(draft, { logbook, now, amending: run }),
    [draft, logbook, now, run],
  );
  const assessment = useMemo(
    () => (reading.run ? assessOnTheBench(reading.run, { logbook, assessments }, run.id) : null),
    [reading.run, logbook, assessments, run.id],
  );
  const changes = useMemo(
    () => (reading.run ? changesBetween(run.body, reading.run, fieldsOf(logbook, run.entry.zone)) : null),
    [reading.run, logbook, run],
  );

  const change = (changed: Partial<BenchDraft>) => {
    setAsking([]);
    setDraft((typed) => touched(typed, changed));
  };
  const chooseAnalyzer = (analyzerId: string) => {
    const analyzer = logbook.analyzers.get(analyzerId);
    if (!analyzer) return;
    const reported =
      analyzerId === run.body.analyzerId ? draftOfRun(run) : analyzerAsOf(analyzer, run.entry.at);
    change(draftOnAnalyzer(draft, analyzerId, reported));
  };

  // A save that was reported as failed may have reached the disk: then the run says already what is typed.
  const isRetry =
    attempt !== null && attempt.draft === draft && attempt.reason === reason && attempt.by === by;
  const isChanged = isRetry || (changes !== null && changes.length > 0);
  const isReady =
    reading.run !== null &&
    reading.missing.length === 0 &&
    reason.trim() !== '' &&
    canWrite &&
    isChanged &&
    run.voided === null;

  const amend = async (answered: boolean) => {
    setTried(true);
    const { run: content } = reading;
    if (!isReady || content === null) return;
    if (reading.questions.length > 0 && !answered) {
      setAsking(reading.questions);
      return;
    }
    setAsking([]);
    const amendmentId = isRetry ? attempt.amendmentId : crypto.randomUUID();
    setAttempt({ draft, reason, by, amendmentId });
    const saved = await save([draft, reason, by], () => {
      const judged = judgementOf(assessOnTheBench(content, { logbook, assessments }, run.id));
      const body = { amendmentId, runId: run.id, run: content, judged, reason: reason.trim() };
      return [{ id: crypto.randomUUID(), by, kind: 'run-amended', body }];
    });
    if (saved !== null) onSaved();
  };

  const form: RunForm = {
    draft,
    reading,
    hints: hintsFor(run, draft, reading.run, logbook),
    unlessTyped: run.simulation.at,
    technologistId: run.body.technologistId,
    tried,
    change,
    chooseAnalyzer,
    leaveField: (field) => setLeft((fields) => new Set(fields).add(field)),
    showsTrouble: (field) => tried || left.has(field) || field === 'syringeId',
  };
  return {
    form,
    assessment,
    changes,
    reason,
    setReason: (text: string) => {
      setAsking([]);
      setReason(text);
    },
    tried,
    asking,
    stopAsking: () => setAsking([]),
    saving,
    isReady,
    amend,
    /** Amended by somebody else, in another tab, since this form was opened. */
    isOvertaken:
      run.amendments.length !== opened.amendments &&
      run.amendments.at(-1)?.body.amendmentId !== attempt?.amendmentId,
    isChanged,
  };
}

export type Amendment = ReturnType<typeof useAmendment>;

function hintsFor(
  { body, entry }: LoggedRun,
  draft: BenchDraft,
  typed: RunContent | null,
  { analyzers }: Logbook,
): RunForm['hints'] {
  const chosen = analyzers.get(draft.analyzerId);
  const analyzerId =
    chosen === undefined || draft.analyzerId === body.analyzerId
      ? `VA is converted: ${conversionWords((typed ?? body).conversion)}.`
      : `Conversion, plunger and dead space are those of ${chosen.description.label} as it was described on ` +
        `${day(entry.at, entry.zone)}: VA is converted ${conversionWords(analyzerAsOf(chosen, entry.at).conversion)}. ` +
        'Its condition of VA and unit of DLCO are filled in; every number stays as it was typed. Check them.';
  const { timeZone } = Intl.DateTimeFormat().resolvedOptions();
  return {
    analyzerId,
    ...(timeZone !== entry.zone && {
      madeAt: `In this computer’s time zone, ${timeZone}; the run was recorded in ${entry.zone}.`,
    }),
  };
}
