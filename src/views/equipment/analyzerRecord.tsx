import { Link } from 'wouter';
import type { Analyzer } from '../../journal/logbook.ts';
import { outOfService } from '../../journal/standing.ts';
import { CompareLink } from '../compareLink.tsx';
import { analyzerInWords } from '../equipmentInWords.ts';
import { openFailures } from '../failures.ts';
import { useLogbook } from '../logbookContext.tsx';
import { startBaseline } from '../newBaseline.ts';
import { BaselineLinks } from '../parts/baselineLinks.tsx';
import { Notice } from '../parts/notice.tsx';
import { ReasonForm } from '../parts/reasonForm.tsx';
import { useFailures } from '../useFailures.ts';
import { AnalyzerFields } from './analyzerFields.tsx';
import { Events, OutOfService, ServicePeriods } from './analyzerSections.tsx';
import { afterNewBaseline, consequenceOfChange } from './consequences.ts';
import { DescriptionForm } from './descriptionForm.tsx';
import { EventForm } from './eventForm.tsx';
import { FitForm } from './fitForm.tsx';
import { CylindersOfAnalyzer } from './fittings.tsx';
import { inOrder } from './inOrder.ts';
import { changeAnalyzer } from './makeEntries.ts';
import { analyzerDraftOf } from './readAnalyzer.ts';
import { analyzerReader } from './readers.ts';
import { type RecordAction, RecordPage } from './recordPage.tsx';
import { afterEquipment, retireAction } from './retireAction.tsx';
import { ServiceForm } from './serviceForm.tsx';

export function AnalyzerRecord({ analyzer }: { analyzer: Analyzer }) {
  const { logbook } = useLogbook();
  const { id, description, retired, history } = analyzer;
  const { label } = description;
  const hasOpenFailure = openFailures(useFailures()).some(({ analyzerId }) => analyzerId === id);
  const service = outOfService(logbook, id, new Date().toISOString());
  const actions: RecordAction[] = [
    {
      name: 'Put back in service…',
      isOffered: service !== null,
      form: (close) => <ServiceForm analyzer={analyzer} inService onDone={close} />,
    },
    {
      name: 'Record an event…',
      form: (close) => <EventForm analyzer={analyzer} hasOpenFailure={hasOpenFailure} onDone={close} />,
    },
    { name: 'Fit a cylinder…', form: (close) => <FitForm analyzer={analyzer} onDone={close} /> },
    {
      name: 'Start a new baseline…',
      form: (close) =>
        hasOpenFailure ? (
          <CloseFirst onBack={close} />
        ) : (
          <ReasonForm
            action="Start a new baseline"
            explanation={afterNewBaseline(logbook, id, Date.now())}
            makeEntries={(by, reason) => startBaseline(id, new Date().toISOString(), reason, by)}
            onCancel={close}
            onSaved={close}
            only="supervisor"
            title="Start a new baseline"
          />
        ),
    },
    {
      name: 'Take out of service…',
      isOffered: service === null,
      form: (close) => <ServiceForm analyzer={analyzer} inService={false} onDone={close} />,
    },
    {
      name: 'Change…',
      form: (close) => (
        <DescriptionForm
          Fields={AnalyzerFields}
          action="Save the change"
          asksReason
          consequenceOf={(changed) => consequenceOfChange(description, changed, hasOpenFailure)}
          initial={analyzerDraftOf(description)}
          makeEntries={(changed, by, reason) => changeAnalyzer(analyzer, changed, by, reason, Date.now())}
          newest={history.at(-1)?.id}
          onCancel={close}
          onDone={close}
          read={analyzerReader(logbook, analyzer)}
          title={`Change ${label}`}
        />
      ),
    },
    retireAction({ kind: 'analyzer', id }, label, afterEquipment),
  ];
  const ofThis = ({ body }: { body: { analyzerId: string } }) => body.analyzerId === id;
  return (
    <RecordPage
      actions={retired ? [] : actions}
      history={inOrder([
        ...history,
        ...logbook.services.filter(ofThis),
        ...logbook.fittings.filter(ofThis),
        ...logbook.policies.filter(ofThis),
      ])}
      retired={retired}
      rows={[
        { name: 'Service', value: service ? 'Out of service' : 'In service' },
        ...analyzerInWords(description, logbook.syringes),
      ]}
      state={service ? <OutOfService service={service} /> : null}
      title={label}
    >
      <CompareLink analyzerId={id} />
      <BaselineLinks analyzerId={id} />
      <CylindersOfAnalyzer analyzerId={id} />
      <ServicePeriods analyzerId={id} />
      <Events analyzerId={id} />
    </RecordPage>
  );
}

function CloseFirst({ onBack }: { onBack: () => void }) {
  return (
    <Notice title="A failure is open on this analyzer." tone="warn">
      <p>
        A new baseline would put it aside without a word. <Link href="/review">Close it under Review</Link>{' '}
        first.
      </p>
      <div>
        <button onClick={onBack} type="button">
          Back
        </button>
      </div>
    </Notice>
  );
}
