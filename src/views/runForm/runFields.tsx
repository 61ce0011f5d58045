/** The fields of a run, filled in at the bench and when a run is amended, in the order in which an analyzer shows its numbers. */
import { useLogbook } from '../logbookContext.tsx';
import { type Choice, ChoiceField, choicesOf, InputField, TextAreaField } from '../parts/field.tsx';
import { localMinute } from '../parts/localTime.ts';
import { PersonField } from '../parts/personField.tsx';
import { reasonWords, routeWords } from '../parts/words.ts';
import { LeftOn } from './leftOn.tsx';
import { MeasuredField, useOriginWords } from './measuredField.tsx';
import type { RunForm } from './runForm.ts';
import { troubleOf } from './trouble.tsx';
import './runForm.css';

const routes = choicesOf(routeWords);
const reasons = choicesOf(reasonWords);

export function RunFields({ form }: { form: RunForm }) {
  const { draft, change } = form;
  return (
    <>
      <div className="stack">
        <WhoAndWhat form={form} />
        <LeftOn form={form} />
      </div>
      <fieldset className="stack group">
        <legend>The room</legend>
        <MeasuredField field="temperature" form={form} />
        <MeasuredField field="pressure" form={form} />
        <MeasuredField field="humidity" form={form} />
      </fieldset>
      <fieldset className="stack group">
        <legend>The analyzer reports</legend>
        <MeasuredField field="va" form={form} />
        <MeasuredField field="dlco" form={form} />
        <MeasuredField field="inspiredVolume" form={form} />
        <MeasuredField field="breathHold" form={form} />
        <MeasuredField field="volumeCheck" form={form} />
      </fieldset>
      <TextAreaField label="Comment" onText={(comment) => change({ comment })} value={draft.comment} />
    </>
  );
}

function WhoAndWhat({ form }: { form: RunForm }) {
  const { draft, reading, change, chooseAnalyzer, unlessTyped, hints } = form;
  const { logbook } = useLogbook();
  const syringeOrigin = useOriginWords(form, 'syringeId');
  const personOrigin = useOriginWords(form, 'technologistId');
  return (
    <fieldset className="pairs run-form__who">
      <legend className="for-readers">Analyzer, syringe and person</legend>
      <ChoiceField
        choices={equipmentChoices(logbook.analyzers)}
        data-field="analyzerId"
        error={troubleOf(form, 'analyzerId')}
        hint={hints.analyzerId}
        label="Analyzer"
        onChoice={chooseAnalyzer}
        value={draft.analyzerId}
        warning={reading.warnings.analyzerId}
      />
      <ChoiceField
        beside={syringeOrigin}
        choices={equipmentChoices(logbook.syringes)}
        data-field="syringeId"
        error={troubleOf(form, 'syringeId')}
        isTakenOver={syringeOrigin !== null}
        label="Syringe"
        onChoice={(syringeId) => change({ syringeId })}
        value={draft.syringeId}
        warning={reading.warnings.syringeId}
      />
      <PersonField
        beside={personOrigin}
        data-field="technologistId"
        error={troubleOf(form, 'technologistId')}
        isTakenOver={personOrigin !== null}
        keep={form.technologistId}
        label="Technologist"
        onChoice={(technologistId) => change({ technologistId })}
        value={draft.technologistId}
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
        warning={reading.warnings.reason}
      />
      <InputField
        data-field="madeAt"
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
