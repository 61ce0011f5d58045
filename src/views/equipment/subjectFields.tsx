import { InputField } from '../parts/field.tsx';
import type { FieldsProps } from '../parts/formReading.ts';
import type { SubjectDraft } from './readSubject.ts';

export function SubjectFields({ draft, errors, onChange }: FieldsProps<SubjectDraft>) {
  return (
    <>
      <InputField
        error={errors.code}
        hint="A code only, twelve letters at most, such as BC1. Never a name, initials, a date of birth or a number of a record: the key to it is kept elsewhere, by local rules."
        label="Code"
        onText={(code) => onChange({ code })}
        size={14}
        value={draft.code}
      />
      <InputField
        data-long
        error={errors.note}
        hint="What helps to choose whom to test, and tells nobody who it is: “mornings only”."
        label={
          <>
            Note <span className="field__optional">if needed</span>
          </>
        }
        onText={(note) => onChange({ note })}
        value={draft.note}
      />
    </>
  );
}
