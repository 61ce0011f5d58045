import { ChoiceField, InlineChoice, InputField, plainChoices } from '../parts/field.tsx';
import type { FieldsProps } from '../parts/formReading.ts';
import type { ScheduleDraft } from './setSchedule.ts';

const wayWords: Record<ScheduleDraft['made'], string> = {
  'by-interval': 'made here, every so often',
  'by-own-date': 'made here, by the date of its certificate or label',
  'not-here': 'not made here',
};

export function ScheduleFields({
  draft,
  errors,
  onChange,
  ways,
}: FieldsProps<ScheduleDraft> & { ways: readonly ScheduleDraft['made'][] }) {
  return (
    <>
      <ChoiceField
        choices={ways.map((value) => ({ value, label: wayWords[value] }))}
        hint={
          draft.made === 'by-own-date'
            ? 'Where no date is written down, nothing says that it is due.'
            : undefined
        }
        label="Made"
        onChoice={(made) => onChange({ made })}
        value={draft.made}
      />
      {draft.made === 'by-interval' ? (
        <InputField
          after={
            <InlineChoice
              choices={plainChoices(['days', 'weeks', 'months'] as const)}
              name="Unit of the interval"
              onChoice={(unit) => onChange({ unit })}
              value={draft.unit}
            />
          }
          error={errors.count}
          inputMode="decimal"
          label="Every"
          onText={(count) => onChange({ count })}
          value={draft.count}
        />
      ) : null}
      {draft.made === 'not-here' ? null : (
        <InputField
          after={<span className="unit">days before</span>}
          error={errors.announceDays}
          inputMode="decimal"
          label="Announced"
          onText={(announceDays) => onChange({ announceDays })}
          value={draft.announceDays}
        />
      )}
    </>
  );
}
