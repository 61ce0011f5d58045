import type { Syringe } from '../../journal/logbook.ts';
import { civilDay, litresTyped, millilitres } from '../parts/figures.ts';
import { SyringeFields } from './descriptionFields.tsx';
import { DescriptionForm } from './descriptionForm.tsx';
import { changeSyringe } from './makeEntries.ts';
import { readSyringe, syringeDraftOf } from './readForms.ts';
import { RecordPage } from './recordPage.tsx';
import { afterEquipment, retireAction } from './retireAction.tsx';

export function SyringeRecord({ syringe }: { syringe: Syringe }) {
  const { id, description, retired, history } = syringe;
  const { label, serial, volumeL, deadSpaceL, calibrationDueOn, leakCheckDueOn } = description;
  return (
    <RecordPage
      actions={
        retired
          ? []
          : [
              {
                name: 'Change…',
                form: (close) => (
                  <DescriptionForm
                    Fields={SyringeFields}
                    action="Save the change"
                    asksReason
                    initial={syringeDraftOf(description)}
                    makeEntries={(changed, by, reason) => changeSyringe(syringe, changed, by, reason)}
                    onCancel={close}
                    onDone={close}
                    read={readSyringe}
                    title={`Change ${label}`}
                  />
                ),
              },
              retireAction({ kind: 'syringe', id }, label, afterEquipment),
            ]
      }
      history={history}
      retired={retired}
      rows={[
        { name: 'Serial number', value: serial || '–' },
        { name: 'Nominal volume', value: <>{litresTyped(volumeL)} L</> },
        { name: 'Dead space', value: <>{millilitres(deadSpaceL * 1000)} mL</> },
        { name: 'Calibration due on', value: calibrationDueOn ? civilDay(calibrationDueOn) : 'not known' },
        { name: 'Leak check due on', value: leakCheckDueOn ? civilDay(leakCheckDueOn) : 'not known' },
      ]}
      title={label}
    />
  );
}
