import { dlcoFromMlMinMmHg } from '../../core/index.ts';
import type { SimulatorLevel } from '../../journal/entries.ts';
import { levelWords } from '../charting/controlHeading.ts';
import { IfKnown, InlineChoice, plainChoices, TickField } from '../parts/field.tsx';
import { day, dlco as writeDlco } from '../parts/figures.ts';
import { dlcoUnits } from '../parts/words.ts';
import { type LevelDraft, type SimulatorDraft, touchedLevel } from './controlDraft.ts';
import { NumberField } from './controlField.tsx';
import { inOtherDlcoUnit } from './inOtherUnit.ts';
import { TargetFields } from './targetFields.tsx';
import { type ControlForm, troubleOf } from './useControlForm.ts';

const dlcoChoices = plainChoices(dlcoUnits);

/** One level of a session: what it ought to read, and what the analyzer reports. */
export function LevelFields({
  form,
  draft,
  name,
}: {
  form: ControlForm;
  draft: SimulatorDraft;
  name: SimulatorLevel;
}) {
  const level = draft[name];
  const change = (changes: Partial<LevelDraft>) => form.change({ [name]: touchedLevel(level, changes) });
  const missing = troubleOf(form, name);
  return (
    <fieldset className="stack group">
      <legend>{levelWords[name]}</legend>
      <TickField
        checked={level.isMade}
        label={`This session has a ${levelWords[name].toLowerCase()}`}
        onTick={(isMade) => change({ isMade })}
      />
      {missing === undefined ? null : (
        <p className="field__message" data-tone="error" role="alert">
          {missing}
        </p>
      )}
      {level.isMade ? (
        <>
          <TargetFields change={change} form={form} level={level} name={name} />
          <TargetLine form={form} level={level} name={name} />
          <NumberField
            after={
              <InlineChoice
                choices={dlcoChoices}
                name={`Unit of DLCO, ${name} level`}
                onChoice={(dlcoUnit) => change({ dlcoUnit })}
                value={level.dlcoUnit}
              />
            }
            beside={inOtherDlcoUnit(level.dlco, level.dlcoUnit)}
            field={`${name}.dlco`}
            form={form}
            label="DLCO as reported"
            onText={(dlco) => change({ dlco })}
            value={level.dlco}
          />
          <NumberField
            after={<span className="unit">L BTPS</span>}
            field={`${name}.va`}
            form={form}
            label={<IfKnown>VA as reported</IfKnown>}
            onText={(va) => change({ va })}
            value={level.va}
          />
          <NumberField
            after={<span className="unit">s</span>}
            field={`${name}.breathHold`}
            form={form}
            label={<IfKnown>Breath-hold as reported</IfKnown>}
            onText={(breathHold) => change({ breathHold })}
            value={level.breathHold}
          />
        </>
      ) : null}
    </fieldset>
  );
}

/** What the target comes to, and where it is from where nobody typed it today. */
function TargetLine({ form, level, name }: { form: ControlForm; level: LevelDraft; name: SimulatorLevel }) {
  const { reading } = form;
  const target = reading.targets[name];
  const carried =
    level.carriedFrom === null
      ? null
      : `Target carried from the session of ${day(level.carriedFrom)}. Is it still the same gas?`;
  const warning = reading.warnings[name];
  // Typed in the unit of the reading, it stands there already.
  const isNews = level.basis === 'computed' || level.targetUnit !== level.dlcoUnit;
  return (
    <>
      {target === undefined || !isNews ? null : (
        <p role="status">
          Target <strong>{writeDlco(dlcoFromMlMinMmHg(target, level.dlcoUnit), level.dlcoUnit)}</strong>{' '}
          <span className="unit">{level.dlcoUnit}</span>
          {level.basis === 'computed' ? ', by the single-breath equation' : ''}
        </p>
      )}
      {carried === null ? null : <p className="quiet small">{carried}</p>}
      {warning === undefined ? null : (
        <p className="field__message" data-tone="warning">
          {warning}
        </p>
      )}
    </>
  );
}
