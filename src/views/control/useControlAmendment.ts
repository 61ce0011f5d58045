/** The life of the form that puts a control right: as it was typed, what is typed over it, and the entry it makes. */
import { useState } from 'react';
import type { Control } from '../../journal/entries.ts';
import type { LoggedControl } from '../../journal/logbook.ts';
import { assessTyped, judgementOf } from '../controlAssessments.ts';
import { useLogbook } from '../logbookContext.tsx';
import { changesBetween } from '../parts/contentFields.ts';
import { useSave } from '../parts/useSave.ts';
import { useWriter } from '../parts/useWriter.ts';
import { type ControlDraft, draftOfBiological, draftOfSimulator } from './controlDraft.ts';
import { fieldsOfControl } from './describeControl.ts';
import { useControlForm } from './useControlForm.ts';

export function useControlAmendment(logged: LoggedControl, onSaved: () => void) {
  const { logbook } = useLogbook();
  const { id: by, canWrite } = useWriter();
  const [draft, setDraft] = useState(() => draftOf(logged.control, logbook.analyzers));
  const [reason, setReason] = useState('');
  const [opened] = useState(logged.amendments.length);
  const [wasTriedAs, setTriedAs] = useState<readonly unknown[]>([]);
  const { saving, save } = useSave();
  const form = useControlForm(draft, {
    amending: logged,
    onChange: (changes) => setDraft((typed) => ({ ...typed, ...changes })),
    chooseAnalyzer: (analyzerId) => setDraft((typed) => ({ ...typed, analyzerId })),
  });
  const { control: typed, missing } = form.reading;
  const fields = fieldsOfControl(logged.control.kind, logbook, logged.entry.zone);
  const changes = typed === null ? null : changesBetween<Control>(logged.control, typed, fields);
  const content = [draft, reason, by];
  // A save that was reported as failed may have reached the disk: then it says already what is typed.
  const isRetry = content.every((value, index) => Object.is(value, wasTriedAs[index]));
  const isChanged = isRetry || (changes !== null && changes.length > 0);

  const amend = async (answered: boolean): Promise<'stopped' | 'tried'> => {
    form.setTried(true);
    const isWhole = typed !== null && Object.keys(missing).length === 0 && reason.trim() !== '';
    if (!isWhole || !canWrite || !isChanged || logged.voided !== null) return 'stopped';
    const { questions } = form.reading;
    if (questions.length > 0 && !answered && !isRetry) {
      form.setAsking(questions);
      return 'tried';
    }
    form.setAsking([]);
    setTriedAs(content);
    const saved = await save(content, () => {
      const judged = judgementOf(assessTyped(typed, logbook, logged.id));
      const body = {
        amendmentId: crypto.randomUUID(),
        controlId: logged.id,
        control: typed,
        judged,
        reason: reason.trim(),
      };
      return [{ id: crypto.randomUUID(), by, kind: 'control-amended', body }];
    });
    if (saved !== null) onSaved();
    return 'tried';
  };

  return {
    form,
    changes,
    isChanged,
    reason,
    setReason: (text: string) => {
      form.setAsking([]);
      setReason(text);
    },
    saving,
    amend,
    /** Amended by somebody else, in another tab, since this form was opened. */
    isOvertaken: logged.amendments.length !== opened && !isRetry,
  };
}

export type ControlAmendment = ReturnType<typeof useControlAmendment>;

function draftOf(
  control: Control,
  analyzers: ReadonlyMap<string, { description: { pressureUnit: 'mmHg' | 'kPa' | 'hPa' } }>,
): ControlDraft {
  if (control.kind === 'biological') return draftOfBiological(control);
  return draftOfSimulator(control, analyzers.get(control.analyzerId)?.description.pressureUnit ?? 'mmHg');
}
