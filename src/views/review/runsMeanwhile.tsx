import type { Quantity, RunNumbers } from '../../core/index.ts';
import type { RunContent } from '../../journal/entries.ts';
import type { LoggedRun } from '../../journal/logbook.ts';
import { formerValues, numbersOf, type RunStage } from '../amendments.ts';
import { evaluationOf, type Failure } from '../failures.ts';
import { useLogbook } from '../logbookContext.tsx';
import { dlco, litres, zInTable } from '../parts/figures.ts';
import { RunLink, RunVerdict, TechnologistOf } from '../parts/runInTable.tsx';
import { Corrected } from '../parts/struck.tsx';
import { TableFrame } from '../parts/tableFrame.tsx';

/** Every run that was made while a failure was open. */
export function RunsMeanwhile({ failure: { runs, series } }: { failure: Failure }) {
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
