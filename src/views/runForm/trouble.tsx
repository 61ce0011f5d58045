/** What stands under a field of a run: an error once the field was left, what is missing once recording was tried. */
import type { BenchDraft, BenchField, NumberFieldName } from './benchDraft.ts';
import { choosing, convertedFrom } from './otherUnits.ts';
import type { RunForm } from './runForm.ts';

const missingWords: Partial<Record<BenchField, string>> = {
  analyzerId: 'Choose the analyzer.',
  technologistId: 'Choose who made the run.',
  syringeId: 'Choose the syringe.',
  temperature: 'Type the temperature of the room.',
  pressure: 'Type the barometric pressure.',
  humidity: 'A VA reported as ATP needs the room’s humidity.',
  va: 'Type the alveolar volume that the analyzer reports.',
  dlco: 'Type the DLCO that the analyzer reports.',
};

/** The sentence alone; undefined where there is none to say. */
export function troubleOf(
  { reading, showsTrouble, tried }: Pick<RunForm, 'reading' | 'showsTrouble' | 'tried'>,
  field: BenchField,
): string | undefined {
  const error = reading.errors[field];
  if (error && showsTrouble(field)) return error.message;
  return tried && reading.missing.includes(field) ? missingWords[field] : undefined;
}

/** The same with what was probably meant, to be taken at a press. */
export function Trouble({ form, field }: { form: RunForm; field: NumberFieldName }) {
  const slip = form.reading.errors[field]?.slip ?? null;
  return (
    <>
      {troubleOf(form, field)}
      {slip === null ? null : <Offers field={field} form={form} slip={slip} />}
    </>
  );
}

type Slip = NonNullable<NonNullable<RunForm['reading']['errors'][BenchField]>['slip']>;

/** Another unit can be chosen, which leaves the number as it was typed, or the number be put into this one. */
function Offers({ form, field, slip }: { form: RunForm; field: NumberFieldName; slip: Slip }) {
  const { draft, change } = form;
  const offer = (words: string, changes: Partial<BenchDraft>) => (
    <>
      {' '}
      <button data-weight="line" onClick={() => change(changes)} type="button">
        {words}
      </button>
    </>
  );
  if (slip.kind === 'text') return offer(`Use ${slip.text}`, { [field]: slip.text });
  const converted = convertedFrom(draft, field, slip.unit);
  const unit = field === 'pressure' ? draft.pressureUnit : draft.temperatureUnit;
  return (
    <>
      {offer(`Switch to ${slip.unit}`, choosing(field, slip.unit))}
      {converted === null ? null : offer(`Use ${converted} ${unit}`, { [field]: converted })}
    </>
  );
}
