import type { Syringe } from '../../journal/logbook.ts';
import { syringeInWords } from '../equipmentInWords.ts';
import { useLogbook } from '../logbookContext.tsx';
import { DropForm } from './dropForm.tsx';
import { inOrder } from './inOrder.ts';
import { RecordPage } from './recordPage.tsx';
import { afterEquipment, retireAction } from './retireAction.tsx';
import { SyringeCare } from './syringeCare.tsx';
import { SyringeChange } from './syringeChange.tsx';
import { SyringeState } from './syringeState.tsx';

export function SyringeRecord({ syringe }: { syringe: Syringe }) {
  const { logbook } = useLogbook();
  const { id, description, retired, history } = syringe;
  return (
    <RecordPage
      actions={
        retired
          ? []
          : [
              { name: 'Dropped…', form: (close) => <DropForm onDone={close} syringe={syringe} /> },
              { name: 'Change…', form: (close) => <SyringeChange onDone={close} syringe={syringe} /> },
              retireAction({ kind: 'syringe', id }, description.label, afterEquipment),
            ]
      }
      history={inOrder([...history, ...logbook.drops.filter(({ body }) => body.syringeId === id)])}
      retired={retired}
      // When it is due stands under its care: a check overtakes what was typed here.
      rows={syringeInWords(description).filter(({ name }) => !name.endsWith('due on'))}
      state={retired ? null : <SyringeState syringeId={id} />}
      title={description.label}
    >
      <SyringeCare syringe={syringe} />
    </RecordPage>
  );
}
