/** The fields of a run, filled in at the bench and when a run is amended. */
import type { ReactNode } from 'react';
import { useLogbook } from '../logbookContext.tsx';
import {
  type Choice,
  ChoiceField,
  choicesOf,
  IfKnown,
  InlineChoice,
  InputField,
  plainChoices,
  TextAreaField,
} from '../parts/field.tsx';
import { localMinute } from '../parts/localTime.ts';
import { PersonField } from '../parts/personField.tsx';
import type { Slip } from '../parts/readNumber.ts';
import { dlcoUnits, gasConditions, pressureUnits, reasonWords, routeWords } from '../parts/words.ts';
import type { BenchDraft, BenchField } from './benchDraft.ts';
import type { BenchReading } from './readBenchDraft.ts';
import './runForm.css';

/** What the fields show and tell. */
export interface RunForm {
  draft: BenchDraft;
  reading: BenchReading;
  /** What stands under a field that is in order. */
  hints: Partial<Record<'analyzerId' | 'madeAt', string>>;
  /** The time that an empty field for it stands for, in ms. */
  unlessTyped: number;
  /** Who made the run that is amended: may be chosen though retired by now. */
  technologistId?: string;
  /** Whether writing was tried: what is missing is then said. */
  tried: boolean;
  change: (changes: Partial<BenchDraft>) => void;
  chooseAnalyzer: (analyzerId: string) => void;
  leaveField: (field: BenchField) => void;
  showsTrouble: (field: BenchField) => boolean;
}

const routes = choicesOf(routeWords);
const reasons = choicesOf(reasonWords);
const conditions = plainChoices(gasConditions);
const pressureChoices = plainChoices(pressureUnits);
const dlcoChoices = plainChoices(dlcoUnits);

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

export function RunFields({ form }: { form: RunForm }) {
  const { draft, change } = form;
  return (
    <>
      <WhoAndWhat form={form} />
      <fieldset className="stack group">
        <legend>The room</legend>
        <NumberField
          after={<span className="unit">°C</span>}
          form={form}
          field="temperature"
          label="Temperature"
        />
        <NumberField
          after={
            <InlineChoice
              choices={pressureChoices}
              name="Unit of pressure"
              onChoice={(pressureUnit) => change({ pressureUnit })}
              value={draft.pressureUnit}
            />
          }
          form={form}
          field="pressure"
          label="Barometric pressure"
        />
        <NumberField
          after={<span className="unit">%</span>}
          form={form}
          field="humidity"
          label={<IfKnown>Relative humidity</IfKnown>}
        />
      </fieldset>
      <Reported form={form} />
      <TextAreaField label="Comment" onText={(comment) => change({ comment })} value={draft.comment} />
    </>
  );
}

function WhoAndWhat({ form }: { form: RunForm }) {
  const { draft, reading, change, chooseAnalyzer, unlessTyped, hints } = form;
  const { logbook } = useLogbook();
  return (
    <fieldset className="pairs">
      <legend className="for-readers">Analyzer, syringe and person</legend>
      <ChoiceField
        choices={equipmentChoices(logbook.analyzers)}
        error={troubleOf(form, 'analyzerId')}
        hint={hints.analyzerId}
        label="Analyzer"
        onChoice={chooseAnalyzer}
        value={draft.analyzerId}
        warning={reading.warnings.analyzerId}
      />
      <ChoiceField
        choices={equipmentChoices(logbook.syringes)}
        error={troubleOf(form, 'syringeId')}
        label="Syringe"
        onChoice={(syringeId) => change({ syringeId })}
        value={draft.syringeId}
        warning={reading.warnings.syringeId}
      />
      <ChoiceField
        choices={routes}
        label="Route"
        onChoice={(route) => change({ route })}
        value={draft.route}
      />
      <ChoiceField
        choices={reasons}
        label="Reason"
        onChoice={(reason) => change({ reason })}
        value={draft.reason}
      />
      <PersonField
        error={troubleOf(form, 'technologistId')}
        keep={form.technologistId}
        label="Technologist"
        onChoice={(technologistId) => change({ technologistId })}
        value={draft.technologistId}
      />
      <InputField
        error={troubleOf(form, 'madeAt')}
        hint={hints.madeAt}
        label="Made at"
        onBlur={() => form.leaveField('madeAt')}
        onText={(madeAt) => change({ madeAt })}
        type="datetime-local"
        value={draft.madeAt === '' ? localMinute(unlessTyped) : draft.madeAt}
      />
    </fieldset>
  );
}

function Reported({ form }: { form: RunForm }) {
  const { draft, change } = form;
  return (
    <fieldset className="stack group">
      <legend>The analyzer reports</legend>
      <NumberField
        after={
          <>
            <span className="unit">L</span>
            <InlineChoice
              choices={conditions}
              name="Condition of VA"
              onChoice={(vaReportedAs) => change({ vaReportedAs })}
              value={draft.vaReportedAs}
            />
          </>
        }
        form={form}
        field="va"
        label="Alveolar volume, VA"
      />
      <NumberField
        after={
          <InlineChoice
            choices={dlcoChoices}
            name="Unit of DLCO"
            onChoice={(dlcoUnit) => change({ dlcoUnit })}
            value={draft.dlcoUnit}
          />
        }
        form={form}
        field="dlco"
        label="DLCO"
      />
      <NumberField
        after={<span className="unit">L {draft.vaReportedAs}</span>}
        form={form}
        field="inspiredVolume"
        label={<IfKnown>Inspired volume</IfKnown>}
      />
      <NumberField
        after={<span className="unit">L BTPS</span>}
        form={form}
        field="volumeCheck"
        label={<IfKnown>Volume check</IfKnown>}
      />
      <NumberField
        after={<span className="unit">s</span>}
        form={form}
        field="breathHold"
        label={<IfKnown>Breath-hold time</IfKnown>}
      />
    </fieldset>
  );
}

export type NumberFieldName =
  | 'temperature'
  | 'pressure'
  | 'humidity'
  | 'va'
  | 'dlco'
  | 'inspiredVolume'
  | 'volumeCheck'
  | 'breathHold';

export function NumberField({
  form,
  field,
  label,
  after,
}: {
  form: RunForm;
  field: NumberFieldName;
  label: ReactNode;
  after: ReactNode;
}) {
  const { draft, reading, change, leaveField } = form;
  return (
    <InputField
      after={after}
      error={troubleOf(form, field)}
      inputMode="decimal"
      label={label}
      onBlur={() => leaveField(field)}
      onText={(text) => change({ [field]: text })}
      value={draft[field]}
      warning={reading.warnings[field]}
    />
  );
}

/** What stands under a field: an error once the field was left, what is missing once recording was tried. */
export function troubleOf(form: RunForm, field: BenchField): ReactNode {
  const { reading, showsTrouble, tried, change } = form;
  const error = reading.errors[field];
  if (error && showsTrouble(field)) {
    const { message, slip } = error;
    return (
      <>
        {message} {slip ? <SlipButton onUse={() => change(correction(field, slip))} slip={slip} /> : null}
      </>
    );
  }
  return tried && reading.missing.includes(field) ? missingWords[field] : undefined;
}

function correction(field: BenchField, slip: Slip): Partial<BenchDraft> {
  if (slip.kind === 'text') return { [field]: slip.text };
  const pressureUnit = pressureUnits.find((unit) => unit === slip.unit);
  return pressureUnit ? { pressureUnit } : {};
}

function SlipButton({ slip, onUse }: { slip: Slip; onUse: () => void }) {
  return (
    <button data-weight="line" onClick={onUse} type="button">
      {slip.kind === 'text' ? `Use ${slip.text}` : `Switch to ${slip.unit}`}
    </button>
  );
}

export function equipmentChoices(
  equipment: ReadonlyMap<string, { id: string; description: { label: string }; retired: object | null }>,
): Choice<string>[] {
  const all = [...equipment.values()];
  const inUse = all.filter(({ retired }) => retired === null);
  const retired = all.filter((item) => item.retired !== null);
  return [
    ...inUse.map(({ id, description }) => ({ value: id, label: description.label })),
    ...retired.map(({ id, description }) => ({ value: id, label: description.label, group: 'Retired' })),
  ];
}
