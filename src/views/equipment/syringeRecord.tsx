import type { Syringe } from '../../journal/logbook.ts';
import { SyringeFields } from './descriptionFields.tsx';
import { DescriptionForm } from './descriptionForm.tsx';
import { syringeInWords } from './inWords.ts';
import { changeSyringe } from './makeEntries.ts';
import { consequenceOfSyringeChange, readSyringe, syringeDraftOf } from './readForms.ts';
import { RecordPage } from './recordPage.tsx';
import { afterEquipment, retireAction } from './retireAction.tsx';

export function SyringeRecord({ syringe }: { syringe: Syringe }) {
  const { id, description, retired, history } = syringe;
  const { label } = description;
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
                    consequenceOf={(changed) => consequenceOfSyringeChange(description, changed)}
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
      rows={syringeInWords(description)}
      title={label}
    />
  );
}
