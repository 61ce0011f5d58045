import { ChoiceField, choicesOf, InputField } from '../parts/field.tsx';
import type { FieldsProps } from '../parts/formReading.ts';
import { roleWords } from '../parts/words.ts';
import type { PersonDraft } from './readPerson.ts';

const roles = choicesOf(roleWords);

export function PersonFields({ draft, errors, onChange }: FieldsProps<PersonDraft>) {
  return (
    <>
      <InputField
        data-long
        error={errors.name}
        label="Name"
        onText={(name) => onChange({ name })}
        value={draft.name}
      />
      <InputField
        error={errors.initials}
        label="Initials"
        onText={(initials) => onChange({ initials })}
        size={5}
        value={draft.initials}
      />
      <ChoiceField
        choices={roles}
        hint="A supervisor also closes failures and signs off."
        label="Role"
        onChoice={(role) => onChange({ role })}
        value={draft.role}
      />
    </>
  );
}
