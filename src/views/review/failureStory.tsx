import type { Finding, Quantity } from '../../core/index.ts';
import { evaluationOf, type Failure } from '../failures.ts';
import { useLogbook } from '../logbookContext.tsx';
import { FigureList } from '../parts/figureList.tsx';
import { dayAndTime, dlco, litres, zInTable } from '../parts/figures.ts';
import { TableFrame } from '../parts/tableFrame.tsx';
import { VerdictBadge } from '../parts/verdictMark.tsx';
import { findingSentence, quantityWords, routeWords } from '../parts/words.ts';
import { shownJudgement } from '../verdictOfTheDay.ts';
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
          {dayAndTime(openedBy.body.madeAt, openedBy.entry.zone)}
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

/** A rule that only warns may have fired at the same run, and opens nothing. */
function opensFailure(finding: Finding): finding is Extract<Finding, { quantity: Quantity }> {
  return finding.kind === 'published-limit' || (finding.kind === 'signal' && finding.severity === 'action');
}

function RunsMeanwhile({ failure: { runs, series } }: { failure: Failure }) {
  const { logbook, assessments } = useLogbook();
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
            {runs.map((run) => {
              const { id, body, entry } = run;
              const judged = shownJudgement(run, assessments);
              const assessment = assessments.get(id);
              const point = assessment && evaluationOf(assessment, series.quantity);
              const { dlco: value, dlcoUnit } = body.reading;
              return (
                <tr key={id}>
                  <td data-nowrap>{dayAndTime(body.madeAt, entry.zone)}</td>
                  <td data-number>
                    {series.quantity === 'va'
                      ? assessment && litres(assessment.numbers.simulatedVaL)
                      : dlco(value, dlcoUnit)}
                  </td>
                  <td data-number>{point && point.z !== null ? zInTable(point.z) : '–'}</td>
                  <td>{point?.signals.map(({ rule }) => rule).join(', ') || '–'}</td>
                  <td>
                    {judged ? <VerdictBadge establishing={judged.establishing} word={judged.word} /> : '–'}
                  </td>
                  <td>{logbook.technologists.get(body.technologistId)?.initials}</td>
                  <td>{body.comment}</td>
                </tr>
              );
            })}
          </tbody>
        </table>
      </TableFrame>
    </section>
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
        ]}
      />
    </>
  );
}
