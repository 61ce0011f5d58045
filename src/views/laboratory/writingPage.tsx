import type { LaboratoryDescription } from '../../journal/entries.ts';
import { laboratoryOf, usualDescription } from '../../journal/standing.ts';
import { useLogbook } from '../logbookContext.tsx';
import { ChoiceField, choicesOf, IfKnown, InputField, plainChoices } from '../parts/field.tsx';
import { changedFields } from '../parts/fieldsInWords.ts';
import type { FieldsProps } from '../parts/formReading.ts';
import { dlcoUnits, pressureUnits, temperatureUnits } from '../parts/words.ts';
import {
  clockWords,
  dateFormCaution,
  dateFormWords,
  decimalMarkWords,
  describeLaboratory,
  laboratoryInWords,
  readLaboratory,
} from './describeLaboratory.ts';
import { SetBy } from './setBy.tsx';
import { settingHistory } from './settingHistory.ts';
import { SettingPage } from './settingPage.tsx';

export function WritingPage() {
  const { logbook } = useLogbook();
  const description = laboratoryOf(logbook);
  const newest = logbook.laboratory.at(-1);
  const rows = laboratoryInWords(description);
  return (
    <SettingPage<LaboratoryDescription, LaboratoryDescription>
      change="Change name or form of writing…"
      form={{
        title: 'Change name or form of writing',
        explanation:
          'Every page of this logbook follows at once, in every window. What was typed stays as it was typed, and exports keep their point and their ISO dates.',
        action: 'Save the change',
        initial: description,
        read: readLaboratory,
        fields: (props) => <WritingFields {...props} />,
        isInForce: (value) => changedFields(rows, laboratoryInWords(value)).length === 0,
        makeEntries: describeLaboratory,
        setting: newest?.id,
      }}
      history={settingHistory(
        logbook.laboratory,
        laboratoryInWords(usualDescription),
        ({ body }) => laboratoryInWords(body),
        'Changed',
      )}
      rows={rows}
      standing={
        newest ? (
          <SetBy entry={newest} what="Set" />
        ) : (
          <p>Nobody has set it: the usual form of writing, in which no date can be read in two ways.</p>
        )
      }
      title="Name and form of writing"
    />
  );
}

function WritingFields({ draft, errors, onChange }: FieldsProps<LaboratoryDescription>) {
  return (
    <>
      <InputField
        data-long
        error={errors.name}
        hint="It stands at the top of this page and at the foot of every print."
        label={<IfKnown>Name of the laboratory</IfKnown>}
        onText={(name) => onChange({ name })}
        value={draft.name}
      />
      <ChoiceField
        choices={choicesOf(decimalMarkWords)}
        hint="Both are read wherever a number is typed."
        label="Decimal mark"
        onChoice={(decimalMark) => onChange({ decimalMark })}
        value={draft.decimalMark}
      />
      <ChoiceField
        choices={choicesOf(dateFormWords)}
        label="Dates"
        onChoice={(dateForm) => onChange({ dateForm })}
        value={draft.dateForm}
        warning={dateFormCaution(draft.dateForm)}
      />
      <ChoiceField
        // A key that is a number would come before all others.
        choices={(['24', '12'] as const).map((value) => ({ value, label: clockWords[value] }))}
        label="Clock"
        onChoice={(clock) => onChange({ clock })}
        value={draft.clock}
      />
      <ChoiceField
        choices={plainChoices(temperatureUnits)}
        label="Temperature"
        onChoice={(temperatureUnit) => onChange({ temperatureUnit })}
        value={draft.temperatureUnit}
      />
      <ChoiceField
        choices={plainChoices(pressureUnits)}
        hint="For new analyzers; those that are described keep theirs."
        label="Pressure"
        onChoice={(pressureUnit) => onChange({ pressureUnit })}
        value={draft.pressureUnit}
      />
      <ChoiceField
        choices={plainChoices(dlcoUnits)}
        hint="For new analyzers, too."
        label="DLCO"
        onChoice={(dlcoUnit) => onChange({ dlcoUnit })}
        value={draft.dlcoUnit}
      />
    </>
  );
}
