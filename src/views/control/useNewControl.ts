/** The life of a new control's form: kept while other pages are looked at and over a reload, recorded once, and then gone. */
import { useMemo, useState } from 'react';
import { useLocation } from 'wouter';
import { assessTyped, judgementOf } from '../controlAssessments.ts';
import { newControlHref } from '../deskRoutes.ts';
import { useLogbook } from '../logbookContext.tsx';
import { useSave } from '../parts/useSave.ts';
import { usePersonInHand } from '../screenState.ts';
import type { AskedControl } from './controlAddress.ts';
import type { ControlDraft } from './controlDraft.ts';
import { useKeptControls } from './keptControls.ts';
import { keepOverReload, useTakenUp } from './keptOverReload.ts';
import { draftOnAnalyzer, newDraft } from './newDraft.ts';
import { type ControlChanges, useControlForm } from './useControlForm.ts';

export function useNewControl({ kind, analyzer, investigates }: AskedControl) {
  const { logbook, handle } = useLogbook();
  const [, goTo] = useLocation();
  const [technologistId, chooseTechnologist] = usePersonInHand();
  const kept = useKeptControls();
  const { drafts } = kept;
  const { saving, save } = useSave();
  const [recordedId, setRecordedId] = useState<string | null>(null);
  const [wasTriedAs, setTriedAs] = useState<ControlDraft | null>(null);

  const address = newControlHref(kind, analyzer.id, investigates?.runId);
  useTakenUp(address);
  const [begun, setBegun] = useState(() => begin());
  const typed = drafts.get(address) ?? begun;
  // The same object as long as nothing is changed: a save that is tried again knows by it what it writes.
  const draft = useMemo(() => ({ ...typed, technologistId }), [typed, technologistId]);

  function begin(): ControlDraft {
    return newDraft(kind, logbook, { analyzer, investigates }, new Date().toISOString());
  }

  const keep = (at: string, changed: ControlDraft) => {
    kept.keep(at, changed);
    keepOverReload(handle, at, changed);
  };
  const forget = (at: string) => {
    kept.forget(at);
    keepOverReload(handle, at, undefined);
  };
  const change = ({ technologistId: chosen, ...changes }: ControlChanges) => {
    if (chosen !== undefined) chooseTechnologist(chosen);
    if (Object.keys(changes).length > 0) keep(address, { ...typed, ...changes });
  };
  /** What was typed goes with it, unless something lies at the other analyzer already. */
  const chooseAnalyzer = (analyzerId: string) => {
    const chosen = logbook.analyzers.get(analyzerId);
    if (chosen === undefined) return;
    const other = newControlHref(kind, analyzerId, investigates?.runId);
    if (!drafts.has(other)) {
      keep(other, draftOnAnalyzer(typed, logbook, chosen, new Date().toISOString()));
      forget(address);
    }
    goTo(other, { replace: true });
  };

  const form = useControlForm(draft, { onChange: change, chooseAnalyzer });

  const record = async (answered: boolean): Promise<'stopped' | 'tried'> => {
    form.setTried(true);
    const { control, missing, questions } = form.reading;
    if (control === null || Object.keys(missing).length > 0) return 'stopped';
    // A save that was reported as failed may have reached the disk: the same again is no second one, and was asked about.
    if (questions.length > 0 && !answered && wasTriedAs !== draft) {
      form.setAsking(questions);
      return 'tried';
    }
    form.setAsking([]);
    setTriedAs(draft);
    const by = control.technologistId;
    const saved = await save([draft], () => {
      const judged = judgementOf(assessTyped(control, logbook));
      const body = { controlId: crypto.randomUUID(), control, judged };
      return [{ id: crypto.randomUUID(), by, kind: 'control-recorded', body }];
    });
    const [entry] = saved ?? [];
    if (entry?.kind === 'control-recorded') {
      forget(address);
      form.setTried(false);
      setRecordedId(entry.body.controlId);
    }
    return 'tried';
  };

  return {
    form,
    saving,
    record,
    recorded: logbook.controls.find(({ id }) => id === recordedId),
    another: () => {
      setRecordedId(null);
      setBegun(begin());
    },
  };
}

export type NewControl = ReturnType<typeof useNewControl>;
