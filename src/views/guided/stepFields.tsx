import { useLogbook } from '../logbookContext.tsx';
import { ChoiceField, choicesOf } from '../parts/field.tsx';
import { PersonField } from '../parts/personField.tsx';
import { reasonWords, routeWords } from '../parts/words.ts';
import { LeftOn } from '../runForm/leftOn.tsx';
import { MeasuredField, useOriginWords } from '../runForm/measuredField.tsx';
import { equipmentChoices } from '../runForm/runFields.tsx';
import type { RunForm } from '../runForm/runForm.ts';
import { troubleOf } from '../runForm/trouble.tsx';

const routes = choicesOf(routeWords);
const reasons = choicesOf(reasonWords);

export function SetUpFields({ form }: { form: RunForm }) {
  const { draft, reading, change, chooseAnalyzer, hints } = form;
  const { logbook } = useLogbook();
  const personOrigin = useOriginWords(form, 'technologistId');
  const syringeOrigin = useOriginWords(form, 'syringeId');
  return (
    <fieldset className="stack">
      <legend className="for-readers">Person, analyzer and syringe</legend>
      <PersonField
        beside={personOrigin}
        error={troubleOf(form, 'technologistId')}
        isTakenOver={personOrigin !== null}
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
        beside={syringeOrigin}
        choices={equipmentChoices(logbook.syringes)}
        error={troubleOf(form, 'syringeId')}
        isTakenOver={syringeOrigin !== null}
        label="Syringe"
        onChoice={(syringeId) => change({ syringeId })}
        value={draft.syringeId}
        warning={reading.warnings.syringeId}
      />
      <LeftOn form={form} />
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
    </fieldset>
  );
}

export function RoomFields({ form }: { form: RunForm }) {
  return (
    <fieldset className="stack">
      <legend className="for-readers">The room</legend>
      <MeasuredField field="temperature" form={form} />
      <MeasuredField field="pressure" form={form} />
      <MeasuredField field="humidity" form={form} />
    </fieldset>
  );
}

export function ReadingFields({ form }: { form: RunForm }) {
  return (
    <fieldset className="stack">
      <legend className="for-readers">The analyzer reports</legend>
      <MeasuredField field="va" form={form} />
      <MeasuredField field="dlco" form={form} />
      <MeasuredField field="inspiredVolume" form={form} />
      <MeasuredField field="breathHold" form={form} />
    </fieldset>
  );
}
