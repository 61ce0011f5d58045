import { Link } from 'wouter';
import type { Quantity, RunNumbers } from '../../core/index.ts';
import type { EntryOf, RunContent } from '../../journal/entries.ts';
import type { LoggedRun } from '../../journal/logbook.ts';
import { formerValues, numbersOf, type RunStage } from '../amendments.ts';
import { evaluationOf, type Failure, opensFailure } from '../failures.ts';
import { useLogbook } from '../logbookContext.tsx';
import { FigureList } from '../parts/figureList.tsx';
import { dayAndTime, dlco, litres, zInTable } from '../parts/figures.ts';
import { Notice } from '../parts/notice.tsx';
import { RunLink, RunVerdict, TechnologistOf } from '../parts/runInTable.tsx';
import { signatureSentence } from '../parts/signatureSentence.ts';
import { Corrected } from '../parts/struck.tsx';
import { TableFrame } from '../parts/tableFrame.tsx';
import { useSignatureChecks } from '../parts/useSignatureChecks.ts';
import { findingSentence, quantityWords, routeWords } from '../parts/words.ts';
import { investigationHref } from '../routes.ts';
import { CloseForm } from './closeForm.tsx';
import { eventsDuring } from './eventsDuring.ts';

/** One failure from opening to closure: what opened it, the runs and events meanwhile, how it ended. */
export function FailureStory({ failure, allOpen }: { failure: Failure; allOpen: readonly Failure[] }) {
  const { logbook, assessments } = useLogbook();
  const { analyzerId, series, openedBy, ended } = failure;
  const label = logbook.analyzers.get(analyzerId)?.description.label ?? 'an unknown analyzer';
  const findings = (assessments.get(openedBy.id)?.verdict.findings ?? []).filter(
    (finding) => opensFailure(finding) && finding.quantity === series.quantity,
  );
  const events = eventsDuring(failure, logbook);
  const companions = allOpen.filter((other) => other.analyzerId === analyzerId);
  return (
    <article className="stack stack--loose">
      <header className="stack">
        <h1>
          {quantityWords[series.quantity]} of {label}
        </h1>
        <p className="quiet">
          {routeWords[series.route]}, opened by the run of{' '}
          <RunLink run={openedBy} technologists={logbook.technologists} />
        </p>
        <p>
          <Link href={investigationHref(openedBy.id)}>
            {ended === null
              ? 'Look into it: checks and likely causes'
              : 'What was checked, and what it pointed to'}
          </Link>
        </p>
      </header>
      <section className="stack">
        <h2>What opened it</h2>
        {findings.map((finding) => {
          const sentence = findingSentence(finding);
          return <p key={sentence}>{sentence}</p>;
        })}
      </section>
      <RunsMeanwhile failure={failure} />
      {events.length > 0 ? (
        <section className="stack group">
          <h2>Events meanwhile</h2>
          <FigureList rows={events.map(({ at, sentence }) => ({ name: dayAndTime(at), value: sentence }))} />
        </section>
      ) : null}
      <section className="stack group">
        {ended === null ? (
          <CloseForm analyzerLabel={label} failure={failure} openOfAnalyzer={companions} />
        ) : (
          <Ended ended={ended} />
        )}
      </section>
    </article>
  );
}

function RunsMeanwhile({ failure: { runs, series } }: { failure: Failure }) {
  return (
    <section className="stack group">
      <h2>Runs while it was open</h2>
      <TableFrame label="Runs while it was open">
        <table>
          <thead>
            <tr>
              <th scope="col">Made at</th>
              <th data-number scope="col">
                {series.quantity === 'va' ? 'Simulated VA, L' : 'DLCO'}
              </th>
              <th data-number scope="col">
                z
              </th>
              <th scope="col">Rules</th>
              <th scope="col">Run’s verdict</th>
              <th scope="col">By</th>
              <th scope="col">Comment</th>
            </tr>
          </thead>
          <tbody>
            {runs.map((run) => (
              <RunMeanwhile key={run.id} quantity={series.quantity} run={run} />
            ))}
          </tbody>
        </table>
      </TableFrame>
    </section>
  );
}

function RunMeanwhile({ run, quantity }: { run: LoggedRun; quantity: Quantity }) {
  const {
    logbook: { technologists },
    assessments,
  } = useLogbook();
  const { id, body } = run;
  const assessment = assessments.get(id);
  const point = assessment && evaluationOf(assessment, quantity);
  const value = (content: RunContent, numbers: RunNumbers | null | undefined) => {
    if (quantity === 'dlco') return dlco(content.reading.dlco, content.reading.dlcoUnit);
    return numbers ? litres(numbers.simulatedVaL) : '–';
  };
  const former = (write: (stage: RunStage) => string) => formerValues(run, technologists, write);
  return (
    <tr>
      <td data-nowrap>
        <RunLink run={run} technologists={technologists} />
      </td>
      <td data-number>
        <Corrected former={former((stage) => value(stage.content, numbersOf(stage)))}>
          {value(body, assessment?.numbers)}
        </Corrected>
      </td>
      <td data-number>{point && point.z !== null ? zInTable(point.z) : '–'}</td>
      <td>{point?.signals.map(({ rule }) => rule).join(', ') || '–'}</td>
      <td>
        <RunVerdict assessments={assessments} run={run} />
      </td>
      <td>
        <TechnologistOf run={run} technologists={technologists} />
      </td>
      <td>
        <Corrected former={former(({ content }) => content.comment)}>{body.comment}</Corrected>
      </td>
    </tr>
  );
}

function Ended({ ended }: { ended: NonNullable<Failure['ended']> }) {
  const { logbook } = useLogbook();
  if (ended.by === 'new-baseline') {
    return (
      <>
        <h2>Put aside by a new baseline</h2>
        <p>Nobody closed it in writing. The new baseline starts without it.</p>
      </>
    );
  }
  const { closure } = ended;
  const closer = logbook.technologists.get(closure.by);
  return (
    <>
      <h2>Closed</h2>
      <FigureList
        rows={[
          { name: 'When', value: dayAndTime(closure.body.closedAt, closure.zone) },
          { name: 'By', value: closer ? `${closer.initials}, ${closer.name}` : 'unknown' },
          { name: 'What was done', value: closure.body.correctiveAction || '–' },
          { name: 'Why it may be closed', value: closure.body.reason },
          { name: 'Signature', value: <SignatureOf closure={closure} /> },
        ]}
      />
    </>
  );
}

/** Whether the closing was signed, and what that signature is worth today. */
function SignatureOf({ closure }: { closure: EntryOf<'failure-closed'> }) {
  const { logbook } = useLogbook();
  const check = useSignatureChecks()?.find(({ entry }) => entry.hash === closure.hash);
  if (check === undefined) return <span className="quiet">being verified…</span>;
  const sentence = signatureSentence(check, logbook);
  if (check.verdict === 'valid' || check.verdict === 'unsigned') return sentence;
  return <Notice title={sentence} tone="fail" urgent />;
}
