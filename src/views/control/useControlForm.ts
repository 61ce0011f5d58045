/** What a control's form is while somebody types in it, for a new control and for one that is put right alike. */
import { useMemo, useState } from 'react';
import type { LoggedControl } from '../../journal/logbook.ts';
import { assessTyped } from '../controlAssessments.ts';
import { useLogbook } from '../logbookContext.tsx';
import { useNow } from '../parts/useNow.ts';
import type { BiologicalDraft, ControlDraft, ControlField, SimulatorDraft } from './controlDraft.ts';
import { readControl } from './readControl.ts';

/** What any field may change, whichever kind of control the form is of. */
export type ControlChanges = Partial<Omit<BiologicalDraft, 'kind'>> & Partial<Omit<SimulatorDraft, 'kind'>>;

export function useControlForm(
  draft: ControlDraft,
  {
    amending,
    onChange,
    chooseAnalyzer,
  }: {
    amending?: LoggedControl | undefined;
    onChange: (changes: ControlChanges) => void;
    chooseAnalyzer: (analyzerId: string) => void;
  },
) {
  const { logbook } = useLogbook();
  const now = useNow(logbook);
  const [left, setLeft] = useState<ReadonlySet<ControlField>>(new Set());
  const [tried, setTried] = useState(false);
  const [asking, setAsking] = useState<readonly string[]>([]);
  const reading = useMemo(
    () => readControl(draft, { logbook, now, amending }),
    [draft, logbook, now, amending],
  );
  const assessment = useMemo(
    () => (reading.control === null ? null : assessTyped(reading.control, logbook, amending?.id)),
    [reading.control, logbook, amending?.id],
  );
  return {
    draft,
    reading,
    assessment,
    /** The moment that an empty date stands for, in ms. */
    unlessTyped: amending?.at ?? now,
    /** May be chosen though retired: whoever made it goes on having made it. */
    keeps: amending?.control,
    tried,
    setTried,
    asking,
    setAsking,
    change: (changes: ControlChanges) => {
      setAsking([]);
      onChange(changes);
    },
    chooseAnalyzer: (analyzerId: string) => {
      setAsking([]);
      chooseAnalyzer(analyzerId);
    },
    leaveField: (field: ControlField) => setLeft((fields) => new Set(fields).add(field)),
    // A number is half typed until its field is left.
    showsTrouble: (field: ControlField) => tried || left.has(field),
  };
}

export type ControlForm = ReturnType<typeof useControlForm>;

/** The sentence under a field; undefined where there is none to say. */
export function troubleOf(
  { reading, tried, showsTrouble }: Pick<ControlForm, 'reading' | 'tried' | 'showsTrouble'>,
  field: ControlField,
): string | undefined {
  const error = reading.errors[field];
  if (error !== undefined) return showsTrouble(field) ? error.message : undefined;
  return tried ? reading.missing[field] : undefined;
}
