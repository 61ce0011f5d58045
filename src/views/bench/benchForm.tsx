import { format } from 'date-fns';
import { type FormEvent, type ReactNode, useRef } from 'react';
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
import { focusFirstInvalid } from '../parts/formFocus.ts';
import { PersonField } from '../parts/personField.tsx';
import type { Slip } from '../parts/readNumber.ts';
import { ReadOnlyNote } from '../parts/readOnlyNote.tsx';
import {
  conversionWords,
  dlcoUnits,
  gasConditions,
  pressureUnits,
  reasonWords,
  routeWords,
} from '../parts/words.ts';
import type { BenchDraft, BenchField } from '../runForm/benchDraft.ts';
import { Recording } from './recording.tsx';
import type { Bench } from './useBench.ts';

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

export function BenchForm({ bench }: { bench: Bench }) {
  const { draft, change, record } = bench;
  const form = useRef<HTMLFormElement>(null);

  const submit = (event: FormEvent) => {
    event.preventDefault();
    void record(false).then(() => focusFirstInvalid(form.current));
  };

  return (
    <form className="stack stack--loose bench-form" noValidate onSubmit={submit} ref={form}>
      <h1>Record a run</h1>
      <ReadOnlyNote />
      <WhoAndWhat bench={bench} />
      <fieldset className="stack group">
        <legend>The room</legend>
        <NumberField
          after={<span className="unit">°C</span>}
          bench={bench}
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
          bench={bench}
          field="pressure"
          label="Barometric pressure"
        />
        <NumberField
          after={<span className="unit">%</span>}
          bench={bench}
          field="humidity"
          label={<IfKnown>Relative humidity</IfKnown>}
        />
      </fieldset>
      <Reported bench={bench} />
      <TextAreaField label="Comment" onText={(comment) => change({ comment })} value={draft.comment} />
      <Recording bench={bench} />
    </form>
  );
}

function WhoAndWhat({ bench }: { bench: Bench }) {
  const { draft, reading, change, chooseAnalyzer, now } = bench;
  const { logbook } = useLogbook();
  const analyzer = logbook.analyzers.get(draft.analyzerId);
  return (
    <fieldset className="pairs">
      <legend className="for-readers">Analyzer, syringe and person</legend>
      <ChoiceField
        choices={equipmentChoices(logbook.analyzers)}
        error={troubleOf(bench, 'analyzerId')}
        hint={analyzer ? `VA is converted: ${conversionWords(analyzer.description.conversion)}.` : undefined}
        label="Analyzer"
        onChoice={chooseAnalyzer}
        value={draft.analyzerId}
        warning={reading.warnings.analyzerId}
      />
      <ChoiceField
        choices={equipmentChoices(logbook.syringes)}
        error={troubleOf(bench, 'syringeId')}
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
        error={troubleOf(bench, 'technologistId')}
        label="Technologist"
        onChoice={(technologistId) => change({ technologistId })}
        value={draft.technologistId}
      />
      <InputField
        error={troubleOf(bench, 'madeAt')}
        hint={draft.madeAt === '' ? 'Now. Change it only for a run that was made earlier.' : undefined}
        label="Made at"
        onBlur={() => bench.leaveField('madeAt')}
        onText={(madeAt) => change({ madeAt })}
        type="datetime-local"
        value={draft.madeAt === '' ? format(now, "yyyy-MM-dd'T'HH:mm") : draft.madeAt}
      />
    </fieldset>
  );
}

function Reported({ bench }: { bench: Bench }) {
  const { draft, change } = bench;
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
        bench={bench}
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
        bench={bench}
        field="dlco"
        label="DLCO"
      />
      <NumberField
        after={<span className="unit">L {draft.vaReportedAs}</span>}
        bench={bench}
        field="inspiredVolume"
        label={<IfKnown>Inspired volume</IfKnown>}
      />
      <NumberField
        after={<span className="unit">L BTPS</span>}
        bench={bench}
        field="volumeCheck"
        label={<IfKnown>Volume check</IfKnown>}
      />
      <NumberField
        after={<span className="unit">s</span>}
        bench={bench}
        field="breathHold"
        label={<IfKnown>Breath-hold time</IfKnown>}
      />
    </fieldset>
  );
}

type NumberFieldName =
  | 'temperature'
  | 'pressure'
  | 'humidity'
  | 'va'
  | 'dlco'
  | 'inspiredVolume'
  | 'volumeCheck'
  | 'breathHold';

function NumberField({
  bench,
  field,
  label,
  after,
}: {
  bench: Bench;
  field: NumberFieldName;
  label: ReactNode;
  after: ReactNode;
}) {
  const { draft, reading, change, leaveField } = bench;
  return (
    <InputField
      after={after}
      error={troubleOf(bench, field)}
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
function troubleOf(bench: Bench, field: BenchField): ReactNode {
  const { reading, showsTrouble, tried, change } = bench;
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

function equipmentChoices(
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
