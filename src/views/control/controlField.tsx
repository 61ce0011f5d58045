/** The fields that a control's form is made of: one typed number, and what every control says of itself. */
import type { ReactNode } from 'react';
import { useLogbook } from '../logbookContext.tsx';
import { ChoiceField, InputField, TextAreaField } from '../parts/field.tsx';
import { localMinute } from '../parts/localTime.ts';
import { PersonField } from '../parts/personField.tsx';
import { equipmentChoices } from '../runForm/whoFields.tsx';
import type { ControlField } from './controlDraft.ts';
import { type ControlForm, troubleOf } from './useControlForm.ts';

interface FormProps {
  form: ControlForm;
}

/** A number, with what was probably meant where it cannot be. */
export function NumberField({
  form,
  field,
  value,
  onText,
  onUnit,
  ...frame
}: FormProps & {
  field: ControlField;
  label: ReactNode;
  value: string;
  onText: (text: string) => void;
  /** Where another unit can be chosen that the number would be right in. */
  onUnit?: (unit: string) => void;
  after?: ReactNode;
  beside?: ReactNode;
  hint?: ReactNode;
  isTakenOver?: boolean;
}) {
  const trouble = troubleOf(form, field);
  const slip = form.reading.errors[field]?.slip ?? null;
  const offered = slip !== null && trouble !== undefined && (slip.kind === 'text' || onUnit !== undefined);
  return (
    <InputField
      {...frame}
      error={
        offered ? (
          <>
            {trouble}{' '}
            <button
              data-weight="line"
              onClick={() => (slip.kind === 'text' ? onText(slip.text) : onUnit?.(slip.unit))}
              type="button"
            >
              {slip.kind === 'text' ? `Use ${slip.text}` : `Switch to ${slip.unit}`}
            </button>
          </>
        ) : (
          trouble
        )
      }
      inputMode="decimal"
      onBlur={() => form.leaveField(field)}
      onText={onText}
      value={value}
      warning={form.reading.warnings[field]}
    />
  );
}

export function AnalyzerChoice({ form }: FormProps) {
  const { logbook } = useLogbook();
  return (
    <ChoiceField
      choices={equipmentChoices(logbook.analyzers)}
      error={troubleOf(form, 'analyzerId')}
      label="Analyzer"
      onChoice={form.chooseAnalyzer}
      value={form.draft.analyzerId}
      warning={form.reading.warnings.analyzerId}
    />
  );
}

export function Technologist({ form }: FormProps) {
  return (
    <PersonField
      error={troubleOf(form, 'technologistId')}
      keep={form.keeps?.technologistId}
      label="Technologist"
      onChoice={(technologistId) => form.change({ technologistId })}
      value={form.draft.technologistId}
    />
  );
}

export function MadeAt({ form }: FormProps) {
  const { draft, unlessTyped, keeps } = form;
  const isNow = draft.madeAt === '' && keeps === undefined;
  return (
    <InputField
      error={troubleOf(form, 'madeAt')}
      hint={isNow ? 'Now. Change it only for one that was made earlier.' : undefined}
      label="Made at"
      onBlur={() => form.leaveField('madeAt')}
      onText={(madeAt) => form.change({ madeAt })}
      type="datetime-local"
      value={draft.madeAt === '' ? localMinute(unlessTyped) : draft.madeAt}
    />
  );
}

export function Comment({ form, hint }: FormProps & { hint?: string }) {
  return (
    <TextAreaField
      hint={hint}
      label="Comment"
      onText={(comment) => form.change({ comment })}
      value={form.draft.comment}
    />
  );
}
