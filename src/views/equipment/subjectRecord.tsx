import { Link } from 'wouter';
import type { Subject } from '../../journal/logbook.ts';
import { subjectStateAt } from '../../journal/standing.ts';
import { controlSeriesHref, newControlHref } from '../deskRoutes.ts';
import { useLogbook } from '../logbookContext.tsx';
import { counted, dayAndTime } from '../parts/figures.ts';
import '../parts/checkList.css';
import { subjectInWords } from '../equipmentInWords.ts';
import { DescriptionForm } from './descriptionForm.tsx';
import { changeSubject } from './makeEntries.ts';
import { subjectQuestions, subjectReader } from './readers.ts';
import { subjectDraftOf } from './readSubject.ts';
import { type RecordAction, RecordPage } from './recordPage.tsx';
import { leaveAction } from './retireAction.tsx';
import { SubjectFields } from './subjectFields.tsx';
import { SubjectStateForm } from './subjectStateForm.tsx';
import { stateWords } from './subjectStates.ts';
import { testsOfSubject } from './subjectTests.ts';

/** A person who serves as a biological control, known here by a code alone. */
export function SubjectRecord({ subject }: { subject: Subject }) {
  const { logbook } = useLogbook();
  const { id, description, retired, history } = subject;
  const { code } = description;
  const state = subjectStateAt(logbook, id, new Date().toISOString());
  const actions: RecordAction[] = [
    {
      name: 'Pause…',
      isOffered: state === 'active',
      form: (close) => <SubjectStateForm onDone={close} state="paused" subject={subject} />,
    },
    {
      name: 'Go on…',
      isOffered: state !== 'active',
      form: (close) => <SubjectStateForm onDone={close} state="active" subject={subject} />,
    },
    {
      name: 'Exclude…',
      isOffered: state !== 'excluded',
      form: (close) => <SubjectStateForm onDone={close} state="excluded" subject={subject} />,
    },
    {
      name: 'Change…',
      form: (close) => (
        <DescriptionForm
          Fields={SubjectFields}
          action="Save the change"
          asksReason
          initial={subjectDraftOf(description)}
          makeEntries={(changed, by, reason) => changeSubject(subject, changed, by, reason)}
          newest={history.at(-1)?.id}
          onCancel={close}
          onDone={close}
          questionsAbout={subjectQuestions(logbook, description)}
          read={subjectReader(logbook, subject)}
          title={`Change ${code}`}
        />
      ),
    },
    leaveAction({ kind: 'subject', id }, code),
  ];
  return (
    <RecordPage
      actions={retired ? [] : actions}
      history={history}
      left="Left"
      retired={retired}
      rows={[
        ...(retired ? [] : [{ name: 'Biological control', value: stateWords[state] }]),
        ...subjectInWords(description),
      ]}
      title={code}
    >
      <Tests subject={subject} />
    </RecordPage>
  );
}

/** On which analyzers the person was tested, with the charts and the way to another test. */
function Tests({ subject: { id, retired, description } }: { subject: Subject }) {
  const { logbook } = useLogbook();
  const tests = testsOfSubject(logbook, id);
  return (
    <section className="stack group">
      <h2>Tests</h2>
      <ul className="check-list check-list--plain">
        {tests.map(({ analyzerId, label, count, last, isInUse }) => (
          <li key={analyzerId}>
            <span>{label}</span>
            <p className="quiet">
              {last === null
                ? 'none yet'
                : `${counted(count, 'test')}, the last on ${dayAndTime(last.at, last.zone)}`}
            </p>
            <span className="line">
              {last === null ? null : (
                <Link
                  href={controlSeriesHref(analyzerId, {
                    kind: 'biological',
                    subjectId: id,
                    quantity: 'dlco',
                  })}
                >
                  Chart
                  <span className="for-readers">
                    {' '}
                    of {description.code} on {label}
                  </span>
                </Link>
              )}
              {isInUse && retired === null ? (
                <Link href={newControlHref('biological', analyzerId)}>
                  Record a test<span className="for-readers"> on {label}</span>
                </Link>
              ) : null}
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}
