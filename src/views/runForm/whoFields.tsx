/** Who made a run, on which analyzer, with which syringe, by which route and why: a field each, for any page that asks. */
import { useLogbook } from '../logbookContext.tsx';
import { type Choice, ChoiceField, choicesOf } from '../parts/field.tsx';
import { PersonField } from '../parts/personField.tsx';
import { reasonWords, routeWords } from '../parts/words.ts';
import { useOriginWords } from './measuredField.tsx';
import type { RunForm } from './runForm.ts';
import { troubleOf } from './trouble.tsx';

interface FormProps {
  form: RunForm;
}

const routes = choicesOf(routeWords);
const reasons = choicesOf(reasonWords);

export function AnalyzerField({ form }: FormProps) {
  const { draft, reading, chooseAnalyzer, hints } = form;
  const { logbook } = useLogbook();
  return (
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
  );
}

export function SyringeField({ form }: FormProps) {
  const { draft, reading, change } = form;
  const { logbook } = useLogbook();
  const origin = useOriginWords(form, 'syringeId');
  return (
    <ChoiceField
      beside={origin}
      choices={equipmentChoices(logbook.syringes)}
      data-field="syringeId"
      error={troubleOf(form, 'syringeId')}
      isTakenOver={origin !== null}
      label="Syringe"
      onChoice={(syringeId) => change({ syringeId })}
      value={draft.syringeId}
      warning={reading.warnings.syringeId}
    />
  );
}

export function TechnologistField({ form }: FormProps) {
  const { draft, change, technologistId: keep } = form;
  const origin = useOriginWords(form, 'technologistId');
  return (
    <PersonField
      beside={origin}
      data-field="technologistId"
      error={troubleOf(form, 'technologistId')}
      isTakenOver={origin !== null}
      keep={keep}
      label="Technologist"
      onChoice={(technologistId) => change({ technologistId })}
      value={draft.technologistId}
    />
  );
}

export function RouteField({ form: { draft, change } }: FormProps) {
  return (
    <ChoiceField choices={routes} label="Route" onChoice={(route) => change({ route })} value={draft.route} />
  );
}

export function ReasonField({ form: { draft, reading, change } }: FormProps) {
  return (
    <ChoiceField
      choices={reasons}
      label="Reason"
      onChoice={(reason) => change({ reason })}
      value={draft.reason}
      warning={reading.warnings.reason}
    />
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
