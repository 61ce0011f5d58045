import { ReasonForm } from '../parts/reasonForm.tsx';
import { type Retirable, retire } from './makeEntries.ts';
import type { RecordAction } from './recordPage.tsx';

/** What may be done last with a piece of equipment or a person. `label` names it, `afterwards` says what then still holds. */
export const retireAction = (thing: Retirable, label: string, afterwards: string): RecordAction => ({
  name: 'Retire…',
  form: (close) => (
    <ReasonForm
      action="Retire"
      explanation={afterwards}
      makeEntries={(by, reason) => retire(thing, by, reason)}
      onCancel={close}
      onSaved={close}
      title={`Retire ${label}`}
    />
  ),
});

/** The same for a person known by a code. */
export const leaveAction = (thing: Retirable, code: string): RecordAction => ({
  name: 'Leaves…',
  form: (close) => (
    <ReasonForm
      action="Leaves for good"
      explanation="The tests stay as they are. The code can no longer be chosen for a test, and is not given to somebody else."
      makeEntries={(by, reason) => retire(thing, by, reason)}
      onCancel={close}
      onSaved={close}
      title={`${code} leaves`}
    />
  ),
});

/** Of an analyzer and a syringe. */
export const afterEquipment = 'Its runs stay as they are. The bench warns when it is chosen again.';

/** Of a cylinder; `on` names the analyzers that it is fitted to. */
export const afterCylinder = (on: readonly string[]) =>
  `It can no longer be fitted. ${
    on.length === 0
      ? 'Where it was fitted stays written down.'
      : `It is on ${on.join(' and ')} now: write down there what is fitted in its place.`
  }`;
