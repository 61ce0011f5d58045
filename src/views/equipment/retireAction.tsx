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

/** Of an analyzer and a syringe. */
export const afterEquipment = 'Its runs stay as they are. The bench warns when it is chosen again.';
