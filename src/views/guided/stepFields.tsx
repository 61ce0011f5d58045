import { useLogbook } from '../logbookContext.tsx';
import { ChoiceField, choicesOf, IfKnown, InlineChoice, plainChoices } from '../parts/field.tsx';
import { PersonField } from '../parts/personField.tsx';
import { dlcoUnits, gasConditions, pressureUnits, reasonWords, routeWords } from '../parts/words.ts';
import { equipmentChoices, NumberField, type RunForm, troubleOf } from '../runForm/runFields.tsx';

const routes = choicesOf(routeWords);
const reasons = choicesOf(reasonWords);
const pressureChoices = plainChoices(pressureUnits);
const conditions = plainChoices(gasConditions);
const dlcoChoices = plainChoices(dlcoUnits);

export function SetUpFields({ form }: { form: RunForm }) {
  const { draft, reading, change, chooseAnalyzer, hints } = form;
  const { logbook } = useLogbook();
  return (
    <fieldset className="stack">
      <legend className="for-readers">Person, analyzer and syringe</legend>
      <PersonField
        error={troubleOf(form, 'technologistId')}
        label="Technologist"
        onChoice={(technologistId) => change({ technologistId })}
        value={draft.technologistId}
      />
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
    </fieldset>
  );
}

export function RoomFields({ form }: { form: RunForm }) {
  const { draft, change } = form;
  return (
    <fieldset className="stack">
      <legend className="for-readers">The room</legend>
      <NumberField
        after={<span className="unit">°C</span>}
        field="temperature"
        form={form}
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
        field="pressure"
        form={form}
        label="Barometric pressure"
      />
      <NumberField
        after={<span className="unit">%</span>}
        field="humidity"
        form={form}
        label={<IfKnown>Relative humidity</IfKnown>}
      />
    </fieldset>
  );
}

export function ReadingFields({ form }: { form: RunForm }) {
  const { draft, change } = form;
  return (
    <fieldset className="stack">
      <legend className="for-readers">The analyzer reports</legend>
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
        field="va"
        form={form}
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
        field="dlco"
        form={form}
        label="DLCO"
      />
      <NumberField
        after={<span className="unit">L {draft.vaReportedAs}</span>}
        field="inspiredVolume"
        form={form}
        label={<IfKnown>Inspired volume</IfKnown>}
      />
      <NumberField
        after={<span className="unit">s</span>}
        field="breathHold"
        form={form}
        label={<IfKnown>Breath-hold time</IfKnown>}
      />
    </fieldset>
  );
}
