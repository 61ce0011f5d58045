import type { Cylinder } from '../../journal/logbook.ts';
import { cylinderInWords } from '../equipmentInWords.ts';
import { useLogbook } from '../logbookContext.tsx';
import { civilDay } from '../parts/figures.ts';
import { localDay } from '../parts/localTime.ts';
import { Notice } from '../parts/notice.tsx';
import { useNow } from '../parts/useNow.ts';
import { CylinderFields } from './cylinderFields.tsx';
import { DescriptionForm } from './descriptionForm.tsx';
import { FitForm } from './fitForm.tsx';
import { carriersOf } from './fittedCylinders.ts';
import { AnalyzersOfCylinder } from './fittings.tsx';
import { inOrder } from './inOrder.ts';
import { changeCylinder } from './makeEntries.ts';
import { askAboutCylinder, cylinderDraftOf } from './readCylinder.ts';
import { cylinderReader } from './readers.ts';
import { RecordPage } from './recordPage.tsx';
import { afterCylinder, retireAction } from './retireAction.tsx';
import { StateMark } from './stateMark.tsx';

export function CylinderRecord({ cylinder }: { cylinder: Cylinder }) {
  const { logbook } = useLogbook();
  const { id, description, retired, history } = cylinder;
  const { label, expiresOn } = description;
  const today = localDay(useNow());
  const carriers = carriersOf(logbook, id);
  const isExpired = expiresOn !== null && expiresOn < today;
  return (
    <RecordPage
      actions={
        retired
          ? []
          : [
              {
                name: 'Fit to an analyzer…',
                form: (close) => <FitForm cylinder={cylinder} onDone={close} />,
              },
              {
                name: 'Change…',
                form: (close) => (
                  <DescriptionForm
                    Fields={CylinderFields}
                    action="Save the change"
                    asksReason
                    initial={cylinderDraftOf(description)}
                    makeEntries={(changed, by, reason) => changeCylinder(cylinder, changed, by, reason)}
                    newest={history.at(-1)?.id}
                    onCancel={close}
                    onDone={close}
                    questionsAbout={(changed) => askAboutCylinder(changed, today, description)}
                    read={cylinderReader(logbook, cylinder)}
                    title={`Change ${label}`}
                  />
                ),
              },
              retireAction({ kind: 'cylinder', id }, label, afterCylinder(carriers)),
            ]
      }
      history={inOrder([...history, ...logbook.fittings.filter(({ body }) => body.cylinderId === id)])}
      retired={retired}
      rows={cylinderInWords(description)}
      state={isExpired && !retired ? <Expired carriers={carriers} expiresOn={expiresOn} /> : null}
      title={label}
    >
      <AnalyzersOfCylinder cylinderId={id} />
    </RecordPage>
  );
}

function Expired({ expiresOn, carriers }: { expiresOn: string; carriers: readonly string[] }) {
  return (
    <Notice
      title={<StateMark tone="warn" words={`Expired: its last day was ${civilDay(expiresOn)}`} />}
      tone="warn"
    >
      <p>
        Its concentrations are no longer vouched for.
        {carriers.length > 0 ? ` It is on ${carriers.join(' and ')} now.` : ''}
      </p>
    </Notice>
  );
}
