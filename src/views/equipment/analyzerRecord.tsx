import { Link } from 'wouter';
import type { Analyzer } from '../../journal/logbook.ts';
import { openFailures } from '../failures.ts';
import { useLogbook } from '../logbookContext.tsx';
import { dayAndTime } from '../parts/figures.ts';
import { Notice } from '../parts/notice.tsx';
import { ReasonForm } from '../parts/reasonForm.tsx';
import { eventWords } from '../parts/words.ts';
import { useFailures } from '../useFailures.ts';
import { AnalyzerFields } from './descriptionFields.tsx';
import { DescriptionForm } from './descriptionForm.tsx';
import { EventForm } from './eventForm.tsx';
import { analyzerInWords } from './inWords.ts';
import { changeAnalyzer, startBaseline } from './makeEntries.ts';
import { analyzerDraftOf, consequenceOfChange, readAnalyzer } from './readForms.ts';
import { type RecordAction, RecordPage } from './recordPage.tsx';
import { afterEquipment, retireAction } from './retireAction.tsx';

export function AnalyzerRecord({ analyzer }: { analyzer: Analyzer }) {
  const { logbook } = useLogbook();
  const { id, description, retired, history } = analyzer;
  const { label } = description;
  const hasOpenFailure = openFailures(useFailures()).some(({ analyzerId }) => analyzerId === id);
  const actions: RecordAction[] = [
    {
      name: 'Record an event…',
      form: (close) => <EventForm analyzer={analyzer} hasOpenFailure={hasOpenFailure} onDone={close} />,
    },
    {
      name: 'Start a new baseline…',
      form: (close) =>
        hasOpenFailure ? (
          <CloseFirst onBack={close} />
        ) : (
          <ReasonForm
            action="Start a new baseline"
            explanation="From now on no earlier run takes part in a mean, a pattern or a limit of this analyzer. The next ten accepted runs build the new one; until then only the published limits judge."
            makeEntries={(by, reason) => startBaseline(id, new Date().toISOString(), reason, by)}
            onCancel={close}
            onSaved={close}
            only="supervisor"
            title="Start a new baseline"
          />
        ),
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
          onCancel={close}
          onDone={close}
          read={readAnalyzer}
          title={`Change ${label}`}
        />
      ),
    },
    retireAction({ kind: 'analyzer', id }, label, afterEquipment),
  ];
  return (
    <RecordPage
      actions={retired ? [] : actions}
      history={history}
      retired={retired}
      rows={analyzerInWords(description, logbook.syringes)}
      title={label}
    >
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

function Events({ analyzerId }: { analyzerId: string }) {
  const { logbook } = useLogbook();
  const lines = [
    ...logbook.events
      .filter(({ body }) => body.analyzerId === analyzerId)
      .map(({ id, by, zone, body }) => ({
        id,
        by,
        zone,
        at: body.happenedAt,
        what: eventWords[body.type],
        description: body.description,
      })),
    ...logbook.baselineStarts
      .filter(({ body }) => body.analyzerId === analyzerId)
      .map(({ id, by, zone, body }) => ({
        id,
        by,
        zone,
        at: body.from,
        what: 'New baseline',
        description: body.reason,
      })),
  ].sort((one, other) => Date.parse(other.at) - Date.parse(one.at));
  return (
    <section className="stack group">
      <h2>Events</h2>
      {lines.length === 0 ? (
        <p className="quiet">None yet. Services, parts, bags, sensors, cylinders and software stand here.</p>
      ) : (
        <ol className="history">
          {lines.map(({ id, at, zone, by, what, description }) => (
            <li key={id}>
              <span className="quiet">
                {dayAndTime(at, zone)}, {logbook.technologists.get(by)?.initials ?? 'unknown'}
              </span>
              <br />
              <strong>{what}</strong>: {description}
            </li>
          ))}
        </ol>
      )}
    </section>
  );
}
